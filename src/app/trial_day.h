// The day of a bake that is under way: its recipe and kitchen, and what was noted so far.
#pragma once

#include "app/live.h"
#include "app/planning.h"

namespace maslin {

/// Plans the rest of a trial's day; `question` gives the hours, draws and seed, and the trial
/// its own kitchen and observations.
Result<DayPlan> plan_trial(const Tools& tools, Store& store, std::int64_t trial,
                           DayQuestion question);

}  // namespace maslin
