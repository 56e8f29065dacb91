#pragma once

#include <string>

#include "pantry/pantry.h"
#include "recipe/recipe.h"

namespace maslin {

/// The recipe as ordinary recipe text that `read_text` reads back to the same recipe:
/// title, measures, yield and tin, then each part under a heading with its lines and
/// numbered steps. Amounts are written as found; an amount that was changed since is
/// written in grams.
std::string write_text(const Recipe& recipe, const Pantry& pantry);

/// "190 C, 25-30 minutes"-like words for a range: "25–30", "12".
std::string range_text(const Range& range);

}  // namespace maslin
