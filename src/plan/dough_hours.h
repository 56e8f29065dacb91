// When the dough of a plan is mixed and when it begins each prove: what a forecast needs to
// know where the room changes through the day.
#pragma once

#include <vector>

#include "plan/plan.h"

namespace maslin {

struct DoughHours {
  double begins_at = 0.0;     // mixing, minutes of the clock
  std::vector<double> waits;  // of each prove, beyond the dough's own pace, minutes

  /// No further apart than a room moves by a tenth of a degree or so.
  bool near(const DoughHours& other) const;
};

/// In the middle of the draws, of the day that was planned from this forecast.
DoughHours dough_hours(const ForecastSetup& setup, const Ensemble& ensemble, const Day& day,
                       const DayPlan& plan);
/// As the forecast took them.
DoughHours hours_taken(const ForecastSetup& setup);

}  // namespace maslin
