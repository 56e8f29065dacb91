// Wants as a person says them: "softer", "less sugar", "12 pieces of 80 g".
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "adjust/want.h"

namespace maslin {

/// What a phrase asks for, or the sentence that says what it should have been.
struct SaidWants {
  std::vector<Want> wants;
  std::string problem;
};

/// The sentence about words that are no want.
std::string not_a_want(std::string_view words);

/// Reads one or more wants, parted by commas, semicolons or "and", each in words or in the
/// short form of parse_want. Words say a feel ("soft", "a little stiffer"), a figure of the
/// dough ("less sugar", "salt about 2 %", "water at most 65 %"), a yield ("12 pieces of
/// 80 g", "900 g", "half as much", "fits the tin"), what must not be in it ("no egg",
/// "vegan", "without butter"), a stand-in ("oat milk instead of milk", "30 % wholemeal", "fresh
/// yeast"), a cooked part of the flour ("tangzhong"), a time ("risen within 1 hour") or a cost
/// ("cheaper").
SaidWants wants_from_words(std::string_view text);

}  // namespace maslin
