// What differs between two versions of a recipe: amounts, in grams and of the flour, and what
// the steps are set to.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "pantry/pantry.h"
#include "recipe/recipe.h"

namespace maslin {

/// An amount at the middle of what is known of it.
struct LineAmountNow {
  double grams = 0.0;
  std::optional<double> pct_flour;  // of the flour of all doughs; nothing where there is none
};

struct LineDifference {
  std::string part;
  std::string name;  // the pantry's, the other part's, or as found
  std::string ingredient_id;
  std::optional<LineAmountNow> before;  // nothing: the line is not there
  std::optional<LineAmountNow> after;
};

struct StepDifference {
  std::string part;
  std::string step;    // "bake", or "prove 2" where there are several
  std::string what;    // "minutes", "°C", "until", "pieces", "place", "step" (only in one)
  std::string before;  // in words; empty: not said
  std::string after;
};

struct RecipeDifference {
  std::vector<LineDifference> lines;  // that differ by a division of the scale, or are in one
  std::vector<StepDifference> steps;
};

/// Lines of one ingredient in one part are taken together; steps of one kind in one part are
/// set beside each other in their order. A scale's division: 0.5 g from 20 g on, else 0.05 g.
RecipeDifference difference_of(const Recipe& before, const Recipe& after, const Pantry& pantry);

}  // namespace maslin
