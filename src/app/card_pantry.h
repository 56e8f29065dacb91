// The rows of the pantry's tables that one recipe needs in any kitchen.
#pragma once

#include <string>

#include "pantry/pantry.h"
#include "recipe/json.h"
#include "recipe/recipe.h"

namespace maslin {

/// {"ingredients": table, "flours": table, ...}: rows of the recipe's ingredients, of what may
/// stand in for them, and of every flour, yeast and water, without their comments.
Json card_pantry(const Recipe& recipe);

/// [{"locale", "unit", "ml"}]: the measures of all countries.
Json card_measures(const Pantry& pantry);

}  // namespace maslin
