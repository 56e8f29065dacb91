#include "bake/bake.h"

#include <algorithm>
#include <array>
#include <limits>

#include "bake/bake_setup.h"
#include "bake/progress.h"
#include "bake/stepper.h"

namespace maslin {
namespace {

constexpr double k_first_step_s = 1.0;
constexpr double k_longest_step_s = 90.0;
constexpr double k_shortest_step_s = 1e-7;

Lanes between(const Lanes& a, const Lanes& b, const Lanes& share) {
  return a + share * (b - a);
}

BakeMoment between(const BakeMoment& a, const BakeMoment& b, const Lanes& share) {
  BakeMoment out;
  out.minutes = between(a.minutes, b.minutes, share);
  out.core_k = between(a.core_k, b.core_k, share);
  out.filling_k = between(a.filling_k, b.filling_k, share);
  out.surface_k = between(a.surface_k, b.surface_k, share);
  out.base_k = between(a.base_k, b.base_k, share);
  out.weight_loss_pct = between(a.weight_loss_pct, b.weight_loss_pct, share);
  out.lightness = between(a.lightness, b.lightness, share);
  out.base_lightness = between(a.base_lightness, b.base_lightness, share);
  out.crust_mm = between(a.crust_mm, b.crust_mm, share);
  out.core_water = between(a.core_water, b.core_water, share);
  out.starch_set = between(a.starch_set, b.starch_set, share);
  out.volume_ratio = between(a.volume_ratio, b.volume_ratio, share);
  return out;
}

/// Copies the lanes of `from` where `mask` is true.
BakeMoment chosen(const Mask& mask, const BakeMoment& from, const BakeMoment& otherwise) {
  // A share of 0 or 1 picks exactly: a + 1 (b - a) may round, so select each field.
  BakeMoment out;
  out.minutes = select(mask, from.minutes, otherwise.minutes);
  out.core_k = select(mask, from.core_k, otherwise.core_k);
  out.filling_k = select(mask, from.filling_k, otherwise.filling_k);
  out.surface_k = select(mask, from.surface_k, otherwise.surface_k);
  out.base_k = select(mask, from.base_k, otherwise.base_k);
  out.weight_loss_pct = select(mask, from.weight_loss_pct, otherwise.weight_loss_pct);
  out.lightness = select(mask, from.lightness, otherwise.lightness);
  out.base_lightness = select(mask, from.base_lightness, otherwise.base_lightness);
  out.crust_mm = select(mask, from.crust_mm, otherwise.crust_mm);
  out.core_water = select(mask, from.core_water, otherwise.core_water);
  out.starch_set = select(mask, from.starch_set, otherwise.starch_set);
  out.volume_ratio = select(mask, from.volume_ratio, otherwise.volume_ratio);
  return out;
}

/// How near a moment is to done: grows, and passes 0 at done.
Lanes done_by(const DoneRule& rule, const BakeSetup& setup, const BakeMoment& moment) {
  const Lanes& core_target_k = setup.core_target_k;
  switch (rule.by) {
    case DoneBy::core:
      return moment.core_k - core_target_k;
    case DoneBy::starch:
      return moment.starch_set - rule.starch_set;
    case DoneBy::colour:
      return rule.lightness - moment.lightness;
    case DoneBy::core_and_colour:
      return min(moment.core_k - core_target_k, rule.lightness - moment.lightness);
    case DoneBy::loaf:
      return min(
          min(moment.core_k - core_target_k, moment.weight_loss_pct - setup.loss_target_pct),
          min(rule.lightness - moment.lightness, rule.base_lightness - moment.base_lightness));
    case DoneBy::time:
      return moment.minutes - rule.minutes;
  }
  return moment.minutes - rule.minutes;
}

std::vector<BakeProfile> profiles_of(const CellColumn& column, const ColumnState& state,
                                     const Progress& progress, bool filled) {
  std::vector<BakeProfile> out(k_lane_count);
  const Lanes middle = middle_temperature_k(column, state);
  for (std::size_t lane = 0; lane < k_lane_count; ++lane) {
    double depth = 0.0;
    const auto add = [&](std::size_t i, double share) {
      const double thick = 1e3 * share * column.depth_m[i][lane];
      if (filled && column.inside(i)) {
        const std::size_t here = out[lane].depth_mm.size();
        out[lane].filling_from = out[lane].filling_to > 0 ? out[lane].filling_from : here;
        out[lane].filling_to = here + 1;
      }
      out[lane].depth_mm.push_back(depth + 0.5 * thick);
      out[lane].temperature_k.push_back(state.temperature[i][lane]);
      out[lane].water.push_back(state.water[i][lane]);
      out[lane].lightness.push_back(lightness_of(progress.browning[i])[lane]);
      depth += thick;
    };
    for (std::size_t i = 1; i < column.join; ++i) {
      add(i, 1.0);
    }
    // Through the core and out of it again.
    add(column.join, 1.0);
    for (std::size_t i = column.last + 1; i < column.count; ++i) {
      add(i, 1.0);
    }
    // The very middle, a place without thickness.
    add(column.count - 1, 0.0);
    out[lane].temperature_k.back() = middle[lane];
    for (std::size_t i = column.count; i-- > column.last + 1;) {
      add(i, 1.0);
    }
    for (std::size_t i = column.join; i <= column.last; ++i) {
      add(i, 1.0);
    }
  }
  return out;
}

/// The largest lane; infinite where one is no number.
double worst(const Lanes& x) {
  double out = 0.0;
  for (std::size_t lane = 0; lane < k_lane_count; ++lane) {
    if (!(x[lane] < 1e300)) {
      return std::numeric_limits<double>::infinity();
    }
    out = std::max(out, x[lane]);
  }
  return out;
}

/// One bake on its way.
struct Baking {
  const BakeSetup& setup;
  const DoneRule& rule;
  const BakeOptions& options;
  CellColumn column;
  ColumnState state;
  StepperRoom room;
  OvenState oven;
  Surroundings around;  // at `now_s`
  Progress progress;
  Exchanged exchanged;
  BakeMoment moment;
  double now_s = 0.0;
};

void record(const Baking& baking, const BakeMoment& before, BakeRun& run) {
  const double sample = std::max(baking.options.sample_minutes, 0.01);
  const double now = baking.now_s / 60.0;
  double next = sample * static_cast<double>(run.trace.size());
  while (next <= now + 1e-12) {
    const double span = now - before.minutes[0];
    const double share = span > 0.0 ? (next - before.minutes[0]) / span : 1.0;
    run.trace_minutes.push_back(next);
    run.trace.push_back(between(before, baking.moment, share));
    next = sample * static_cast<double>(run.trace.size());
  }
}

void keep_cut(const Baking& baking, BakeRun& run) {
  const double now = baking.now_s / 60.0;
  const double apart = baking.options.cut_minutes;
  if (apart > 0.0 && (run.cuts.empty() || now >= run.cuts.back().minutes + apart)) {
    run.cuts.push_back({now, profiles_of(baking.column, baking.state, baking.progress,
                                         baking.setup.figures.filling != nullptr)});
  }
}

void note_done(const Baking& baking, const BakeMoment& before, BakeRun& run) {
  if (baking.now_s <= 60.0 * baking.rule.from_minute + 1e-9) {
    return;
  }
  const Lanes was = done_by(baking.rule, baking.setup, before);
  const Lanes is = done_by(baking.rule, baking.setup, baking.moment);
  const Mask fresh = (is >= Lanes(0.0)) & !run.reached;
  if (!any(fresh)) {
    return;
  }
  const Lanes share = clamp(-was / max(is - was, 1e-30), 0.0, 1.0);
  run.at_done = chosen(fresh, between(before, baking.moment, share), run.at_done);
  run.reached = run.reached | fresh;
}

/// Advances by one accepted step, at most to `stop_s`; false when steps grow too short.
bool advance(Baking& baking, double stop_s, double& step_s, BakeRun& run) {
  double limit = stop_s;
  const auto& phases = baking.setup.course.phases;
  if (baking.oven.phase + 1 < phases.size()) {
    limit = std::min(limit, phases[baking.oven.phase + 1].from_s);
  }
  while (step_s >= k_shortest_step_s) {
    const double tried = std::min(step_s, std::max(limit - baking.now_s, k_shortest_step_s));
    const OvenState after = oven_after(baking.setup.course, baking.oven, baking.now_s, tried);
    const Surroundings around = surroundings(baking.setup.course, after);
    const StepResult result = try_step(
        baking.column, baking.setup.figures, baking.around, around, baking.progress.volume_ratio,
        tried, baking.options.tolerance, baking.state, baking.exchanged, baking.room);
    const bool sound = result.error <= 1.0;
    const double scale =
        result.error > 0.0 ? 0.75 / pow_same(result.error, 1.0 / 3.0) : 4.0;  // 0.75: few in vain
    const double grown = tried * std::clamp(sound ? scale : std::min(scale, 0.5), 0.1, 1.8);
    if (!sound) {
      step_s = result.error < 1e300 ? grown : 0.1 * tried;
      ++run.rejected;
      continue;
    }
    // A step cut short by a phase must not shorten the next one.
    step_s =
        std::min(std::max(grown, std::min(step_s, k_longest_step_s) * (tried < step_s ? 1.0 : 0.0)),
                 k_longest_step_s);
    baking.now_s += tried;
    baking.oven = after;
    baking.around = around;
    ++run.steps;
    follow(baking.column, baking.setup.figures, around, baking.state, tried, baking.options.detail,
           baking.progress, baking.moment);
    baking.moment.minutes = baking.now_s / 60.0;
    baking.moment.weight_loss_pct = -100.0 * baking.exchanged.water_kg / baking.setup.mass_kg;
    return true;
  }
  return false;
}

void close_balances(const Baking& baking, const Exchanged& first, BakeRun& run) {
  const Exchanged last = column_totals(baking.column, baking.setup.figures, baking.state);
  run.mass_closure = worst(abs(last.water_kg - first.water_kg - baking.exchanged.water_kg) /
                           max(first.water_kg, 1e-12));
  run.energy_closure = worst(abs(last.heat_j - first.heat_j - baking.exchanged.heat_j) /
                             max(abs(first.heat_j) + abs(baking.exchanged.heat_j), 1e-12));
}

void finish(const Baking& baking, BakeRun& run) {
  run.at_done = chosen(run.reached, run.at_done, baking.moment);
  run.minutes_to_done = run.at_done.minutes;
  run.profiles = profiles_of(baking.column, baking.state, baking.progress,
                             baking.setup.figures.filling != nullptr);
  run.status = all(run.reached) ? BakeStatus::done : BakeStatus::not_reached;
  if (run.status == BakeStatus::not_reached) {
    run.problem =
        "The piece is not done in the time allowed in this oven: make it hotter, or the piece "
        "smaller, or choose another sign of done.";
  }
}

}  // namespace

std::string_view crust_name(Crust crust) {
  switch (crust) {
    case Crust::none:
      return "none";
    case Crust::pale:
      return "pale";
    case Crust::light_gold:
      return "light gold";
    case Crust::golden:
      return "golden";
    case Crust::brown:
      return "brown";
    case Crust::dark:
      return "dark";
    case Crust::burnt:
      return "burnt";
  }
  return "none";
}

Crust crust_of(double lightness) {
  for (const Crust crust :
       {Crust::pale, Crust::light_gold, Crust::golden, Crust::brown, Crust::dark}) {
    if (lightness > crust_bounds(crust).low) {
      return crust;
    }
  }
  return Crust::burnt;
}

LightnessBounds crust_bounds(Crust crust) {
  constexpr std::array<LightnessBounds, 7> k_bounds{
      {{0, 100}, {78, 100}, {70, 78}, {60, 70}, {50, 60}, {32, 50}, {0, 32}}};
  return k_bounds[static_cast<std::size_t>(crust)];
}

Crust crust_from(std::string_view word) {
  for (const Crust crust :
       {Crust::pale, Crust::light_gold, Crust::golden, Crust::brown, Crust::dark, Crust::burnt}) {
    if (word == crust_name(crust)) {
      return crust;
    }
  }
  return Crust::none;
}

Lanes loss_when_baked_pct(const Piece& piece, const Lanes& mass_g, double of_tin_pct) {
  constexpr double k_tin_loaf_g = 900.0;
  constexpr double k_without_a_tin = 1.2;
  const bool tinned = piece.shape == PieceShape::tin_loaf || piece.shape == PieceShape::ring;
  return (tinned ? of_tin_pct : k_without_a_tin * of_tin_pct) *
         pow(k_tin_loaf_g / max(mass_g, 1.0), 1.0 / 3.0);
}

BakeRun bake_piece(const Piece& piece, const Oven& oven, const DoneRule& rule,
                   const BakeUnknowns& unknowns, const BakeOptions& options) {
  BakeRun run;
  const BakeSetup setup = bake_setup(piece, oven, rule, unknowns, options);
  if (!setup.problem.empty()) {
    run.problem = setup.problem;
    return run;
  }
  Baking baking{setup,
                rule,
                options,
                setup.column,
                setup.start,
                stepper_room(setup.column),
                oven_at_start(setup.course),
                surroundings(setup.course, oven_at_start(setup.course)),
                progress_at_start(setup.column),
                {},
                {},
                0.0};
  const Exchanged first = column_totals(baking.column, setup.figures, baking.state);
  follow(baking.column, setup.figures, baking.around, baking.state, 0.0, options.detail,
         baking.progress, baking.moment);
  record(baking, baking.moment, run);
  keep_cut(baking, run);
  const double last_s = 60.0 * std::max(options.at_most_minutes, options.at_least_minutes);
  double step_s = k_first_step_s;
  while (baking.now_s < last_s - 1e-6 &&
         !(all(run.reached) && baking.now_s >= 60.0 * options.at_least_minutes - 1e-6)) {
    const BakeMoment before = baking.moment;
    if (!advance(baking, last_s, step_s, run)) {
      run.problem = "The bake could not be followed to its end: check the oven's temperature.";
      run.trace.clear();
      run.trace_minutes.clear();
      return run;
    }
    record(baking, before, run);
    keep_cut(baking, run);
    note_done(baking, before, run);
  }
  close_balances(baking, first, run);
  finish(baking, run);
  return run;
}

BakeMoment moment_at(const BakeRun& run, const Lanes& minutes) {
  BakeMoment out;
  if (run.trace.empty()) {
    return out;
  }
  for (std::size_t lane = 0; lane < k_lane_count; ++lane) {
    const double wanted = minutes[lane];
    const auto after = std::upper_bound(run.trace_minutes.begin(), run.trace_minutes.end(), wanted);
    const auto at = static_cast<std::size_t>(after - run.trace_minutes.begin());
    const std::size_t high = std::min(std::max<std::size_t>(at, 1), run.trace.size() - 1);
    const std::size_t low = high == 0 ? 0 : high - 1;
    const double span = run.trace_minutes[high] - run.trace_minutes[low];
    const double share =
        span > 0.0 ? std::clamp((wanted - run.trace_minutes[low]) / span, 0.0, 1.0) : 0.0;
    Mask mine{};
    mine.m.set(lane, -1);
    out = chosen(mine, between(run.trace[low], run.trace[high], share), out);
  }
  return out;
}

}  // namespace maslin
