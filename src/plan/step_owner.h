// Whose a step is: found recipes tell the filling's and the glaze's work among the
// dough's.
#pragma once

#include <cstddef>
#include <vector>

#include "recipe/recipe.h"

namespace maslin {

struct OwnedStep {
  const Step* step = nullptr;
  std::size_t part = 0;  // of the recipe
};

/// All steps in the recipe's order. A step among the dough's that names what only another
/// part has in it belongs to that part, and so does a cooling or standing right after it,
/// as long as nothing is baked yet. Putting a part on or into the pieces stays the dough's.
std::vector<OwnedStep> owned_steps(const Recipe& recipe, std::size_t dough);

}  // namespace maslin
