// What the other kitchen has in place of what it has not.
#pragma once

#include <string>
#include <vector>

#include "handon/card_words.h"
#include "handon/handon.h"
#include "pantry/pantry.h"
#include "recipe/kitchen.h"
#include "recipe/recipe.h"

namespace maslin::handon {

struct StoodIn {
  Recipe recipe;
  std::vector<CardChange> changes;
  std::vector<std::string> notes;
};

/// The recipe with that kitchen's yeast and, where its list of what is at hand has another of
/// the same family (a fat for a fat, a flour for a flour), with that. A list that names a flour
/// and three other things or more is taken as all there is; a shorter one only for the families
/// it names. Stand-ins of data/substitutions.tsv come first, then another of the same kind by
/// its fat or weight; milk is made from powder and water. What has none is kept and said.
StoodIn with_what_is_there(const Recipe& recipe, const Pantry& pantry, const Kitchen& kitchen,
                           const CardWords& words);

}  // namespace maslin::handon
