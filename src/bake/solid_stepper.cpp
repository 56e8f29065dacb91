#include <array>
#include <cmath>
#include <limits>

#include "bake/solid_rates.h"
#include "numerics/clones.h"
#include "numerics/rosenbrock.h"

namespace maslin {

using namespace rodas3;

namespace {

constexpr double k_absolute_k = 1.0;
constexpr double k_absolute_water = 0.01;
constexpr double k_linear_share = 2e-3;  // of the step's tolerance that a solve may leave

struct Nodes {
  Nodes(const SolidGrid& g, std::size_t slab)
      : from(g.node(SlabColumns(g, slab).from, 0)), to(g.node(SlabColumns(g, slab).to, 0)) {}
  std::size_t from, to;
};

/// Hands what the linear solver left over to the cells that lack it: v grows by the residual
/// over the capacity. Then the capacities times v are the rates at the v before, which was
/// taken for the exchange with the oven, so that heat and water close whatever was left.
inline void settle_residual(const SolidGrid& g, const SolidRoom& room, const Nodes& nodes,
                            Pair* v) {
  for (std::size_t at = nodes.from; at < nodes.to; ++at) {
    const Pair& r = room.residual[at];
    const Pair& mass = room.mass[at];
    // The plate holds no water: its second row is the identity and leaves nothing.
    const Lanes solids = max(g.solids_kg[at], 1e-300);
    const Lanes water = select(g.solids_kg[at] > Lanes(0.0), r.b / solids, 0.0);
    v[at].a += (r.a - mass.b * water) / mass.a;
    v[at].b += water;
  }
}

/// The state of a slab with `weights` of the stages added.
inline void advanced(const SolidGrid& g, const ColumnFigures& f, const SolidState& from,
                     const SolidRoom& room, const double* weights, std::size_t stages,
                     std::size_t slab, SolidState& to) {
  const Nodes nodes(g, slab);
  for (std::size_t at = nodes.from; at < nodes.to; ++at) {
    Pair v{0.0, 0.0};
    for (std::size_t j = 0; j < stages; ++j) {
      v.a += weights[j] * room.stage[j][at].a;
      v.b += weights[j] * room.stage[j][at].b;
    }
    const Lanes capacity = f.solids_heat + k_liquid_heat_j_per_kg_k * from.water[at];
    const Lanes grown = capacity + k_liquid_heat_j_per_kg_k * v.b;
    to.temperature[at] = from.temperature[at] + capacity * v.a / max(grown, 0.25 * capacity);
    to.water[at] = from.water[at] + v.b;
  }
  const SlabColumns columns(g, slab);
  for (std::size_t column = columns.from; column < columns.to; ++column) {
    to.water[g.node(column, 0)] = 0.0;
  }
}

inline double error_of(const SolidRoom& room, const Nodes& nodes) {
  Lanes worst = 0.0;
  for (std::size_t at = nodes.from; at < nodes.to; ++at) {
    const Pair& v = room.stage[k_stages - 1][at];
    const Lanes by_heat = abs(v.a) * (1.0 / k_absolute_k);
    const Lanes by_water = abs(v.b) * (1.0 / k_absolute_water);
    worst = select(worst >= by_heat, worst, by_heat);
    worst = select(worst >= by_water, worst, by_water);
  }
  double out = 0.0;
  for (std::size_t lane = 0; lane < k_lane_count; ++lane) {
    if (!(worst[lane] < 1e300)) {
      return std::numeric_limits<double>::infinity();
    }
    out = worst[lane] > out ? worst[lane] : out;
  }
  return out;
}

/// gamma h times what enters a slab from outside in this stage, its answer to v included.
inline SolidGain exchange(const SolidRoom& room, double gamma_h, const Nodes& nodes,
                          const Pair* v) {
  Lanes heat = 0.0, water = 0.0;
  for (std::size_t at = nodes.from; at < nodes.to; ++at) {
    const FaceFlux& now = room.surface[at];
    const FaceFlux& slope = room.first_surface[at];
    heat += now.heat + slope.heat_t0 * v[at].a + slope.heat_x0 * v[at].b;
    water += now.water + slope.water_t0 * v[at].a + slope.water_x0 * v[at].b;
  }
  return {gamma_h * sum(heat), gamma_h * sum(water)};
}

struct StepOf {
  const SolidGrid& grid;
  const ColumnFigures& figures;
  double gamma_h;
};

}  // namespace

namespace solid_steps {

/// State, physics and rates of stage k in a slab.
MASLIN_ALL_WIDTHS
void begin_stage(const StepOf& step, const SolidStage& stage, std::size_t k, std::size_t slab,
                 const SolidState& state, SolidRoom& room) {
  if (k == 0) {
    solid_rates<Want::rates_and_matrix>(stage, state, step.gamma_h, room, slab);
    const Nodes nodes(step.grid, slab);
    std::copy(room.surface.begin() + static_cast<std::ptrdiff_t>(nodes.from),
              room.surface.begin() + static_cast<std::ptrdiff_t>(nodes.to),
              room.first_surface.begin() + static_cast<std::ptrdiff_t>(nodes.from));
  } else if (k == 1) {
    // The same state again, later surroundings.
    solid_surfaces(stage, state, room, slab);
  } else {
    solid_rates<Want::rates>(stage, room.trial, step.gamma_h, room, slab);
  }
}

MASLIN_ALL_WIDTHS
void stage_state(const StepOf& step, const double* weights, std::size_t stages, std::size_t slab,
                 const SolidState& state, SolidRoom& room) {
  advanced(step.grid, step.figures, state, room, weights, stages, slab, room.trial);
}

MASLIN_ALL_WIDTHS
void between_slabs(const StepOf& step, const SolidStage& stage, std::size_t k,
                   const SolidState& state, SolidRoom& room) {
  if (k == 0) {
    seam_faces<Want::rates_and_matrix>(stage, state, step.gamma_h, room);
  } else if (k > 1) {
    seam_faces<Want::rates>(stage, room.trial, step.gamma_h, room);
  }
}

/// The right side of stage k in a slab, and a guess of its answer: the last step's, by the
/// length of step.
MASLIN_ALL_WIDTHS
void right_side(const StepOf& step, std::size_t k, double longer, std::size_t slab,
                SolidRoom& room) {
  const Nodes nodes(step.grid, slab);
  Pair* v = room.stage[k].data();
  for (std::size_t at = nodes.from; at < nodes.to; ++at) {
    Pair earlier{0.0, 0.0};
    for (std::size_t j = 0; j < k; ++j) {
      earlier.a += k_c[k][j] * room.stage[j][at].a;
      earlier.b += k_c[k][j] * room.stage[j][at].b;
    }
    const Lanes held_heat = room.mass[at].a * earlier.a + room.mass[at].b * earlier.b;
    const Lanes held_water = step.grid.solids_kg[at] * earlier.b;
    room.right[at] = {
        step.gamma_h * (room.inner[at].a + room.surface[at].heat) + k_gamma * held_heat,
        step.gamma_h * (room.inner[at].b + room.surface[at].water) + k_gamma * held_water};
    v[at] = longer > 0.0 ? Pair{longer * v[at].a, longer * v[at].b} : Pair{0.0, 0.0};
  }
}

MASLIN_ALL_WIDTHS
SolidGain end_stage(const StepOf& step, std::size_t k, std::size_t slab, SolidRoom& room) {
  const Nodes nodes(step.grid, slab);
  Pair* v = room.stage[k].data();
  const SolidGain out = exchange(room, step.gamma_h, nodes, v);
  settle_residual(step.grid, room, nodes, v);
  return out;
}

}  // namespace solid_steps

SolidStep try_solid_step(const SolidGrid& grid, const ColumnFigures& figures,
                         const Surroundings& before, const Surroundings& after,
                         const SolidScale& scale, double step_s, double tolerance,
                         SolidState& state, SolidGain& gained, SolidRoom& room, Team* team) {
  const StepOf step{grid, figures, k_gamma * step_s};
  const std::size_t slabs = grid.shape().slabs();
  std::array<SolidGain, k_stages> by_stage{};
  SolidStep result;
  const double longer = room.last_step_s > 0.0 ? step_s / room.last_step_s : 0.0;
  room.last_step_s = step_s;
  for (std::size_t k = 0; k < k_stages; ++k) {
    const Surroundings around = blend(before, after, k_when[k]);
    const SolidStage stage{grid, {figures, around}, scale};
    if (k > 1) {
      run_parts(team, slabs, [&](std::size_t slab) {
        solid_steps::stage_state(step, k_a[k], k, slab, state, room);
      });
    }
    run_parts(team, slabs, [&](std::size_t slab) {
      solid_steps::begin_stage(step, stage, k, slab, state, room);
    });
    solid_steps::between_slabs(step, stage, k, state, room);
    if (k == 0) {
      room.solver.set_up(room.matrix, room.weight, team);
    }
    run_parts(team, slabs,
              [&](std::size_t slab) { solid_steps::right_side(step, k, longer, slab, room); });
    const int iterations =
        room.solver.solve(room.matrix, room.weight, k_linear_share * tolerance, room.right.data(),
                          room.stage[k].data(), room.residual.data(), team);
    result.iterations += iterations;
    std::array<SolidGain, 4> by_slab{};
    run_parts(team, slabs, [&](std::size_t slab) {
      by_slab[slab] = solid_steps::end_stage(step, k, slab, room);
    });
    for (const SolidGain& one : by_slab) {
      by_stage[k].heat_j += one.heat_j;
      by_stage[k].water_kg += one.water_kg;
    }
    for (std::size_t j = 0; j < k; ++j) {
      by_stage[k].heat_j += k_gamma * k_c[k][j] * by_stage[j].heat_j;
      by_stage[k].water_kg += k_gamma * k_c[k][j] * by_stage[j].water_kg;
    }
    if (iterations >= SolidSolver::k_most_iterations) {
      result.error = std::numeric_limits<double>::infinity();
      room.last_step_s = 0.0;
      return result;
    }
  }
  for (std::size_t slab = 0; slab < slabs; ++slab) {
    result.error = std::max(result.error, error_of(room, Nodes(grid, slab)) / tolerance);
  }
  if (!(result.error <= 1.0)) {
    return result;
  }
  for (std::size_t k = 0; k < k_stages; ++k) {
    gained.heat_j += k_m[k] * by_stage[k].heat_j;
    gained.water_kg += k_m[k] * by_stage[k].water_kg;
  }
  run_parts(team, slabs, [&](std::size_t slab) {
    solid_steps::stage_state(step, k_m, k_stages, slab, state, room);
  });
  std::swap(state.temperature, room.trial.temperature);
  std::swap(state.water, room.trial.water);
  return result;
}

}  // namespace maslin
