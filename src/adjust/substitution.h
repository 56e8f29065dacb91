// One ingredient in place of another, and what that changes.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "adjust/adjust.h"
#include "pantry/pantry.h"
#include "recipe/recipe.h"

namespace maslin {

bool bears_allergen(const Ingredient& ingredient, std::string_view allergen);

/// A row of data/substitutions.tsv.
struct Substitution {
  std::string from;
  std::string to;
  double ratio = 1.0;
  std::string changes;
  std::string keeps;   // what it goes on doing: "water colour"
  std::string not_in;  // kinds of part in which it does not do: "glaze"
  double water = 0.0;  // g of water beside it, for what is thickened or dried
};
std::vector<Substitution> substitutions();
/// Whether the stand-in does in that kind of part.
bool does_in(const Substitution& row, PartKind part);

/// A recipe with a swap made in every part, and what was done, in words.
struct Swapped {
  Recipe recipe;
  std::vector<SwappedLine> lines;
  std::vector<std::string> notes;
  std::string problem;  // when there was nothing to swap
};

/// Replaces a share of `from` (id or name) by `to`; empty `to` takes the first stand-in of the
/// table, one at hand before others; empty `from` is what the recipe has most of that is of the
/// kind of `to`. Yeasts are swapped by their activity; of what the table does not
/// know fats by their fat, sugars by their sugar, liquids by their water, all else weight for
/// weight. Each note says what the swap brings and takes away, in grams.
Swapped swap_ingredient(const Recipe& recipe, const Pantry& pantry, std::string_view from,
                        std::string_view to, const std::vector<std::string>& at_hand,
                        double share = 1.0);

/// Replaces whatever bears the allergen ("milk", "egg") by the first stand-in that does not.
/// Lines without one are left and named in the notes.
Swapped avoid_allergen(const Recipe& recipe, const Pantry& pantry, std::string_view allergen,
                       const std::vector<std::string>& at_hand);

}  // namespace maslin
