// adjust: the smallest change of a recipe that gives what is wanted.
//
// The dough's figures are ratios of sums over its lines, so each want is a linear row and
// the least weighted change a linear programme with whole eggs and packets. It is solved
// on the medians, rounded, and held against the dough model again. Every change says why;
// wants that exclude each other are named, the smallest set of them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "adjust/want.h"
#include "pantry/pantry.h"
#include "recipe/kitchen.h"
#include "recipe/recipe.h"

namespace maslin {

struct AdjustRequest {
  std::vector<Want> wants;
  std::vector<Hold> holds;
  Kitchen kitchen;         // with its prices, for the want "cost"
  std::optional<Tin> tin;  // that a want names; it comes before the recipe's and the kitchen's
};

struct LineChange {
  std::string line;  // its text as found, or its name
  std::string part;
  double from_grams = 0.0;
  double to_grams = 0.0;
  std::string why;
  std::string alone;           // what this change does by itself: "sugar 24 to 21 % of the flour"
  std::size_t part_index = 0;  // where it stands in the changed recipe; one that is added
  std::size_t line_index = 0;  // stands last in its part
};

/// A line that another ingredient has taken, before amounts were balanced.
struct SwappedLine {
  std::size_t part_index = 0;
  std::size_t line_index = 0;
  std::string why;
};

/// A want that cannot be had with the others, and the nearest that can.
struct Conflict {
  std::string want;
  std::string nearest;  // "sugar_pct_flour can be brought to 12.4"
};

struct Adjustment {
  bool met = false;
  Recipe recipe;  // changed; as it was when nothing could be done
  std::vector<LineChange> changes;
  std::vector<SwappedLine> swaps;
  std::vector<Conflict> conflict;  // the smallest set of wants that exclude each other
  std::vector<std::string> notes;  // what a swap changes; what was not touched
  std::string problem;             // one sentence when the request itself is at fault
};

/// Adjusts the recipe's dough (every part, when it is scaled). No wants: no changes.
Adjustment adjust_recipe(const Recipe& recipe, const Pantry& pantry, const AdjustRequest& request);

/// The adjustment in lines to read: what changes, from what to what, and why.
std::string adjustment_text(const Adjustment& adjustment);

/// {"met", "recipe", "changes": [{"line", "from_grams", "to_grams", "why"}], "conflict",
///  "nearest", "notes"} as one JSON document.
std::string adjustment_to_json(const Adjustment& adjustment);

}  // namespace maslin
