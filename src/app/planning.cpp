#include "app/planning.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "forecast/observe.h"
#include "handon/power.h"
#include "plan/alternatives.h"
#include "plan/clock_text.h"
#include "plan/dough_hours.h"

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

/// A forecast and the day planned from it.
struct Planned {
  ForecastSetup setup;
  Ensemble ensemble;
  Day day;
  DayPlan plan;
};

Result<Planned> planned(const Tools& tools, const Recipe& recipe, const ForecastOptions& options,
                        const ForecastRequest& asked, const PlanRequest& request) {
  Planned out;
  out.setup = set_up_forecast(recipe, asked.kitchen, tools.pantry, options);
  if (!out.setup.problem.empty()) {
    return {std::nullopt, out.setup.problem};
  }
  Result<ForecastRun> run = run_in_threads(out.setup, asked);
  if (!run.value) {
    return {std::nullopt, run.problem};
  }
  if (!asked.seen.empty()) {
    (void)observe(out.setup, *run.value, asked.seen, [&asked](const ForecastSetup& again) {
      return run_in_threads(again, asked).value.value_or(ForecastRun{});
    });
  }
  out.ensemble = std::move(run.value->ensemble);
  out.day = day_of(out.setup, out.ensemble);
  out.plan = plan_day(out.day, request);
  return {std::move(out), ""};
}

/// Where a room changes through the day, how long a dough takes hangs on the hour, and the hour on
/// how long it takes: forecast and plan in turn until they agree.
void settle_hours(const Tools& tools, const Recipe& recipe, ForecastOptions& options,
                  const ForecastRequest& asked, const PlanRequest& request) {
  constexpr int k_turns = 6;
  constexpr std::uint32_t k_draws = 256;
  ForecastOptions few = options;
  few.draws = std::min(few.draws, k_draws);
  for (int turn = 0; turn < k_turns; ++turn) {
    const Result<Planned> one = planned(tools, recipe, few, asked, request);
    if (!one.value || !one.value->plan.problem.empty()) {
      return;
    }
    const Planned& now = *one.value;
    const DoughHours hours = dough_hours(now.setup, now.ensemble, now.day, now.plan);
    if (hours.near(hours_taken(now.setup))) {
      return;
    }
    options.begins_at = few.begins_at = hours.begins_at;
    options.prove_waits = few.prove_waits = hours.waits;
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
  ForecastOptions options = followed(question.forecast.options, question.forecast.seen);
  options.prove_minutes_at_least = std::max(options.prove_minutes_at_least, k_followed_minutes);
  PlanRequest request = question.plan;
  take_hours(request, question.forecast.kitchen);
  if (room_day(question.forecast.kitchen).changes()) {
    settle_hours(tools, recipe, options, question.forecast, request);
  }
  Result<Planned> made = planned(tools, recipe, options, question.forecast, request);
  if (!made.value) {
    return {std::nullopt, made.problem};
  }
  DayPlan& plan = made.value->plan;
  if (!plan.problem.empty()) {
    return {std::nullopt, plan.problem};
  }
  plan.title = recipe.title;
  plan.seed = made.value->setup.options.seed;
  const auto given_up = [&question] { return question.forecast.stop.stop_requested(); };
  plan.alternatives = plan_alternatives(
      {made.value->setup, made.value->ensemble, tools.pantry, given_up}, request, plan);
  return {std::move(plan), ""};
}

}  // namespace maslin
