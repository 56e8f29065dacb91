// The recipe's amounts and settings brought to what they must be in that kitchen, by forecast.
#pragma once

#include <string>
#include <vector>

#include "dough/dough.h"
#include "handon/card_words.h"
#include "handon/handon.h"

namespace maslin::handon {

/// A bake that takes this long never got there.
inline constexpr double k_never_done_minutes = 200.0;
Figures figures_of(const Recipe& recipe, const Kitchen& kitchen, const Pantry& pantry,
                   const ForecastOptions& options);
/// The same of a forecast that was run.
Figures figures_in(const ForecastSetup& setup, const ForecastRun& run);

/// Minutes of the rises of `of` that are not in the fridge at home, summed.
double rising_minutes(const Figures& of, const Figures& home);

/// The dough at the middle of its amounts in that kitchen; has_flour is false when there is none.
DoughState dough_of(const Recipe& recipe, const Kitchen& kitchen, const Pantry& pantry);

/// A recipe on its way, and what was done to it.
struct Settling {
  const Pantry& pantry;
  const CardWords& words;
  const Kitchen& from;
  const Kitchen& to;
  ForecastOptions quick;  // of the forecasts that settings are tried by
  Recipe recipe;
  std::vector<CardChange> changes;
  std::vector<std::string> notes;
};

/// What bakes is steamed where there is a steamer and no oven.
void settle_steam(Settling& settling);
/// Cold proves stand in the room where there is no fridge, or one that warms while the mains are
/// off: a closed one keeps cold for about four hours (food-safety advice, from memory).
void settle_cold_proves(Settling& settling);
/// After stand-ins the dough's liquid is brought to the feel it had, by at most a third either way.
void settle_liquid(Settling& settling, double feel_score);
/// The yeast is brought to rising times within a tenth below to a quarter above those at home, by
/// a quarter to half as much again; what that does not reach is left to the clock, since more yeast
/// is tasted.
void settle_yeast(Settling& settling, const Figures& home);
/// The oven is set to give the crust it had at home and to be done: between 40 K less and 70 K
/// more, in tens.
void settle_oven(Settling& settling, const Figures& home);

}  // namespace maslin::handon
