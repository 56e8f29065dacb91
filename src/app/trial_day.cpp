#include "app/trial_day.h"

#include <utility>

namespace maslin {

Result<DayPlan> plan_trial(const Tools& tools, Store& store, std::int64_t trial,
                           DayQuestion question) {
  const Result<TrialView> view = view_trial(store, trial);
  if (!view.value) {
    return {std::nullopt, view.problem};
  }
  Result<TrialSetting> setting = setting_of(store, view.value->trial);
  if (!setting.value) {
    return {std::nullopt, setting.problem};
  }
  question.forecast.kitchen = std::move(setting.value->kitchen);
  question.forecast.seen = observations_of(*view.value);
  return plan_recipe(tools, setting.value->recipe, question);
}

}  // namespace maslin
