#include "app/planning.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "forecast/observe.h"
#include "handon/power.h"
#include "plan/alternatives.h"
#include "plan/clock_text.h"

namespace maslin {
namespace {

constexpr double k_day_minutes = 1440.0;

/// So long a risen dough is followed where it waits: through a night.
constexpr double k_followed_minutes = 480.0;

/// The hours of the kitchen, where the question says none: when someone is up, and when an
/// oven by wire has the mains.
void take_hours(PlanRequest& request, const Kitchen& kitchen) {
  if (!request.awake) {
    request.awake = kitchen.awake.value_or(k_usual_waking);
  }
  if (handon::is_electric(kitchen.oven.value_or(OvenKind::conventional))) {
    request.power = kitchen.power;
  }
}

/// A full moment, or an hour of the day: the last such that is not after `now`.
ReadClock moment_before(std::string_view text, double now) {
  if (text.size() != 5) {
    return clock_from(text);
  }
  const double midnight = std::floor(now / k_day_minutes) * k_day_minutes;
  ReadClock out = clock_from(clock_text(midnight).substr(0, 11) + std::string(text));
  if (out.minutes && *out.minutes > now) {
    *out.minutes -= k_day_minutes;
  }
  return out;
}

}  // namespace

Result<DoneStep> done_step_from(std::string_view text, double now) {
  const std::size_t equals = text.rfind('=');
  const std::size_t slash = text.find('/', equals == std::string_view::npos ? 0 : equals);
  if (equals == std::string_view::npos || slash == std::string_view::npos || equals == 0) {
    return {std::nullopt, "\"" + std::string(text.substr(0, 60)) +
                              "\" is no step with its times; write it like \"first "
                              "prove=14:10/\" or \"knead=13:00/13:12\"."};
  }
  DoneStep out;
  out.name = std::string(text.substr(0, equals));
  const auto take = [&](std::string_view moment, std::optional<double>& to) {
    const ReadClock read = moment.empty() ? ReadClock() : moment_before(moment, now);
    to = read.minutes;
    return read.problem;
  };
  for (const std::string& problem : {take(text.substr(equals + 1, slash - equals - 1), out.started),
                                     take(text.substr(slash + 1), out.ended)}) {
    if (!problem.empty()) {
      return {std::nullopt, problem};
    }
  }
  return {std::move(out), ""};
}

Result<PlanRequest> plan_request_from(const DayWords& words) {
  PlanRequest out;
  out.chance = words.chance.value_or(out.chance);
  out.awake = daily_hours_from(words.awake);
  if (!words.awake.empty() && !out.awake) {
    return {std::nullopt, "\"" + words.awake.substr(0, 60) +
                              "\" are no hours of a day; write them as 6-23 or 06:30-22:00."};
  }
  for (const auto& [text, to] :
       {std::pair{&words.ready_at, &out.ready_at}, std::pair{&words.now, &out.now}}) {
    if (text->empty()) {
      continue;
    }
    const ReadClock read = clock_from(*text);
    if (!read.minutes) {
      return {std::nullopt, read.problem};
    }
    *to = read.minutes;
  }
  if (!words.done.empty() && !out.now) {
    return {std::nullopt, "Steps that are done need the hour it is now: give 'now'."};
  }
  for (const std::string& text : words.done) {
    Result<DoneStep> done = done_step_from(text, *out.now);
    if (!done.value) {
      return {std::nullopt, done.problem};
    }
    out.done.push_back(std::move(*done.value));
  }
  return {std::move(out), ""};
}

Result<DayPlan> plan_recipe(const Tools& tools, const Recipe& recipe, const DayQuestion& question) {
  if (!question.plan.ready_at && !question.plan.now) {
    return {std::nullopt, "Say by when it is wanted, or from when you can begin."};
  }
  const std::vector<Observation>& seen = question.forecast.seen;
  ForecastOptions options = followed(question.forecast.options, seen);
  options.prove_minutes_at_least = std::max(options.prove_minutes_at_least, k_followed_minutes);
  ForecastSetup setup = set_up_forecast(recipe, question.forecast.kitchen, tools.pantry, options);
  if (!setup.problem.empty()) {
    return {std::nullopt, setup.problem};
  }
  Result<ForecastRun> run = run_in_threads(setup, question.forecast);
  if (!run.value) {
    return {std::nullopt, run.problem};
  }
  if (!seen.empty()) {
    (void)observe(setup, *run.value, seen, [&question](const ForecastSetup& again) {
      return run_in_threads(again, question.forecast).value.value_or(ForecastRun{});
    });
  }
  const Ensemble& ensemble = run.value->ensemble;
  PlanRequest request = question.plan;
  take_hours(request, question.forecast.kitchen);
  DayPlan plan = plan_day(day_of(setup, ensemble), request);
  if (!plan.problem.empty()) {
    return {std::nullopt, plan.problem};
  }
  plan.title = recipe.title;
  plan.seed = setup.options.seed;
  const auto given_up = [&question] { return question.forecast.stop.stop_requested(); };
  plan.alternatives = plan_alternatives({setup, ensemble, tools.pantry, given_up}, request, plan);
  return {std::move(plan), ""};
}

}  // namespace maslin
