#pragma once

#include <vector>

#include "reading/setting.h"
#include "reading/token.h"
#include "recipe/recipe.h"

namespace maslin::reading {

/// Degrees of an oven whose scale was not said: how they are to be taken.
struct StepContext {
  bool yeasted = false;       // "leave an hour" is a prove, not a rest
  bool american = false;      // bare degrees below 260 may still be Fahrenheit
  std::optional<Range> oven;  // set by "preheat to …", for a bake that names none
  bool oven_fan = false;
  bool shaped = false;
  bool baked = false;
  std::optional<Range> lots;  // the dough was divided in so few: "cut each into 8"
};

/// The steps said in the tokens [from, to), in order; their texts together are the whole
/// text. Empty only when there are no tokens.
std::vector<Step> read_steps(const Text& text, std::size_t from, std::size_t to,
                             StepContext& context);

/// The first verb of a step in [from, to) that could start a sentence; its kind.
std::optional<StepKind> first_verb(const Text& text, std::size_t from, std::size_t to);

/// The oven temperature in °C of a written one. `words` is the oven table's.
Range in_celsius(const Heat& heat, const StepContext& context, const Pantry& pantry);

}  // namespace maslin::reading
