// How much flour, or liquid, to keep by until the dough has been felt.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "dough/feel.h"
#include "numerics/lanes.h"

namespace maslin {

enum class HeldBack : std::uint8_t { flour, liquid };

/// A point in the mixing and what to do there.
struct HoldBackStep {
  double added_grams = 0.0;  // of what is held back, all told, when this point is reached
  std::string what_to_do;
};

/// What to put in at first and what to keep by, g, rounded to a scale's 5 g.
struct HoldBack {
  HeldBack what = HeldBack::flour;
  DoughFeel wanted = DoughFeel::soft;
  double as_written_g = 0.0;
  // The 10th percentile of the need, never above what is written nor under two thirds of it.
  double at_first_g = 0.0;
  // To the 90th percentile, at least to what is written and at most to four thirds of it.
  double keep_by_g = 0.0;
  double likely_g = 0.0;  // of what is kept by, the median used
  double chance_all_used = 0.0;
  double chance_not_enough = 0.0;
  std::vector<HoldBackStep> steps;
};

/// The feel score to mix towards when flour is added by feel: what the recipe makes as
/// written, for it is meant so; an ordinary dough (-2 to 10) no stiffer than 1, where plain
/// flour and liquid five to three stand, and no softer than 8. Common practice, no source.
double score_to_mix_to(double score_as_written);

/// From the draws of the grams needed to reach the wanted feel (flour_for_score, or
/// the liquid as written plus water_for_score). `needed` and `weights` are batches of
/// draws of equal length; weights may be empty for equal ones. `as_written_g` is what
/// the recipe says of it. No draws, or none of any weight: everything goes in at first;
/// so too where the need is less than half or more than double, with that doubt as the one step.
HoldBack hold_back(HeldBack what, DoughFeel wanted, std::span<const Lanes> needed,
                   std::span<const Lanes> weights, double as_written_g);

}  // namespace maslin
