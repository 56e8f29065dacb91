// A text read with the embedded tables, and its lines held against what it says.
#pragma once

#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "pantry/pantry.h"
#include "reading/reading.h"

namespace maslin::reader {

inline Recipe read(const std::string& text) {
  static const Pantry k_pantry(embedded_pantry_tables());
  static const Words k_words(k_pantry);
  Reading reading = read_text(text, k_pantry, k_words, {});
  CHECK(!reading.problem);
  return reading.recipe;
}

/// All lines of all parts, in the order of the parts.
inline std::vector<Line> lines_of(const Recipe& recipe) {
  std::vector<Line> out;
  for (const Part& part : recipe.parts) {
    out.insert(out.end(), part.lines.begin(), part.lines.end());
  }
  return out;
}

struct Amount {
  const char* id;
  double number;  // negative: none is said
  const char* unit;
};

inline void check_lines(const std::string& text, const std::vector<Amount>& wanted) {
  CAPTURE(text);
  const std::vector<Line> lines = lines_of(read(text));
  REQUIRE(lines.size() == wanted.size());
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    CHECK(lines[i].ingredient_id == wanted[i].id);
    CHECK(lines[i].found.unit == wanted[i].unit);
    CHECK(lines[i].found.number.has_value() == (wanted[i].number >= 0.0));
    if (lines[i].found.number && wanted[i].number >= 0.0) {
      CHECK(lines[i].found.number->low == doctest::Approx(wanted[i].number));
    }
  }
}

}  // namespace maslin::reader
