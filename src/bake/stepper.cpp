#include "bake/stepper.h"

#include <limits>
#include <utility>

#include "bake/column_rates.h"
#include "numerics/clones.h"
#include "numerics/rosenbrock.h"

namespace maslin {

using namespace rodas3;

namespace {

constexpr double k_absolute_k = 1.0;       // tolerance in temperature, K
constexpr double k_absolute_water = 0.01;  // in water, kg/kg
/// Heat and water that the increments of a node carry.
template <typename Real>
inline PairOf<Real> carried(const PairOf<Real>& mass, const Real& solids, const PairOf<Real>& v) {
  return {mass.a * v.a + mass.b * v.b, solids * v.b};
}

/// Surface exchange of one stage without its share of earlier ones:
/// gamma h (B + B' v).
template <typename Real>
inline PairOf<Real> exchange(const SurfaceFluxesOf<Real>& at, const SurfaceFluxesOf<Real>& slopes,
                             double gamma_h, const PairOf<Real>* v, std::size_t last) {
  const Real heat = at.heat() + slopes.plate.heat_t0 * v[0].a + slopes.vent.heat_t0 * v[1].a +
                    slopes.vent.heat_x0 * v[1].b + slopes.open.heat_t0 * v[last].a +
                    slopes.open.heat_x0 * v[last].b;
  const Real water = at.water() + slopes.vent.water_t0 * v[1].a + slopes.vent.water_x0 * v[1].b +
                     slopes.open.water_t0 * v[last].a + slopes.open.water_x0 * v[last].b;
  return {gamma_h * heat, gamma_h * water};
}

constexpr double k_least_capacity_kept = 0.25;  // of a cell's heat capacity, in one step
constexpr double k_too_long_a_step = 8.0;       // as an error: tried again at less than half

/// The nodes at the start of a step with `weights` of its stages added, each in heat and water:
/// `put(node, temperature, water)`. Says how much of its heat capacity the cell that lost most
/// water would keep beyond the least that it is held up to.
template <typename Real, typename Put>
inline Real advanced(const StageOf<Real>& s, const StepperRoomOf<Real>& room, const double* weights,
                     std::size_t stages, const Put& put) {
  Real least = 1.0;
  for (std::size_t i = 0; i < s.column.count; ++i) {
    PairOf<Real> v{0.0, 0.0};
    for (std::size_t j = 0; j < stages; ++j) {
      if (weights[j] != 0.0) {
        v.a += weights[j] * room.stage[j][i].a;
        v.b += weights[j] * room.stage[j][i].b;
      }
    }
    if (i == 0) {
      put(0, room.temperature[0] + v.a, room.water[0]);
      continue;
    }
    // Both are linear in heat and water: with c the heat capacity of before,
    // (c + dX cw) T' = c T + c dT + cw T dX.
    const Real capacity = s.figures(i).solids_heat + k_liquid_heat_j_per_kg_k * room.water[i];
    const Real grown = capacity + k_liquid_heat_j_per_kg_k * v.b;
    const Real water = room.water[i] + v.b;
    put(i, room.temperature[i] + capacity * v.a / max(grown, k_least_capacity_kept * capacity),
        water);
    least = min(least, capacity + k_liquid_heat_j_per_kg_k * (water - room.water[i]) -
                           k_least_capacity_kept * capacity);
  }
  return least;
}

/// The largest lane; infinite where one is no number.
template <typename Real>
inline double worst_lane(const Real& x) {
  double worst = 0.0;
  for (std::size_t lane = 0; lane < sizeof(Real) / sizeof(double); ++lane) {
    if (!(x[lane] < 1e300)) {
      return std::numeric_limits<double>::infinity();
    }
    worst = x[lane] > worst ? x[lane] : worst;
  }
  return worst;
}

template <typename Real>
inline double error_of(const StepperRoomOf<Real>& room, std::size_t count) {
  Real worst = 0.0;
  for (std::size_t i = 0; i < count; ++i) {
    const PairOf<Real>& v = room.stage[k_stages - 1][i];
    const Real by_heat = abs(v.a) * (1.0 / k_absolute_k);
    const Real by_water = abs(v.b) * (1.0 / k_absolute_water);
    worst = select(worst >= by_heat, worst, by_heat);
    worst = select(worst >= by_water, worst, by_water);
  }
  return worst_lane(worst);
}

/// A step as it is asked for, of all lanes.
struct Step {
  const CellColumn& column;
  const ColumnFigures& figures;
  const Surroundings& before;
  const Surroundings& after;
  Lanes reach_scale;
  Lanes area_scale;
  double step_s;
};

/// What came of a step in a few lanes; their nodes after it are in the room.
template <typename Real>
struct Tried {
  double error = 0.0;  // worst cell
  bool dries_too_fast = false;
  PairOf<Real> gained[k_stages];  // through the surfaces, by stage
};

}  // namespace

namespace {

template <typename Real>
void make_room(StepperRoomOf<Real>& room, std::size_t count) {
  room.logs.resize(count);
  for (auto* physics : {&room.physics, &room.trial_physics}) {
    physics->resize(count);
  }
  for (auto* blocks : {&room.lower, &room.diagonal, &room.upper}) {
    blocks->resize(count);
  }
  for (auto& stage : room.stage) {
    stage.resize(count);
  }
  for (auto* pairs : {&room.inner, &room.mass}) {
    pairs->resize(count);
  }
  for (auto* nodes : {&room.temperature, &room.water, &room.trial_temperature, &room.trial_water}) {
    nodes->resize(count);
  }
}

template <typename Real>
inline void try_part(const Step& step, const PartOf<Real>& of, const ColumnState& state,
                     StepperRoomOf<Real>& room, ColumnState& nodes_after, Tried<Real>& out) {
  const CellColumn& column = step.column;
  const std::size_t count = column.count;
  const std::size_t last = column.last;
  const double gamma_h = k_gamma * step.step_s;
  const BlockFork fork{count, last + 1, column.join};
  const CellFigures<Real> figures = part_of(step.figures, of);
  const CellFigures<Real> filling =
      step.figures.filling ? part_of(*step.figures.filling, of) : figures;
  const CellFigures<Real> topping =
      step.figures.topping ? part_of(*step.figures.topping, of) : figures;
  const SurroundingsOf<Real> before = part_of(step.before, of);
  const SurroundingsOf<Real> after = part_of(step.after, of);
  for (std::size_t i = 0; i < count; ++i) {
    room.temperature[i] = of(state.temperature[i]);
    room.water[i] = of(state.water[i]);
  }
  const NodesOf<Real> nodes{room.temperature.data(), room.water.data()};
  const NodesOf<Real> trial{room.trial_temperature.data(), room.trial_water.data()};
  const CellRoom<Real> first{room.logs.data(), room.physics.data()};
  const CellRoom<Real> later{room.logs.data(), room.trial_physics.data()};
  SurfaceFluxesOf<Real> slopes;
  PairOf<Real>* const gained = out.gained;
  const auto stage_at = [&](const SurroundingsOf<Real>& around) {
    return StageOf<Real>{column,
                         {figures, around},
                         of(step.reach_scale),
                         of(step.area_scale),
                         step.figures.filling ? &filling : nullptr,
                         step.figures.topping ? &topping : nullptr,
                         of};
  };
  for (std::size_t k = 0; k < k_stages; ++k) {
    const SurroundingsOf<Real> around = blend(before, after, k_when[k]);
    const StageOf<Real> stage = stage_at(around);
    PairOf<Real>* v = room.stage[k].data();
    SurfaceFluxesOf<Real> at;
    if (k == 0) {
      const MatrixOf<Real> matrix{room.lower.data(), room.diagonal.data(), room.upper.data(),
                                  room.mass.data()};
      slopes = rates_and_matrix(stage, nodes, gamma_h, first, matrix, room.inner.data());
      factor_block_fork(fork, room.lower.data(), room.diagonal.data(), room.upper.data());
      at = slopes;
    } else if (k == 1) {
      // The same state again, later surroundings.
      at = surface_fluxes(stage, nodes, first.physics);
    } else {
      advanced(stage, room, k_a[k], k, [&room](std::size_t i, const Real& t, const Real& x) {
        room.trial_temperature[i] = t;
        room.trial_water[i] = x;
      });
      inner_rates(stage, trial, later, room.inner.data());
      at = surface_fluxes(stage, trial, later.physics);
    }
    for (std::size_t i = 0; i < count; ++i) {
      v[i] = room.inner[i];
    }
    add_surfaces(at, last, v);
    for (std::size_t i = 0; i < count; ++i) {
      PairOf<Real> earlier{0.0, 0.0};
      for (std::size_t j = 0; j < k; ++j) {
        earlier.a += k_c[k][j] * room.stage[j][i].a;
        earlier.b += k_c[k][j] * room.stage[j][i].b;
      }
      const PairOf<Real> held = carried(room.mass[i], of(column.solids_kg[i]), earlier);
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
  out.error = error_of(room, count);
  // Whether a cell lost so much water that its heat capacity was held up: such a step would
  // not close the balance of heat.
  const Real least = advanced(stage_at(after), room, k_m, k_stages,
                              [&nodes_after, &of](std::size_t i, const Real& t, const Real& x) {
                                of.put(nodes_after.temperature[i], t);
                                of.put(nodes_after.water[i], x);
                              });
  out.dries_too_fast = any(least < Real(0.0));
}

/// A step of all lanes and what came of it.
struct TriedAll {
  double error = 0.0;  // worst lane and cell
  bool dries_too_fast = false;
  Pair gained[k_stages];
};

template <typename Real>
inline void try_parts(const Step& step, const ColumnState& state, StepperRoomOf<Real>& room,
                      ColumnState& after, TriedAll& out) {
  for (std::size_t part = 0; part < k_parts<Real>; ++part) {
    const PartOf<Real> of{part};
    Tried<Real> tried;
    try_part(step, of, state, room, after, tried);
    out.error = tried.error > out.error ? tried.error : out.error;
    out.dries_too_fast = out.dries_too_fast || tried.dries_too_fast;
    for (std::size_t k = 0; k < k_stages; ++k) {
      of.put(out.gained[k].a, tried.gained[k].a);
      of.put(out.gained[k].b, tried.gained[k].b);
    }
  }
}

#if MASLIN_HAS_WIDE
MASLIN_WIDE void try_wide(const Step& step, const ColumnState& state, StepperRoom& room,
                          TriedAll& out) {
  try_parts(step, state, room.wide, room.after, out);
}
#endif
MASLIN_NARROW void try_narrow(const Step& step, const ColumnState& state, StepperRoom& room,
                              TriedAll& out) {
  try_parts(step, state, room.narrow, room.after, out);
}

void try_all(const Step& step, const ColumnState& state, StepperRoom& room, TriedAll& out) {
#if MASLIN_HAS_WIDE
  if (!room.wide.inner.empty()) {
    try_wide(step, state, room, out);
    return;
  }
#endif
  try_narrow(step, state, room, out);
}

}  // namespace

StepperRoom stepper_room(const CellColumn& column, bool wide) {
  StepperRoom room;
#if MASLIN_HAS_WIDE
  if (wide && has_wide_registers()) {
    make_room(room.wide, column.count);
  }
#else
  (void)wide;
#endif
  if (room.wide.inner.empty()) {
    make_room(room.narrow, column.count);
  }
  room.after.temperature.resize(column.count);
  room.after.water.resize(column.count);
  return room;
}

StepResult try_step(const CellColumn& column, const ColumnFigures& figures,
                    const Surroundings& before, const Surroundings& after,
                    const Lanes& volume_ratio, double step_s, double tolerance, ColumnState& state,
                    Exchanged& exchanged, StepperRoom& room) {
  const Lanes log_ratio = log(volume_ratio);
  const Step step{column,
                  figures,
                  before,
                  after,
                  exp(figures.spring_conductance * log_ratio),
                  exp(figures.spring_area * log_ratio),
                  step_s};
  TriedAll tried;
  try_all(step, state, room, tried);
  StepResult result;
  result.error = tried.error / tolerance;
  if (!(result.error <= 1.0)) {
    return result;
  }
  if (tried.dries_too_fast) {
    result.error = k_too_long_a_step;
    return result;
  }
  for (std::size_t k = 0; k < k_stages; ++k) {
    exchanged.heat_j += k_m[k] * tried.gained[k].a;
    exchanged.water_kg += k_m[k] * tried.gained[k].b;
  }
  std::swap(state.temperature, room.after.temperature);
  std::swap(state.water, room.after.water);
  state.water[0] = 0.0;
  return result;
}

Exchanged column_totals(const CellColumn& column, const ColumnFigures& figures,
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
