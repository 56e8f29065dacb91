// Words looked for in the text of a step. Private to the folder.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "quantity/table.h"

namespace maslin {

/// ASCII letters to lower case.
inline std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  return out;
}

inline bool has(const std::string& text, std::string_view word) {
  return text.find(word) != std::string::npos;
}

/// The row of a word table whose word stands in the text; nothing if none does.
inline std::optional<std::size_t> row_in(const Table& table, const std::string& text) {
  for (std::size_t row = 0; row < table.size(); ++row) {
    if (has(text, table.cell(row, "word"))) {
      return row;
    }
  }
  return std::nullopt;
}

}  // namespace maslin
