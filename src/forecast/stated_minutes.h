// What a recipe says of its bake, taken as one sighting from another kitchen.
#pragma once

#include "forecast/forecast.h"
#include "pantry/pantry.h"

namespace maslin {

/// Narrows the set-up's `bake_pace` by the stated minutes: they were met in an oven and by an
/// eye of which nothing is known (the row stated_minutes of data/observation_errors.tsv), with
/// this very piece. Both are normal in the logarithm, so the rule is the weighted mean. Says
/// so as a doubt where the two are far apart; far beyond reason, the stated minutes are left.
void heed_stated_minutes(ForecastSetup& setup, const Pantry& pantry);

}  // namespace maslin
