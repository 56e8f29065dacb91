#include "quantity/table.h"

#include "quantity/number_text.h"

namespace maslin {

std::vector<std::string_view> split(std::string_view text, char separator) {
  std::vector<std::string_view> pieces;
  while (!text.empty()) {
    const std::size_t at = text.find(separator);
    pieces.push_back(text.substr(0, at));
    if (at == std::string_view::npos) {
      return pieces;
    }
    text.remove_prefix(at + 1);
    if (text.empty()) {
      pieces.push_back(text);
    }
  }
  return pieces;
}

Table::Table(std::string_view text) {
  for (std::string_view line : split(text, '\n')) {
    if (!line.empty() && line.back() == '\r') {
      line.remove_suffix(1);
    }
    if (line.empty() || line.front() == '#') {
      continue;
    }
    std::vector<std::string_view> cells = split(line, '\t');
    if (columns_.empty()) {
      columns_ = std::move(cells);
    } else {
      rows_.push_back(std::move(cells));
    }
  }
}

std::string_view Table::cell(std::size_t row, std::string_view column) const {
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    if (columns_[c] == column) {
      return c < rows_[row].size() ? rows_[row][c] : std::string_view();
    }
  }
  return {};
}

double Table::number(std::size_t row, std::string_view column, double otherwise) const {
  return number_from(cell(row, column)).value_or(otherwise);
}

bool Table::has(std::string_view column) const {
  for (const std::string_view name : columns_) {
    if (name == column) {
      return true;
    }
  }
  return false;
}

}  // namespace maslin
