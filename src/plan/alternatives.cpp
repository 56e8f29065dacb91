#include "plan/alternatives.h"

#include <algorithm>
#include <cmath>

#include "forecast/rise_change.h"
#include "plan/clock_text.h"
#include "plan/dough_hours.h"
#include "quantity/number_text.h"

namespace maslin {
namespace {

constexpr double k_day_minutes = 1440.0;
/// When a dough goes into the fridge for the night; at least and at most so long there.
/// Common practice, no source.
constexpr double k_evening_minutes = 21.5 * 60.0;
constexpr double k_shortest_night_minutes = 8.0 * 60.0;
constexpr double k_longest_night_minutes = 16.0 * 60.0;
constexpr double k_too_soon_minutes = 4.0 * 60.0;
constexpr double k_warm_place_celsius = 30.0;

std::string hours(double minutes) {
  return minutes < 90.0 ? number_text(std::round(minutes), 0) + " minutes"
                        : number_text(minutes / 60.0, 1) + " hours";
}

/// What is said of the yeast there is now and then.
std::string grams_text(double grams) {
  return number_text(grams, grams < 10.0 ? 1 : 0) + " g";
}

class Alternatives {
 public:
  Alternatives(const PlannedForecast& forecast, const PlanRequest& request, const DayPlan& plan)
      : forecast_(forecast), request_(request), plan_(plan) {}

  std::vector<PlanAlternative> all() {
    const bool mixed = begun(TaskKind::mix);
    const bool proving = begun(TaskKind::prove);
    if (forecast_.setup.schedule.proves.empty() || !rises()) {
      return {};
    }
    const std::vector<PlannedProve>& proves = forecast_.setup.schedule.proves;
    const std::size_t last = proves.size() - 1;
    // What is frozen has its night already.
    const bool frost = std::any_of(proves.begin(), proves.end(),
                                   [](const PlannedProve& one) { return !one.rises(); });
    if (!mixed && !frost && waited_for()) {
      overnight(0, "overnight in the fridge", "bowl and dough stand");
    }
    if (!mixed && !frost && last > 0 && waited_for()) {
      overnight(last, "shaped, overnight in the fridge", "the shaped pieces stand");
    }
    if (!mixed && waited_for()) {
      yeast(0.5, "half the yeast");
    }
    if (!mixed && waited_for()) {
      yeast(1.5, "half as much yeast again");
    }
    if (!proving && waited_for()) {
      warmer();
    }
    return std::move(out_);
  }

 private:
  bool waited_for() const { return !forecast_.given_up || !forecast_.given_up(); }

  bool begun(TaskKind kind) const {
    return std::any_of(plan_.steps.begin(), plan_.steps.end(), [kind](const PlannedStep& one) {
      return one.kind == kind && one.state != StepState::to_do;
    });
  }

  bool rises() const {
    return std::any_of(plan_.steps.begin(), plan_.steps.end(),
                       [](const PlannedStep& one) { return one.kind == TaskKind::prove; });
  }

  /// Where the room changes through the day, at the hours of the day that comes of it.
  RiseDraws draws_with(const RiseChange& change) const {
    const ForecastSetup& setup = forecast_.setup;
    RiseDraws out =
        rise_with(*setup.recipe, setup.kitchen, forecast_.pantry, setup.options, change);
    constexpr int k_turns = 2;
    for (int turn = 0; setup.room.changes() && out.problem.empty() && turn < k_turns; ++turn) {
      ForecastSetup there = setup;
      Day day;
      const DayPlan plan = day_with(out, request_, there, day);
      const DoughHours hours = dough_hours(there, out.ensemble, day, plan);
      if (!plan.problem.empty() || hours.near(hours_taken(setup))) {
        break;
      }
      ForecastOptions options = setup.options;
      options.begins_at = hours.begins_at;
      options.prove_waits = hours.waits;
      out = rise_with(*setup.recipe, setup.kitchen, forecast_.pantry, options, change);
    }
    return out;
  }

  /// The day with other proves, everything else as forecast.
  DayPlan day_with(const RiseDraws& rise, const PlanRequest& request) const {
    ForecastSetup setup = forecast_.setup;
    Day day;
    return day_with(rise, request, setup, day);
  }
  DayPlan day_with(const RiseDraws& rise, const PlanRequest& request, ForecastSetup& setup,
                   Day& day) const {
    setup.schedule.proves = rise.schedule.proves;
    Ensemble ensemble = forecast_.ensemble;
    for (Column& column : ensemble.outcomes) {
      const Column* other =
          column.name.starts_with("prove/") ? rise.ensemble.column(column.name) : nullptr;
      if (other != nullptr && other->values.size() == column.values.size()) {
        column.values = other->values;
      }
    }
    for (Trace& trace : ensemble.traces) {
      const auto other = std::find_if(rise.ensemble.traces.begin(), rise.ensemble.traces.end(),
                                      [&](const Trace& one) { return one.name == trace.name; });
      if (trace.name.starts_with("prove/") && other != rise.ensemble.traces.end()) {
        trace = *other;
      }
    }
    day = day_of(setup, ensemble);
    return plan_day(day, request);
  }

  void add(std::string name, const std::string& how, const DayPlan& day, const RiseChange& change) {
    // What spoils the dough, or may never rise, is no other way.
    if (!day.problem.empty() || !day.why_not.empty()) {
      return;
    }
    PlanAlternative out;
    out.name = std::move(name);
    out.begin = day.begin;
    out.ready = day.ready;
    out.ready_at = day.ready_at;
    out.chance_in_time = request_.ready_at ? day.chance_in_time : plan_.chance_wanted;
    out.met = day.met;
    out.does = how + ": " + outcome(day);
    out.recipe = written_with(change);
    out_.push_back(std::move(out));
  }

  /// The recipe with the change in its lines and its steps; nothing where a step that would
  /// say it is not written.
  std::optional<Recipe> written_with(const RiseChange& change) const {
    Recipe out = recipe_with(*forecast_.setup.recipe, forecast_.pantry, change);
    std::size_t proves = 0;
    bool said = !change.in_cold && !change.prove_celsius;
    for (Part& part : out.parts) {
      for (Step& step : part.steps) {
        if (step.kind != StepKind::prove || part.kind == PartKind::preferment) {
          continue;
        }
        if (change.prove_celsius) {
          step.celsius = Range{*change.prove_celsius, *change.prove_celsius};
          said = true;
        }
        if (change.in_cold && change.in_cold->prove == proves) {
          step.celsius.reset();
          step.place = "cold";
          step.text = "Stand in the fridge for " + hours(change.in_cold->minutes) + ".";
          step.minutes = Range{change.in_cold->minutes, change.in_cold->minutes};
          said = true;
        }
        ++proves;
      }
    }
    return said ? std::optional(std::move(out)) : std::nullopt;
  }

  /// What it does to the hours, against the plan.
  std::string outcome(const DayPlan& day) const {
    const double longer = (day.ready - day.begin) - (plan_.ready - plan_.begin);
    const std::string by =
        std::fabs(longer) < 1.0
            ? "as long in all"
            : hours(std::fabs(longer)) + (longer > 0.0 ? " longer" : " shorter") + " in all";
    const std::string when = "begin " + day_text(day.begin) + " " + hour_text(day.begin) +
                             ", ready by " + hour_text(day.ready);
    return when + "; " + by + (day.met ? "" : "; still too late");
  }

  /// How long a dough lies in the fridge that goes in of an evening and comes out then.
  static double night_before(double out_of_fridge) {
    const double evening =
        std::floor((out_of_fridge - k_evening_minutes) / k_day_minutes) * k_day_minutes +
        k_evening_minutes;
    return std::clamp(out_of_fridge - evening, k_shortest_night_minutes, k_longest_night_minutes);
  }

  /// One prove in the fridge by the clock, with no more yeast than fills the night.
  void overnight(std::size_t prove, const std::string& name, const std::string& what) {
    // The time from the fridge to the table, first guessed with a night of ten hours.
    RiseChange change;
    change.in_cold = RiseChange::InCold{prove, 600.0};
    if (request_.ready_at) {
      change.in_cold->minutes =
          night_before(end_of_prove(day_with(draws_with(change), request_), prove));
    }
    const auto dose = yeast_factor_in_cold(*forecast_.setup.recipe, forecast_.setup.kitchen,
                                           forecast_.pantry, change);
    change.yeast_factor = dose ? dose->value : 1.0;
    const RiseDraws rise = draws_with(change);
    const Column* ratio = rise.ensemble.column("prove/" + std::to_string(prove) + "/ratio_at_end");
    if (!rise.problem.empty() || ratio == nullptr) {
      return;
    }
    std::string how = what + " " + hours(change.in_cold->minutes) + " in the cold and grow to " +
                      number_text(rise.ensemble.band(*ratio).p50, 1) + " times";
    if (change.yeast_factor < 0.95) {
      how += ", with " + grams_text(rise.yeast_grams) + " of yeast instead of " +
             grams_text(rise.yeast_grams / change.yeast_factor);
    }
    const DayPlan day = day_with(rise, request_);
    // A night in the fridge that is over long before the hour goes round no night.
    if (!request_.ready_at || day.ready > *request_.ready_at - k_too_soon_minutes) {
      add(name, how, day, change);
    }
  }

  static double end_of_prove(const DayPlan& day, std::size_t prove) {
    for (const PlannedStep& step : day.steps) {
      if (step.kind == TaskKind::prove && prove-- == 0) {
        return step.end;
      }
    }
    return day.ready;
  }

  void yeast(double factor, const std::string& name) {
    RiseChange change;
    change.yeast_factor = factor;
    const RiseDraws rise = draws_with(change);
    if (!rise.problem.empty() || rise.yeast_grams <= 0.0) {
      return;
    }
    add(name, grams_text(rise.yeast_grams) + " instead of " + grams_text(rise.yeast_grams / factor),
        day_with(rise, request_), change);
  }

  void warmer() {
    RiseChange change;
    change.prove_celsius = k_warm_place_celsius;
    const RiseDraws rise = draws_with(change);
    if (rise.problem.empty()) {
      add("a warmer place", "proves at " + number_text(k_warm_place_celsius, 0) + " °C",
          day_with(rise, request_), change);
    }
  }

  const PlannedForecast& forecast_;
  const PlanRequest& request_;
  const DayPlan& plan_;
  std::vector<PlanAlternative> out_;
};

}  // namespace

std::vector<PlanAlternative> plan_alternatives(const PlannedForecast& forecast,
                                               const PlanRequest& request, const DayPlan& plan) {
  return Alternatives(forecast, request, plan).all();
}

}  // namespace maslin
