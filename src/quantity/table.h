// Tab-separated tables: the form of every table in data/.
#pragma once

#include <string_view>
#include <vector>

namespace maslin {

/// A table as views into its text: '#' lines are comments, the first other line
/// names the columns. The text must outlive the table.
class Table {
 public:
  explicit Table(std::string_view text);

  std::size_t size() const { return rows_.size(); }
  /// The cell, or empty when the row is short or the column is unknown.
  std::string_view cell(std::size_t row, std::string_view column) const;
  /// The cell as a number; `otherwise` when empty or no number.
  double number(std::size_t row, std::string_view column, double otherwise = 0.0) const;
  bool has(std::string_view column) const;

 private:
  std::vector<std::string_view> columns_;
  std::vector<std::vector<std::string_view>> rows_;
};

/// Splits at each separator; empty pieces are kept, an empty text gives none.
std::vector<std::string_view> split(std::string_view text, char separator);

}  // namespace maslin
