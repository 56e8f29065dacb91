#include "reading/boxed_table.h"

#include <algorithm>

#include "quantity/table.h"
#include "reading/layout.h"

namespace maslin::reading {
namespace {

constexpr std::size_t k_fewest_rules = 3;
constexpr std::size_t k_columns = 4;  // name, weight, measure, method

/// "|-----|----|": a rule between rows.
bool is_rule(std::string_view line) {
  return line.size() >= 8 && line.front() == '|' && line.find('-') != std::string_view::npos &&
         line.find_first_not_of("|-+ ") == std::string_view::npos;
}

std::vector<std::string_view> cells(std::string_view line) {
  line = trimmed(line);
  if (line.size() < 2 || line.front() != '|' || line.back() != '|') {
    return {};
  }
  return split(line.substr(1, line.size() - 2), '|');
}

bool has_digit(std::string_view cell) {
  return std::any_of(cell.begin(), cell.end(), [](char c) { return c >= '0' && c <= '9'; });
}

/// One blank where the cell has several: "6 LB  8 OZ" is one amount.
std::string squeezed(std::string_view cell) {
  std::string out;
  for (const char c : trimmed(cell)) {
    out += c == ' ' && !out.empty() && out.back() == ' ' ? "" : std::string(1, c);
  }
  return out;
}

struct Row {
  std::string name;
  bool full = false;  // its cell had no blank left: a word may go on in the next
  std::string amount;
};

std::string words_of(const Row& row) {
  return row.amount.empty() ? row.name : row.name + "  " + row.amount;
}

void add_name(Row& row, std::string_view cell) {
  const std::string_view more = trimmed(cell);
  const bool small = !more.empty() && more.front() >= 'a' && more.front() <= 'z';
  row.name += row.name.empty() || (row.full && small) ? "" : " ";
  row.name += more;
  row.full = !cell.empty() && cell.back() != ' ';
}

/// Dashes and bars alone, the em dash of a page that made it of two among them.
bool is_ruled(std::string_view row) {
  return row.find_first_not_of("|-: \xE2\x80\x93\x94") == std::string_view::npos;
}

}  // namespace

std::vector<std::string> rows_apart(const std::vector<std::string>& lines) {
  constexpr std::size_t k_fewest_seams = 3;
  std::vector<std::string> out;
  for (const std::string& line : lines) {
    std::size_t seams = 0;
    for (std::size_t at = line.find("||"); at != std::string::npos; at = line.find("||", at + 2)) {
      ++seams;
    }
    if (seams < k_fewest_seams) {
      out.push_back(line);
      continue;
    }
    const std::size_t bar = line.find('|');
    if (bar > 0) {
      out.emplace_back(line.data(), bar);
    }
    for (std::size_t from = bar; from < line.size();) {
      const std::size_t seam = std::min(line.find("||", from), line.size());
      std::string_view row(line.data() + from, seam - from);
      while (!row.empty() && (row.front() == '|' || row.front() == ' ')) {
        row.remove_prefix(1);
      }
      while (!row.empty() && (row.back() == '|' || row.back() == ' ')) {
        row.remove_suffix(1);
      }
      if (!is_ruled(row)) {
        out.emplace_back(row);
      }
      from = seam + 2;
    }
  }
  return out;
}

std::vector<std::string> unboxed(const std::vector<std::string>& lines) {
  const auto rules = std::count_if(lines.begin(), lines.end(), [](const std::string& line) {
    return is_rule(line) && cells(line).size() == k_columns;
  });
  if (static_cast<std::size_t>(rules) < k_fewest_rules) {
    return lines;
  }
  std::vector<std::string> out;
  std::vector<std::string> method;
  std::vector<Row> rows;
  const auto flush = [&] {
    for (const Row& row : rows) {
      out.push_back(words_of(row));
    }
    rows.clear();
  };
  for (const std::string& line : lines) {
    const std::vector<std::string_view> row = cells(line);
    if (is_rule(line)) {
      flush();  // a name does not go on past a rule
      continue;
    }
    if (row.size() != k_columns) {
      flush();
      out.push_back(line);
      continue;
    }
    const std::string weight = squeezed(row[1]);
    const std::string measure = squeezed(row[2]);
    if (has_digit(weight) || has_digit(measure)) {
      rows.emplace_back();
      rows.back().amount = weight.empty() ? measure : weight;
      if (!weight.empty() && !measure.empty()) {
        rows.back().amount += " (" + measure + ")";
      }
      add_name(rows.back(), row[0]);
    } else if (!trimmed(row[0]).empty() && weight.empty()) {
      if (rows.empty()) {
        rows.emplace_back();
      }
      add_name(rows.back(), row[0]);
    } else if (!trimmed(row[0]).empty()) {
      out.emplace_back(trimmed(row[0]));  // the head's "Ingredients"
      method.insert(method.begin(), std::string(trimmed(row[3])));
      continue;
    }
    if (!trimmed(row[3]).empty()) {
      method.emplace_back(trimmed(row[3]));
    }
  }
  flush();
  out.insert(out.end(), method.begin(), method.end());
  return out;
}

}  // namespace maslin::reading
