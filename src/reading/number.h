#pragma once

#include <optional>

#include "reading/token.h"
#include "recipe/recipe.h"

namespace maslin::reading {

/// A number as cooks write it, read from the tokens.
struct Number {
  Range range;
  std::size_t end = 0;   // the token after it
  bool article = false;  // only "a" or "an": one if a measure follows
  bool word = false;     // written in words
  bool approximate = false;
};

/// One number: "1 1/2", "1½", "2 & 1/2", "one and a half", "half a", "a dozen",
/// "three quarters of a".
std::optional<Number> one_number(const Text& text, std::size_t i);

/// One number or a range: "1-2", "1½ to 2", "two or three", "between 2 and 3".
std::optional<Number> any_number(const Text& text, std::size_t i);

/// "and a half" after a unit ("a teaspoon and a half"): the share and the token after.
std::optional<Number> trailing_share(const Text& text, std::size_t i);

/// A range mark between two numbers at `i`: the token after it, or `i` when none.
std::size_t range_mark(const Text& text, std::size_t i);

}  // namespace maslin::reading
