#include "plan/dough_hours.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace maslin {
namespace {

/// From the first stir to the first prove, as the forecast lets the dough stand meanwhile.
constexpr double k_mixing_minutes = 3.0;

const PlannedStep* step_named(const DayPlan& plan, const std::string& name) {
  const auto found = std::find_if(plan.steps.begin(), plan.steps.end(),
                                  [&](const PlannedStep& one) { return one.name == name; });
  return found == plan.steps.end() ? nullptr : &*found;
}

}  // namespace

bool DoughHours::near(const DoughHours& other) const {
  constexpr double k_near_minutes = 15.0;
  bool out = std::fabs(begins_at - other.begins_at) < k_near_minutes;
  for (std::size_t i = 0; i < std::max(waits.size(), other.waits.size()); ++i) {
    const double here = i < waits.size() ? waits[i] : 0.0;
    const double there = i < other.waits.size() ? other.waits[i] : 0.0;
    out = out && std::fabs(here - there) < k_near_minutes;
  }
  return out;
}

DoughHours dough_hours(const ForecastSetup& setup, const Ensemble& ensemble, const Day& day,
                       const DayPlan& plan) {
  DoughHours out = hours_taken(setup);
  for (const DayTask& task : day.tasks) {
    const PlannedStep* step = task.kind == TaskKind::mix ? step_named(plan, task.name) : nullptr;
    out.begins_at = step != nullptr ? step->starts_at.p50 : out.begins_at;
  }
  const std::size_t proves = setup.schedule.proves.size();
  out.waits.assign(proves, 0.0);
  double own = out.begins_at + setup.schedule.knead_minutes + k_mixing_minutes;
  for (std::size_t i = 0; i < proves; ++i) {
    for (const DayTask& task : day.tasks) {
      // Of loads the first.
      const PlannedStep* step = task.prove == i ? step_named(plan, task.name) : nullptr;
      if (step != nullptr) {
        out.waits[i] = step->starts_at.p50 - own;
        break;
      }
    }
    const double minutes = ensemble.band("prove/" + std::to_string(i) + "/minutes").p50;
    own += std::isfinite(minutes) ? minutes : 0.0;
  }
  return out;
}

DoughHours hours_taken(const ForecastSetup& setup) {
  return {setup.begins_at, setup.options.prove_waits};
}

}  // namespace maslin
