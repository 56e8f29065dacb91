#pragma once

#include "pantry/pantry.h"
#include "reading/words.h"
#include "recipe/recipe.h"

namespace maslin::reading {

/// Holds the read recipe against what doughs of the trade contain and against what a
/// recipe says, and adds a doubt, with the usual value, for each thing that is missing
/// or far outside.
void doubt(Recipe& recipe, const Pantry& pantry, const Lexicons& lexicons);

}  // namespace maslin::reading
