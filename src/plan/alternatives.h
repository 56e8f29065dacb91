// Other ways through the day: what they change, and what that does to the hour.
#pragma once

#include <functional>
#include <vector>

#include "forecast/forecast.h"
#include "pantry/pantry.h"
#include "plan/plan.h"

namespace maslin {

/// The forecast a plan was made from.
struct PlannedForecast {
  const ForecastSetup& setup;
  const Ensemble& ensemble;
  const Pantry& pantry;
  /// Asked before each way: true when nobody waits for them any more. Empty: somebody does.
  std::function<bool()> given_up = {};
};

/// Overnight in the fridge, less or more yeast, a warmer place: those that still can be
/// done after what is done already. The rise is drawn anew with the same draws; bake and
/// cooling are taken as forecast.
std::vector<PlanAlternative> plan_alternatives(const PlannedForecast& forecast,
                                               const PlanRequest& request, const DayPlan& plan);

}  // namespace maslin
