// planning: the day of a recipe in a kitchen, and other ways through it.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/app.h"
#include "plan/plan.h"

namespace maslin {

/// When there are hands, where neither the question nor the kitchen says: common practice, no
/// source.
inline constexpr DailyHours k_usual_waking{6.0 * 60.0, 23.0 * 60.0};

struct DayQuestion {
  ForecastRequest forecast;
  PlanRequest plan;  // without an hour, `now` must be given
  /// Of the draws, as observations left them; empty: all alike.
  std::vector<double> weight;
};

/// "first prove=14:10/" (under way since), "knead=13:00/13:12" (done), "mix=/12:50": a step
/// by its name and its times on the kitchen's clock; an hour without a date is the last such
/// before `now`.
Result<DoneStep> done_step_from(std::string_view text, double now);

/// What is asked of a day, in words: times as "2026-05-01T16:00" on the kitchen's clock, empty
/// where they are not said; steps as done_step_from reads them, which needs `now`.
struct DayWords {
  std::string ready_at;
  std::string now;
  std::optional<double> chance;
  std::string awake;  // "6-23", "06:00-23:00"; empty: as the kitchen says
  std::vector<std::string> done;
};
Result<PlanRequest> plan_request_from(const DayWords& words);

/// The plan, or the sentence why there is none: nothing to weigh, an hour that is none.
Result<DayPlan> plan_recipe(const Tools& tools, const Recipe& recipe, const DayQuestion& question);

}  // namespace maslin
