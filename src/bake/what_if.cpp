#include "bake/what_if.h"

namespace maslin {
namespace {

Oven moved(const Oven& oven, const Lanes& by_k) {
  Oven out = oven;
  for (OvenPhase& phase : out.phases) {
    phase.set_point_k += by_k;
  }
  return out;
}

}  // namespace

OvenSetting setting_for(const Piece& piece, const Oven& oven, const Lanes& core_k, double lightness,
                        const BakeUnknowns& unknowns) {
  constexpr double k_coolest_k = 393.15;
  constexpr double k_hottest_k = 573.15;
  constexpr int k_halvings = 9;  // to a third of a degree
  OvenSetting out;
  if (oven.phases.empty()) {
    out.problem = oven_problem(oven);
    return out;
  }
  DoneRule rule;
  rule.core_k = core_k;
  const double first_k = oven.phases.front().set_point_k[0];
  const auto bake_at = [&](double set_point_k) {
    const BakeRun run = bake_piece(piece, moved(oven, set_point_k - first_k), rule, unknowns);
    ++out.bakes;
    out.set_point_k = set_point_k;
    out.problem = run.problem;
    out.minutes = run.minutes_to_done[0];
    out.core_k = run.at_done.core_k[0];
    out.lightness = run.at_done.lightness[0];
    out.weight_loss_pct = run.at_done.weight_loss_pct[0];
    // A cool oven that never gets there dries and colours all the while: too dark.
    return run.status == BakeStatus::impossible ? -1.0 : out.lightness - lightness;
  };
  // Slow bakes darken too: between is a palest setting; above it hotter is darker.
  double palest_k = k_coolest_k;
  double palest = -1e9;
  for (double k = k_coolest_k; k <= k_hottest_k; k += 20.0) {
    const double paler = bake_at(k);
    if (!out.problem.empty() && paler == -1.0) {
      return out;
    }
    if (out.problem.empty() && paler > palest) {
      palest = paler;
      palest_k = k;
    }
  }
  if (palest < 0.0) {
    bake_at(palest_k);
    out.problem =
        "The crust is darker than wanted before the core is done, at any setting: "
        "make the piece smaller, or cover it.";
    return out;
  }
  if (bake_at(k_hottest_k) > 0.0) {
    out.problem =
        "The crust stays paler than wanted even at 300 degrees Celsius: leave it in "
        "past done, or wash it with egg.";
    return out;
  }
  double low = palest_k, high = k_hottest_k;
  for (int i = 0; i < k_halvings; ++i) {
    const double middle = 0.5 * (low + high);
    (bake_at(middle) > 0.0 ? low : high) = middle;
  }
  bake_at(0.5 * (low + high));
  return out;
}

Lanes last_minute_before_dry(const BakeRun& run, double weight_loss_pct) {
  Lanes out = 0.0;
  for (std::size_t i = 0; i < run.trace.size(); ++i) {
    const Lanes& loss = run.trace[i].weight_loss_pct;
    const Mask moist = loss <= Lanes(weight_loss_pct);
    out = select(moist, run.trace_minutes[i], out);
    if (i == 0) {
      continue;
    }
    // Crossed in this sample: by a straight line.
    const Lanes before = run.trace[i - 1].weight_loss_pct;
    const Mask crossed = (before <= Lanes(weight_loss_pct)) & !moist;
    const Lanes share = (weight_loss_pct - before) / max(loss - before, 1e-12);
    const Lanes minute =
        run.trace_minutes[i - 1] + share * (run.trace_minutes[i] - run.trace_minutes[i - 1]);
    out = select(crossed, minute, out);
  }
  return out;
}

}  // namespace maslin
