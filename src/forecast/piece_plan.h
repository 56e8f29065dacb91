// What is baked, by what a recipe says of it: its shape, on what it stands, how many.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "forecast/schedule.h"

namespace maslin {

/// What speaks for a shape and a number. Texts in lower case; 0 where nothing is said.
struct PieceHints {
  std::string title;
  std::string steps;
  double by_steps = 0.0;  // pieces that a step divides the dough into
  double by_yield = 0.0;  // that the recipe says it makes
  double dough_grams = 1.0;
  double oven_minutes = 0.0;  // stated, in all
  std::optional<Tin> tin;
};

/// Fills in shape, bakeware, tin, number and neighbours; `piece_grams` may stand there already.
/// Words of the title come before those of the steps (data/piece_words.tsv). Where neither name
/// a shape, or the number cannot be meant of it, the minutes in the oven decide between one large
/// piece and many small ones. Gives what had to be taken for granted.
std::vector<Doubt> plan_piece_by(const PieceHints& hints, PlannedBake& bake);

}  // namespace maslin
