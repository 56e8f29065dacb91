// A mend as a change of the recipe, so that what it does can be forecast.
#pragma once

#include <string_view>

#include "forecast/forecast.h"
#include "pantry/pantry.h"
#include "recipe/recipe.h"

namespace maslin {

/// The recipe with a change of data/causes.tsv, "oven_celsius=-15 bake_minutes=6": degrees
/// and minutes of the bake are added, amounts of yeast, liquid, sugar, salt and glaze_liquid
/// and the piece's mass are multiplied. A word that is none of these changes nothing.
Recipe mended(Recipe recipe, const Pantry& pantry, std::string_view change);

/// What a change does to a set-up rather than to the recipe: "prove=1.2" lets the last prove
/// grow by that much more.
void mend_schedule(ForecastSetup& setup, std::string_view change);

}  // namespace maslin
