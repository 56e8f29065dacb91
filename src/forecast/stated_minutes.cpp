#include "forecast/stated_minutes.h"

#include <cmath>
#include <optional>

#include "forecast/seen.h"
#include "quantity/number_text.h"

namespace maslin {
namespace {

std::optional<Range> stated_bake(const Schedule& schedule) {
  Range out{0.0, 0.0};
  for (const PlannedHeat& heat : schedule.bake.heats) {
    out.low += heat.minutes ? heat.minutes->low : 0.0;
    out.high += heat.minutes ? heat.minutes->high : 0.0;
  }
  const bool said = schedule.bake.way == PlannedBake::Way::oven && out.low > 0.0;
  return said ? std::optional(out) : std::nullopt;
}

/// Minutes in the oven with every unknown at its middle, in a kitchen of which nothing is known.
std::optional<double> worked_out(const Recipe& recipe, const Pantry& pantry) {
  ForecastOptions options;
  options.draws = k_lane_count;
  options.heed_stated_minutes = false;
  ForecastSetup middle = set_up_forecast(recipe, {}, pantry, options);
  for (Unknown& one : middle.unknowns) {
    one.prior = point(one.prior.p50());
  }
  middle.scores = scores_of(middle.unknowns);
  // Any batch but the first, which also keeps pictures of the inside.
  const BatchOutcome batch = middle.problem.empty() ? run_batch(middle, 1) : BatchOutcome();
  for (const BatchColumn& outcome : batch.outcomes) {
    if (outcome.name == "bake/minutes") {
      return outcome.values[0];
    }
  }
  return std::nullopt;
}

}  // namespace

void heed_stated_minutes(ForecastSetup& setup, const Pantry& pantry) {
  const auto stated = stated_bake(setup.schedule);
  if (!stated || !setup.options.heed_stated_minutes ||
      setup.options.reach != ForecastReach::whole) {
    return;
  }
  double doubt = 0.0;
  for (const SightingError& error : sighting_errors()) {
    doubt = error.kind == "stated_minutes" ? error.sd : doubt;
  }
  const auto minutes = worked_out(*setup.recipe, pantry);
  for (Unknown& one : setup.unknowns) {
    if (one.name != "bake_pace" || !minutes || !(doubt > 0.0)) {
      continue;
    }
    const double faster = log_same(*minutes / stated->middle());
    const double variance = one.prior.b * one.prior.b;
    const double total = variance + doubt * doubt;
    if (*minutes < 0.85 * stated->low || *minutes > 1.15 * stated->high) {
      setup.doubts.push_back(
          {"in the oven " + number_text(stated->low, 0) +
               (stated->high > stated->low ? " to " + number_text(stated->high, 0) : "") +
               " minutes",
           "such a piece is worked out to take about " + number_text(*minutes, 0) +
               " to its usual core; the forecast takes both into account, so look early"});
    }
    constexpr double k_beyond_reason = 3.0;  // standard deviations
    if (faster * faster < k_beyond_reason * k_beyond_reason * total) {
      one.prior.a *= exp_same(faster * variance / total);
      one.prior.b = std::sqrt(variance * doubt * doubt / total);
    }
  }
}

}  // namespace maslin
