#pragma once

#include "recipe/recipe.h"

namespace maslin::reading {

/// Takes out what no kitchen does (a prove of a million hours, a tin as long as a street) with a
/// doubt each, and what is beyond a recipe's limits: its words go to the remarks. After this the
/// recipe's document can be read again.
void keep_in_bounds(Recipe& recipe);

}  // namespace maslin::reading
