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

/// One line of it: "300 g strong white flour, sifted".
std::string line_text(const Line& line, const Pantry& pantry);
/// "Date paste (filling):"
std::string heading_text(const Part& part);
/// The step as found, or said from its settings: "Bake at 190 °C for 25 minutes until golden."
std::string step_text(const Step& step);
/// "23 x 13 x 7 cm loaf tin"
std::string tin_text(const Tin& tin);

/// "190 C, 25-30 minutes"-like words for a range: "25–30", "12".
std::string range_text(const Range& range);

}  // namespace maslin
