#include "bake/section.h"

#include <algorithm>
#include <cmath>

#include "bake/bake_setup.h"
#include "bake/progress.h"
#include "bake/solid.h"

namespace maslin {
namespace {

constexpr double k_longest_step_s = 90.0;
constexpr double k_shortest_step_s = 1e-6;

struct Sectioning {
  const BakeSetup& setup;
  SolidGrid grid;
  SolidState state;
  SolidRoom room;
  OvenState oven;
  SolidGain gained;
  std::vector<Lanes> browning, rate;  // per node
  double volume_ratio = 1.0;
  double mass_kg = 0.0;  // of the part that the grid holds
  double now_s = 0.0;
};

SolidScale scale_of(const Sectioning& s) {
  const double ratio = s.volume_ratio;
  if (s.grid.round) {
    const double length = pow_same(ratio, 1.0 / 3.0);
    return {length, length, length * length, length * length};
  }
  return {1.0 / ratio, ratio, 1.0, ratio};
}

/// Browning of every cell over a step, and the spring's volume.
void follow(Sectioning& s, double step_s) {
  const ColumnFigures& f = s.setup.figures;
  Lanes swelling = 0.0, solids = 0.0;
  for (std::size_t column = 0; column < s.grid.columns(); ++column) {
    for (std::size_t k = 1; k <= s.grid.up; ++k) {
      const std::size_t at = s.grid.node(column, k);
      const Lanes& t = s.state.temperature[at];
      const Lanes now =
          f.browning_factor * browning_of(t, cell_water_activity(f, t, s.state.water[at]));
      s.browning[at] += 0.5 * step_s * (s.rate[at] + now);
      s.rate[at] = now;
      swelling += s.grid.solids_kg[at] * gas_swelling(f, t);
      solids += s.grid.solids_kg[at];
    }
  }
  s.volume_ratio = std::max(s.volume_ratio, 1.0 + f.volume_gain[0] * sum(swelling) / sum(solids));
}

SectionFrame frame_of(const Sectioning& s) {
  SectionFrame out;
  out.minutes = s.now_s / 60.0;
  out.weight_loss_pct = -100.0 * s.gained.water_kg / s.mass_kg;
  out.volume_ratio = s.volume_ratio;
  out.core_k = 1e9;
  for (std::size_t k = 1; k <= s.grid.up; ++k) {
    for (std::size_t x = 0; x < s.grid.across(); ++x) {
      const std::size_t at = s.grid.node(x % s.grid.groups, k), lane = x / s.grid.groups;
      const double t = s.state.temperature[at][lane];
      out.temperature_k.push_back(t);
      out.water.push_back(s.state.water[at][lane]);
      out.lightness.push_back(lightness_of(s.browning[at])[lane]);
      out.core_k = std::min(out.core_k, t);
    }
  }
  return out;
}

/// Steps to `until_s`; false when steps grow too short.
bool run_to(Sectioning& s, double until_s, const SectionOptions& options, double& step_s,
            SectionRun& run) {
  const double tolerance = std::max(options.tolerance, 0.01);
  const auto& phases = s.setup.course.phases;
  while (s.now_s < until_s - 1e-6) {
    double limit = until_s;
    if (s.oven.phase + 1 < phases.size()) {
      limit = std::min(limit, phases[s.oven.phase + 1].from_s);
    }
    const double tried = std::min(step_s, std::max(limit - s.now_s, k_shortest_step_s));
    const OvenState after = oven_after(s.setup.course, s.oven, s.now_s, tried);
    const SolidStep step =
        try_solid_step(s.grid, s.setup.figures, surroundings(s.setup.course, s.oven),
                       surroundings(s.setup.course, after), scale_of(s), tried, tolerance, s.state,
                       s.gained, s.room, options.team);
    run.iterations += step.iterations;
    const double scale = step.error > 0.0 ? 0.65 / pow_same(step.error, 1.0 / 3.0) : 2.5;
    if (!(step.error <= 1.0)) {
      ++run.rejected;
      step_s = tried * (step.error < 1e300 ? std::clamp(scale, 0.1, 0.5) : 0.1);
      if (step_s < k_shortest_step_s) {
        return false;
      }
      continue;
    }
    ++run.steps;
    s.now_s += tried;
    s.oven = after;
    follow(s, tried);
    const double grown = tried * std::clamp(scale, 0.1, 1.5);
    step_s = std::min(tried < step_s ? std::max(grown, step_s) : grown, k_longest_step_s);
  }
  return true;
}

}  // namespace

SectionRun bake_section(const Piece& layered, const Oven& oven, const BakeUnknowns& unknowns,
                        const SectionOptions& options) {
  const Piece piece = with_topping_spread(layered);
  SectionRun run;
  const BakeSetup setup = bake_setup(piece, oven, {}, unknowns, {});
  if (!setup.problem.empty()) {
    run.problem = setup.problem;
    return run;
  }
  const SolidCells cells{(std::clamp(options.across, 8, 256) / 8) * 8,
                         std::clamp(options.along, 1, 256), std::clamp(options.up, 6, 256)};
  const double solids_kg = (setup.mass_kg * piece.dough.solids_share)[0];
  SolidGrid grid = make_solid(piece_size(piece, unknowns.mass_factor), solids_kg, cells);
  Sectioning s{setup, grid, {}, solid_room(grid), oven_at_start(setup.course), {}, {}, {}};
  s.mass_kg = setup.mass_kg[0] * (grid.round ? 1.0 : 0.25);
  s.state.temperature.assign(grid.nodes(), piece.start_k[0]);
  s.state.water.assign(grid.nodes(), setup.figures.first_water[0]);
  for (std::size_t column = 0; column < grid.columns(); ++column) {
    s.state.temperature[grid.node(column, 0)] = setup.start.temperature[0][0];
    s.state.water[grid.node(column, 0)] = 0.0;
  }
  s.browning.assign(grid.nodes(), 0.0);
  s.rate.assign(grid.nodes(), 0.0);
  run.across = cells.across;
  run.up = cells.up;
  run.round = grid.round;
  for (const double x : grid.x_m) {
    run.x_mm.push_back(1e3 * x);
  }
  for (const double h : grid.height_m) {
    run.height_mm.push_back(1e3 * h);
  }
  run.share_up = grid.share_up;
  std::vector<double> looks = options.minutes;
  for (double minute = 0.0; options.minutes.empty() && minute <= 40.0; minute += 5.0) {
    looks.push_back(minute);
  }
  const SolidGain first = solid_totals(grid, setup.figures, s.state);
  double step_s = 1.0;
  for (const double minute : looks) {
    if (!run_to(s, 60.0 * std::clamp(minute, 0.0, 600.0), options, step_s, run)) {
      run.problem = "The cut could not be followed past this minute: check the oven's temperature.";
      return run;
    }
    run.frames.push_back(frame_of(s));
  }
  const SolidGain last = solid_totals(grid, setup.figures, s.state);
  run.mass_closure = std::fabs(last.water_kg - first.water_kg - s.gained.water_kg) / first.water_kg;
  run.energy_closure = std::fabs(last.heat_j - first.heat_j - s.gained.heat_j) /
                       std::max(std::fabs(first.heat_j) + std::fabs(s.gained.heat_j), 1e-12);
  return run;
}

}  // namespace maslin
