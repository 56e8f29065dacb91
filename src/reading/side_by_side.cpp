#include "reading/side_by_side.h"

#include <optional>

#include "reading/layout.h"

namespace maslin::reading {
namespace {

constexpr std::size_t k_gap = 3;  // blanks between columns
constexpr std::size_t k_fewest_rows = 4;
constexpr std::size_t k_left_empty = 20;  // a row with nothing on the left is set in so far
constexpr std::size_t k_slack = 4;        // letters outside ASCII shift the bytes

struct Row {
  std::string_view left;
  std::string_view right;
  std::size_t at = 0;  // where the right cell begins
};

std::optional<Row> row_of(std::string_view line) {
  const std::size_t first = line.find_first_not_of(" \t");
  if (first == std::string_view::npos) {
    return std::nullopt;
  }
  if (first > k_left_empty) {
    return Row{{}, trimmed(line), first};
  }
  const std::size_t gap = line.find(std::string(k_gap, ' '), first);
  if (gap == std::string_view::npos) {
    return std::nullopt;
  }
  const std::size_t at = line.find_first_not_of(' ', gap);
  if (at == std::string_view::npos || line.find(std::string(k_gap, ' '), at) < line.size()) {
    return std::nullopt;  // three columns are a table
  }
  return Row{trimmed(line.substr(0, gap)), trimmed(line.substr(at)), at};
}

/// A digit, or a vulgar fraction of Latin-1 or of the number forms.
bool begins_with_amount(std::string_view cell) {
  return !cell.empty() && ((cell.front() >= '0' && cell.front() <= '9') ||
                           cell.starts_with("\xC2\xBC") || cell.starts_with("\xC2\xBD") ||
                           cell.starts_with("\xC2\xBE") || cell.starts_with("\xE2\x85"));
}

/// "1/2 c. sugar" names a thing, "2 cups" is an amount alone.
bool has_two_words(std::string_view cell) {
  std::size_t words = 0;
  bool inside = false;
  for (const char c : cell) {
    const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c & '\x80') != 0;
    words += letter && !inside ? 1U : 0U;
    inside = letter;
  }
  return words >= 2;
}

bool is_beside(const Row& row, const Row& first) {
  return row.at + k_slack >= first.at && row.at <= first.at + k_slack;
}

/// The rows of two columns from `i` on. A row may have nothing on the right while the columns go
/// on under it.
std::vector<Row> rows_from(const std::vector<std::string_view>& lines, std::size_t i) {
  std::vector<Row> rows;
  std::size_t whole = 0;  // past the last that has a right cell
  for (std::size_t at = i; at < lines.size(); ++at) {
    auto row = row_of(lines[at]);
    if (row && (rows.empty() || is_beside(*row, rows.front()))) {
      rows.push_back(*row);
      whole = rows.size();
      continue;
    }
    const std::string_view left = trimmed(lines[at]);
    const bool alone = !row && !rows.empty() && rows.size() == whole && !left.empty() &&
                       lines[at].size() + k_gap <= rows.front().at + k_slack;
    if (!alone) {
      break;
    }
    rows.push_back(Row{left, {}, rows.front().at});
  }
  rows.resize(whole);
  return rows;
}

bool is_two_lists(const std::vector<Row>& rows) {
  std::size_t left = 0;
  std::size_t right = 0;
  std::size_t named = 0;
  for (const Row& row : rows) {
    left += begins_with_amount(row.left) || row.left.empty() ? 1U : 0U;
    right += begins_with_amount(row.right) ? 1U : 0U;
    named += has_two_words(row.left) && has_two_words(row.right) ? 1U : 0U;
  }
  return rows.size() >= k_fewest_rows && named * 2 >= rows.size() && !rows.front().left.empty() &&
         left * 3 >= rows.size() * 2 && right * 2 >= rows.size();
}

}  // namespace

std::vector<std::string> unfolded(const std::vector<std::string_view>& lines) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < lines.size();) {
    const std::vector<Row> rows = rows_from(lines, i);
    if (!is_two_lists(rows)) {
      out.emplace_back(lines[i++]);
      continue;
    }
    for (const Row& row : rows) {
      if (!row.left.empty()) {
        out.emplace_back(row.left);
      }
    }
    out.emplace_back();
    for (const Row& row : rows) {
      if (!row.right.empty()) {
        out.emplace_back(row.right);
      }
    }
    i += rows.size();
  }
  return out;
}

}  // namespace maslin::reading
