// Amounts written back into a recipe, and the yeast for a prove time.
#pragma once

#include "adjust/adjust.h"
#include "pantry/pantry.h"
#include "recipe/recipe.h"

namespace maslin {

/// The line at `to` grams: its spread goes along; a whole item keeps its unit, anything else
/// is then stated in grams.
void set_grams(Line& line, double from, double to, double unit_grams);
/// The line `factor` times as much, stated as it was found.
void scale_line(Line& line, double factor);

}  // namespace maslin
