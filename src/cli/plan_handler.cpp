#include "cli/plan_handler.h"

#include <utility>

#include "app/trial_day.h"
#include "cli/api_answers.h"

namespace maslin {
namespace {

Result<DayQuestion> day_asked(const Tools& tools, const PlanQuestion& question) {
  DayQuestion day;
  day.forecast.options.seed = question.seed.value_or(day.forecast.options.seed);
  day.forecast.options.draws = question.draws.value_or(day.forecast.options.draws);
  day.forecast.stop = question.gone;
  if (!question.observations_json.empty()) {
    SeenDocument seen = seen_from_json(question.observations_json, tools.note_words);
    if (!seen.problem.empty()) {
      return {std::nullopt, std::move(seen.problem)};
    }
    day.forecast.seen = std::move(seen.observations);
  }
  Result<PlanRequest> request = plan_request_from(
      {question.ready_at, question.now, question.chance, question.awake, question.done});
  if (!request.value) {
    return {std::nullopt, std::move(request.problem)};
  }
  day.plan = std::move(*request.value);
  return {std::move(day), ""};
}

}  // namespace

PlanHandler plan_handler(const Tools& tools, const std::string& file) {
  return [&tools, file](const PlanQuestion& question) {
    Result<DayQuestion> day = day_asked(tools, question);
    if (!day.value) {
      return problem_of(day.problem);
    }
    if (question.trial) {
      return of_store(
          file,
          [&](Store& store) {
            return plan_trial(tools, store, static_cast<std::int64_t>(*question.trial),
                              std::move(*day.value));
          },
          plan_to_json);
    }
    return of_recipe(tools, question, [&](const Recipe& recipe, Kitchen kitchen) {
      day.value->forecast.kitchen = std::move(kitchen);
      const Result<DayPlan> plan = plan_recipe(tools, recipe, *day.value);
      return plan.value ? answer_of(plan_to_json(*plan.value)) : problem_of(plan.problem);
    });
  };
}

}  // namespace maslin
