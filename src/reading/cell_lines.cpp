#include "reading/cell_lines.h"

#include <algorithm>

#include "reading/layout.h"

namespace maslin::reading {
namespace {

constexpr std::size_t k_fewest_cells = 9;

/// A line that is one cell: its only bar stands at the end.
bool is_cell(std::string_view line) {
  return line.ends_with('|') && std::count(line.begin(), line.end(), '|') == 1;
}

/// A figure alone, which begins a row: "2 2/3", "1 1/2", "½".
bool is_figure(std::string_view cell) {
  return !cell.empty() && cell.size() <= 8 &&
         std::none_of(cell.begin(), cell.end(),
                      [](char c) {
                        return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == ':' ||
                               c == ';';
                      }) &&
         ((cell.front() >= '0' && cell.front() <= '9') ||
          static_cast<unsigned char>(cell.front()) >= 0x80);
}

}  // namespace

std::vector<std::string> joined_cells(std::vector<std::string> lines) {
  const auto cells = std::count_if(lines.begin(), lines.end(),
                                   [](const std::string& line) { return is_cell(trimmed(line)); });
  if (static_cast<std::size_t>(cells) < k_fewest_cells) {
    return lines;
  }
  std::vector<std::string> out;
  constexpr std::size_t k_row_cells = 3;  // amount, unit, name
  bool in_row = false;
  bool fresh = false;
  std::size_t cells_in_row = 0;
  for (std::string& line : lines) {
    const std::string_view whole = trimmed(line);
    if (!is_cell(whole)) {
      out.push_back(std::move(line));
      in_row = false;
      continue;
    }
    const std::string_view cell = trimmed(whole.substr(0, whole.size() - 1));
    // A row whose first cells are empty is one without an amount, or goes on with the last.
    const bool without = in_row && cell.empty() && cells_in_row >= k_row_cells;
    cells_in_row = is_figure(cell) || without ? 1 : cells_in_row + 1;
    fresh = fresh || without;
    const bool goes_on =
        cell.starts_with(';') || (!cell.empty() && cell.front() >= 'a' && cell.front() <= 'z');
    if (fresh && !cell.empty() && !is_figure(cell) && !goes_on) {
      out.emplace_back(cell);
      fresh = false;
      continue;
    }
    fresh = fresh && cell.empty();
    if (is_figure(cell) || (!in_row && !cell.empty())) {
      out.emplace_back(cell);
      in_row = is_figure(cell);
    } else if (!cell.empty()) {
      out.back() += " " + std::string(cell);
    }
  }
  return out;
}

}  // namespace maslin::reading
