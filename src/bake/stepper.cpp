#include "bake/stepper.h"

#include <limits>

#include "bake/column_rates.h"
#include "numerics/rosenbrock.h"

namespace maslin {

using namespace rodas3;

namespace {

constexpr double k_absolute_k = 1.0;       // tolerance in temperature, K
constexpr double k_absolute_water = 0.01;  // in water, kg/kg
/// Heat and water that the increments of a node carry.
inline Pair carried(const Pair& mass, const Lanes& solids, const Pair& v) {
  return {mass.a * v.a + mass.b * v.b, solids * v.b};
}

/// Surface exchange of one stage without its share of earlier ones:
/// gamma h (B + B' v).
inline Pair exchange(const SurfaceFluxes& at, const SurfaceFluxes& slopes, double gamma_h,
                     const Pair* v, std::size_t last) {
  const Lanes heat = at.heat() + slopes.plate.heat_t0 * v[0].a + slopes.vent.heat_t0 * v[1].a +
                     slopes.vent.heat_x0 * v[1].b + slopes.open.heat_t0 * v[last].a +
                     slopes.open.heat_x0 * v[last].b;
  const Lanes water = at.water() + slopes.vent.water_t0 * v[1].a + slopes.vent.water_x0 * v[1].b +
                      slopes.open.water_t0 * v[last].a + slopes.open.water_x0 * v[last].b;
  return {gamma_h * heat, gamma_h * water};
}

constexpr double k_least_capacity_kept = 0.25;  // of a cell's heat capacity, in one step
constexpr double k_too_long_a_step = 8.0;       // as an error: tried again at less than half

/// The state with `weights` of the stages added, node by node in heat and water.
inline void advanced(const Column& column, const ColumnFigures& g, const ColumnState& from,
                     const StepperRoom& room, const double* weights, std::size_t stages,
                     ColumnState& to) {
  for (std::size_t i = 0; i < column.count; ++i) {
    Pair v{0.0, 0.0};
    for (std::size_t j = 0; j < stages; ++j) {
      if (weights[j] != 0.0) {
        v.a += weights[j] * room.stage[j][i].a;
        v.b += weights[j] * room.stage[j][i].b;
      }
    }
    if (i == 0) {
      to.temperature[0] = from.temperature[0] + v.a;
      continue;
    }
    // Both are linear in heat and water: with c the heat capacity of before,
    // (c + dX cw) T' = c T + c dT + cw T dX.
    const Lanes capacity = g.at(column, i).solids_heat + k_liquid_heat_j_per_kg_k * from.water[i];
    const Lanes grown = capacity + k_liquid_heat_j_per_kg_k * v.b;
    to.temperature[i] =
        from.temperature[i] + capacity * v.a / max(grown, k_least_capacity_kept * capacity);
    to.water[i] = from.water[i] + v.b;
  }
}

/// Whether a cell lost so much water that `advanced` held its heat capacity up: such a step
/// would not close the balance of heat.
inline bool dries_too_fast(const Column& column, const ColumnFigures& g, const ColumnState& from,
                           const ColumnState& to) {
  Lanes least = 1.0;
  for (std::size_t i = 1; i < column.count; ++i) {
    const Lanes capacity = g.at(column, i).solids_heat + k_liquid_heat_j_per_kg_k * from.water[i];
    const Lanes kept = capacity + k_liquid_heat_j_per_kg_k * (to.water[i] - from.water[i]) -
                       k_least_capacity_kept * capacity;
    least = min(least, kept);
  }
  return any(least < Lanes(0.0));
}

/// The largest lane; infinite where one is no number.
double worst_lane(const Lanes& x) {
  double worst = 0.0;
  for (std::size_t lane = 0; lane < k_lane_count; ++lane) {
    if (!(x[lane] < 1e300)) {
      return std::numeric_limits<double>::infinity();
    }
    worst = x[lane] > worst ? x[lane] : worst;
  }
  return worst;
}

double error_of(const StepperRoom& room, std::size_t count) {
  Lanes worst = 0.0;
  for (std::size_t i = 0; i < count; ++i) {
    const Pair& v = room.stage[k_stages - 1][i];
    const Lanes by_heat = abs(v.a) * (1.0 / k_absolute_k);
    const Lanes by_water = abs(v.b) * (1.0 / k_absolute_water);
    worst = select(worst >= by_heat, worst, by_heat);
    worst = select(worst >= by_water, worst, by_water);
  }
  return worst_lane(worst);
}

}  // namespace

StepperRoom stepper_room(const Column& column) {
  StepperRoom room;
  for (std::vector<Block>* blocks : {&room.lower, &room.diagonal, &room.upper}) {
    blocks->resize(column.count);
  }
  room.stage.assign(k_stages, std::vector<Pair>(column.count));
  room.inner.resize(column.count);
  room.mass.resize(column.count);
  room.physics.resize(column.count);
  room.trial.temperature.resize(column.count);
  room.trial.water.resize(column.count);
  return room;
}

// Compiled for several widths of vector where the loader can choose; contraction is off,
// so all give the same bits.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && defined(__OPTIMIZE__) && \
    !defined(__SANITIZE_ADDRESS__)
[[gnu::target_clones("avx512f", "avx2", "default"), gnu::flatten]]
#endif
StepResult try_step(const Column& column, const ColumnFigures& figures, const Surroundings& before,
                    const Surroundings& after, const Lanes& volume_ratio, double step_s,
                    double tolerance, ColumnState& state, Exchanged& exchanged, StepperRoom& room) {
  const std::size_t count = column.count;
  const std::size_t last = column.last;
  const double gamma_h = k_gamma * step_s;
  const Lanes log_ratio = log(volume_ratio);
  const Lanes reach_scale = exp(figures.spring_conductance * log_ratio);
  const Lanes area_scale = exp(figures.spring_area * log_ratio);
  const BlockFork fork{count, last + 1, column.join};
  SurfaceFluxes slopes;
  Pair gained[k_stages];
  for (std::size_t k = 0; k < k_stages; ++k) {
    const Surroundings around = blend(before, after, k_when[k]);
    const Stage stage{column, {figures, around}, reach_scale, area_scale};
    Pair* v = room.stage[k].data();
    SurfaceFluxes at;
    if (k == 0) {
      slopes = rates_and_matrix(stage, state, gamma_h, room, room.inner.data());
      factor_block_fork(fork, room.lower.data(), room.diagonal.data(), room.upper.data());
      at = slopes;
    } else if (k == 1) {
      // The same state again, later surroundings.
      at = surface_fluxes(stage, state, room.physics.data());
    } else {
      advanced(column, figures, state, room, k_a[k], k, room.trial);
      inner_rates(stage, room.trial, room.physics.data(), room.inner.data());
      at = surface_fluxes(stage, room.trial, room.physics.data());
    }
    for (std::size_t i = 0; i < count; ++i) {
      v[i] = room.inner[i];
    }
    add_surfaces(at, last, v);
    for (std::size_t i = 0; i < count; ++i) {
      Pair earlier{0.0, 0.0};
      for (std::size_t j = 0; j < k; ++j) {
        earlier.a += k_c[k][j] * room.stage[j][i].a;
        earlier.b += k_c[k][j] * room.stage[j][i].b;
      }
      const Pair held = carried(room.mass[i], column.solids_kg[i], earlier);
      v[i].a = gamma_h * v[i].a + k_gamma * held.a;
      v[i].b = gamma_h * v[i].b + k_gamma * held.b;
    }
    solve_block_fork(fork, room.lower.data(), room.diagonal.data(), room.upper.data(), v);
    gained[k] = exchange(at, slopes, gamma_h, v, last);
    for (std::size_t j = 0; j < k; ++j) {
      gained[k].a += (k_gamma * k_c[k][j]) * gained[j].a;
      gained[k].b += (k_gamma * k_c[k][j]) * gained[j].b;
    }
  }
  StepResult result;
  result.error = error_of(room, count) / tolerance;
  if (!(result.error <= 1.0)) {
    return result;
  }
  advanced(column, figures, state, room, k_m, k_stages, room.trial);
  if (dries_too_fast(column, figures, state, room.trial)) {
    result.error = k_too_long_a_step;
    return result;
  }
  for (std::size_t k = 0; k < k_stages; ++k) {
    exchanged.heat_j += k_m[k] * gained[k].a;
    exchanged.water_kg += k_m[k] * gained[k].b;
  }
  for (std::size_t i = 0; i < count; ++i) {
    state.temperature[i] = room.trial.temperature[i];
    state.water[i] = room.trial.water[i];
  }
  state.water[0] = 0.0;
  return result;
}

Exchanged column_totals(const Column& column, const ColumnFigures& figures,
                        const ColumnState& state) {
  Exchanged out;
  out.heat_j = column.base_area_m2 * figures.plate_heat * state.temperature[0];
  for (std::size_t i = 1; i < column.count; ++i) {
    out.heat_j += column.solids_kg[i] *
                  (figures.at(column, i).solids_heat + k_liquid_heat_j_per_kg_k * state.water[i]) *
                  (state.temperature[i] - k_zero_celsius_k);
    out.water_kg += column.solids_kg[i] * state.water[i];
  }
  return out;
}

}  // namespace maslin
