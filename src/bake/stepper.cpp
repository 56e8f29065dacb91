#include "bake/stepper.h"

#include "bake/column_flux.h"

namespace maslin {
namespace {

constexpr double k_gamma = 0.29289321881345247560;  // 1 - 1/sqrt 2: L-stable
constexpr double k_absolute_k = 1.0;                // tolerance in temperature, K
constexpr double k_absolute_water = 0.01;           // in water, kg/kg

struct Boundary {
  FaceFlux plate, open;
  Lanes surface_k;
};

/// Rates of heat and water of every node into `rate`; the surface fluxes by return.
inline void fluxes(const Stage& s, const ColumnState& state, CellPhysics* physics, Pair* rate,
                   Boundary& boundary) {
  const std::size_t last = s.column.count - 1;
  for (std::size_t i = 1; i <= last; ++i) {
    physics[i] = cell_physics(s.figures, state.temperature[i], state.water[i]);
    rate[i] = {0.0, 0.0};
  }
  boundary.plate = plate_flux(s, state.temperature[0]);
  boundary.open = open_flux(s, physics[last], state.temperature[last], boundary.surface_k);
  const FaceFlux contact = contact_flux(s, physics[1], state);
  rate[0] = {boundary.plate.heat - contact.heat, 0.0};
  rate[1].a += contact.heat;
  for (std::size_t i = 1; i < last; ++i) {
    const FaceFlux f = inner_flux(s, s.column.reach_m[i], physics[i], physics[i + 1], state, i);
    rate[i].a -= f.heat;
    rate[i].b -= f.water;
    rate[i + 1].a += f.heat;
    rate[i + 1].b += f.water;
  }
  rate[last].a += boundary.open.heat;
  rate[last].b += boundary.open.water;
}

/// The same, and the matrix  mass - gamma h d(rate)/d(state)  into the room's blocks.
inline void fluxes_and_matrix(const Stage& s, const ColumnState& state, double gamma_h,
                              StepperRoom& room, Pair* rate, Boundary& boundary) {
  const std::size_t last = s.column.count - 1;
  const ColumnFigures& g = s.figures;
  room.mass[0] = {s.column.base_area_m2 * g.plate_heat, 0.0};
  room.diagonal[0] = {room.mass[0].a, 0.0, 0.0, 1.0};
  rate[0] = {0.0, 0.0};
  for (std::size_t i = 1; i <= last; ++i) {
    const Lanes& solids = s.column.solids_kg[i];
    room.physics[i] = cell_physics(g, state.temperature[i], state.water[i]);
    room.mass[i] = {solids * (g.solids_heat + k_liquid_heat_j_per_kg_k * state.water[i]),
                    solids * heat_of_water(state.temperature[i])};
    room.diagonal[i] = {room.mass[i].a, room.mass[i].b, 0.0, solids};
    rate[i] = {0.0, 0.0};
  }
  const auto add = [&room, gamma_h](std::size_t i, const FaceFlux& f) {
    Block& d0 = room.diagonal[i];
    Block& d1 = room.diagonal[i + 1];
    d0.aa += gamma_h * f.heat_t0;
    d0.ab += gamma_h * f.heat_x0;
    d0.ba += gamma_h * f.water_t0;
    d0.bb += gamma_h * f.water_x0;
    d1.aa -= gamma_h * f.heat_t1;
    d1.ab -= gamma_h * f.heat_x1;
    d1.ba -= gamma_h * f.water_t1;
    d1.bb -= gamma_h * f.water_x1;
    room.upper[i] = {gamma_h * f.heat_t1, gamma_h * f.heat_x1, gamma_h * f.water_t1,
                     gamma_h * f.water_x1};
    room.lower[i + 1] = {-gamma_h * f.heat_t0, -gamma_h * f.heat_x0, -gamma_h * f.water_t0,
                         -gamma_h * f.water_x0};
  };
  boundary.plate = plate_flux(s, state.temperature[0]);
  boundary.open = open_flux(s, room.physics[last], state.temperature[last], boundary.surface_k);
  const FaceFlux contact = contact_flux(s, room.physics[1], state);
  rate[0].a += boundary.plate.heat - contact.heat;
  rate[1].a += contact.heat;
  add(0, contact);
  room.diagonal[0].aa -= gamma_h * boundary.plate.heat_t0;
  for (std::size_t i = 1; i < last; ++i) {
    const FaceFlux f =
        inner_flux(s, s.column.reach_m[i], room.physics[i], room.physics[i + 1], state, i);
    rate[i].a -= f.heat;
    rate[i].b -= f.water;
    rate[i + 1].a += f.heat;
    rate[i + 1].b += f.water;
    add(i, f);
  }
  rate[last].a += boundary.open.heat;
  rate[last].b += boundary.open.water;
  Block& end = room.diagonal[last];
  end.aa -= gamma_h * boundary.open.heat_t0;
  end.ab -= gamma_h * boundary.open.heat_x0;
  end.ba -= gamma_h * boundary.open.water_t0;
  end.bb -= gamma_h * boundary.open.water_x0;
}

/// Surface exchange of one stage: h B + gamma h B' z.
inline Pair exchange(const Boundary& at, const Boundary& slopes, double step_s, const Pair& plate,
                     const Pair& end) {
  const double g = k_gamma * step_s;
  const Lanes heat = step_s * (at.plate.heat + at.open.heat) +
                     g * (slopes.plate.heat_t0 * plate.a + slopes.open.heat_t0 * end.a +
                          slopes.open.heat_x0 * end.b);
  const Lanes water =
      step_s * at.open.water + g * (slopes.open.water_t0 * end.a + slopes.open.water_x0 * end.b);
  return {heat, water};
}

/// Temperature and water after adding `heat` J and `water` kg to a node.
inline void add_to_node(const Column& column, const ColumnFigures& g, const ColumnState& from,
                        std::size_t i, const Pair& added, ColumnState& to) {
  const Lanes& solids = column.solids_kg[i];
  const Lanes t = from.temperature[i] - k_zero_celsius_k;
  const Lanes heat = solids * (g.solids_heat + k_liquid_heat_j_per_kg_k * from.water[i]) * t;
  const Lanes x = from.water[i] + added.b / solids;
  to.water[i] = x;
  to.temperature[i] =
      k_zero_celsius_k +
      (heat + added.a) / (solids * (g.solids_heat + k_liquid_heat_j_per_kg_k * max(x, 0.0)));
}

double worst_lane(const Lanes& x) {
  double worst = 0.0;
  for (std::size_t lane = 0; lane < k_lane_count; ++lane) {
    // Written so that what is no number counts as the worst.
    worst = x[lane] <= worst ? worst : x[lane];
  }
  return worst;
}

}  // namespace

StepperRoom stepper_room(const Column& column) {
  StepperRoom room;
  room.lower.resize(column.count);
  room.diagonal.resize(column.count);
  room.upper.resize(column.count);
  room.first.resize(column.count);
  room.second.resize(column.count);
  room.mass.resize(column.count);
  room.physics.resize(column.count);
  room.trial.temperature.resize(column.count);
  room.trial.water.resize(column.count);
  return room;
}

// Rosenbrock pair (Verwer et al. 1999, ROS2, from memory): second order for any matrix,
//   M z1 = h F(u),  M z2 = h F(u + m z1) - 2 m z1,  u' = u + 3/2 m z1 + 1/2 m z2,
// with m the heat capacity block and M = m - gamma h F'. It keeps every balance that F
// keeps, so heat and water close to rounding.
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
  Stage stage{column, figures, before, 1.0, 1.0};
  const Lanes log_ratio = log(volume_ratio);
  stage.reach_scale = exp(figures.spring_conductance * log_ratio);
  stage.area_scale = exp(figures.spring_area * log_ratio);
  Pair* z1 = room.first.data();
  Pair* z2 = room.second.data();
  Boundary start, middle;
  fluxes_and_matrix(stage, state, k_gamma * step_s, room, z1, start);
  factor_block_tridiagonal(room.lower.data(), room.diagonal.data(), room.upper.data(), count);
  for (std::size_t i = 0; i < count; ++i) {
    z1[i].a *= step_s;
    z1[i].b *= step_s;
  }
  solve_block_tridiagonal(room.lower.data(), room.diagonal.data(), room.upper.data(), z1, count);
  ColumnState& trial = room.trial;
  trial.temperature[0] = state.temperature[0] + z1[0].a;
  for (std::size_t i = 1; i < count; ++i) {
    const Pair gain{room.mass[i].a * z1[i].a + room.mass[i].b * z1[i].b,
                    column.solids_kg[i] * z1[i].b};
    add_to_node(column, figures, state, i, gain, trial);
  }
  const Stage second{column, figures, after, stage.reach_scale, stage.area_scale};
  fluxes(second, trial, room.physics.data(), z2, middle);
  for (std::size_t i = 0; i < count; ++i) {
    const Lanes heat = room.mass[i].a * z1[i].a + room.mass[i].b * z1[i].b;
    z2[i].a = step_s * z2[i].a - 2.0 * heat;
    z2[i].b = step_s * z2[i].b - 2.0 * (column.solids_kg[i] * z1[i].b);
  }
  solve_block_tridiagonal(room.lower.data(), room.diagonal.data(), room.upper.data(), z2, count);
  Lanes worst = 0.0;
  for (std::size_t i = 0; i < count; ++i) {
    const Lanes by_heat = abs(z1[i].a + z2[i].a) * (0.5 / k_absolute_k);
    const Lanes by_water = abs(z1[i].b + z2[i].b) * (0.5 / k_absolute_water);
    worst = select(worst >= by_heat, worst, by_heat);
    worst = select(worst >= by_water, worst, by_water);
  }
  StepResult result;
  result.error = worst_lane(worst) / tolerance;
  if (!(result.error <= 1.0)) {
    return result;
  }
  const Pair from_first = exchange(start, start, step_s, z1[0], z1[count - 1]);
  const Pair from_second = exchange(middle, start, step_s, z2[0], z2[count - 1]);
  // The second stage's surface gain also carries its -2 times the first stage's.
  exchanged.heat_j += 1.5 * from_first.a + 0.5 * (from_second.a - 2.0 * from_first.a);
  exchanged.water_kg += 1.5 * from_first.b + 0.5 * (from_second.b - 2.0 * from_first.b);
  state.temperature[0] += 1.5 * z1[0].a + 0.5 * z2[0].a;
  for (std::size_t i = 1; i < count; ++i) {
    const Lanes dt = 1.5 * z1[i].a + 0.5 * z2[i].a;
    const Lanes dx = 1.5 * z1[i].b + 0.5 * z2[i].b;
    const Pair gain{room.mass[i].a * dt + room.mass[i].b * dx, column.solids_kg[i] * dx};
    add_to_node(column, figures, state, i, gain, trial);
  }
  for (std::size_t i = 1; i < count; ++i) {
    state.temperature[i] = trial.temperature[i];
    state.water[i] = trial.water[i];
  }
  return result;
}

Exchanged column_totals(const Column& column, const ColumnFigures& figures,
                        const ColumnState& state) {
  Exchanged out;
  out.heat_j = column.base_area_m2 * figures.plate_heat * state.temperature[0];
  for (std::size_t i = 1; i < column.count; ++i) {
    out.heat_j += column.solids_kg[i] *
                  (figures.solids_heat + k_liquid_heat_j_per_kg_k * state.water[i]) *
                  (state.temperature[i] - k_zero_celsius_k);
    out.water_kg += column.solids_kg[i] * state.water[i];
  }
  return out;
}

}  // namespace maslin
