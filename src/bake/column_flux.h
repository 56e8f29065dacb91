// Heat and water through the faces of a column, with their derivatives. In a header
// because the stepper must see it whole to keep the lanes in registers.
#pragma once

#include "bake/cell_physics.h"
#include "bake/column.h"

namespace maslin {

/// Heat and water through a face and how they answer to the nodes at its ends.
struct FaceFlux {
  Lanes heat, water;
  Lanes heat_t0, heat_x0, heat_t1, heat_x1;
  Lanes water_t0, water_x0, water_t1, water_x1;
};

struct Stage {
  const Column& column;
  const ColumnFigures& figures;
  const Surroundings& around;
  Lanes reach_scale;
  Lanes area_scale;
};

inline Lanes heat_of_water(const Lanes& t) {
  return k_liquid_heat_j_per_kg_k * (t - k_zero_celsius_k);
}
inline Lanes heat_of_vapour(const Lanes& t) {
  return k_vapour_at_zero_celsius_j_per_kg + k_vapour_heat_j_per_kg_k * (t - k_zero_celsius_k);
}

/// From node `from` to node `to` of the piece.
inline FaceFlux inner_flux(const Stage& s, const Lanes& reach_m, const CellPhysics* physics,
                           const ColumnState& state, std::size_t from, std::size_t to) {
  const CellPhysics& p0 = physics[from];
  const CellPhysics& p1 = physics[to];
  const Lanes& t0 = state.temperature[from];
  const Lanes& t1 = state.temperature[to];
  const Lanes reach = reach_m * s.reach_scale;
  // Half a cell of each in series: crust and crumb differ fourfold.
  const Lanes both = 1.0 / (p0.conductivity + p1.conductivity);
  const Lanes weight0 = p1.conductivity * both;
  const Lanes weight1 = p0.conductivity * both;
  const Lanes conduct = 2.0 * reach * p0.conductivity * weight0;
  // The tighter of two neighbours rules: a half dry crust cell does not let through what
  // a mean would.
  const Mask first_rules = p0.vapour < p1.vapour;
  const Lanes pass = reach * select(first_rules, p0.vapour, p1.vapour);
  const Lanes liquid = reach * s.figures.liquid_passage;
  const Lanes drop = t0 - t1;
  const Lanes drive = p0.potential - p1.potential;
  const Lanes vapour = pass * drive;
  const Lanes soak = liquid * (state.water[from] - state.water[to]);
  const Mask outward = vapour > Lanes(0.0);
  const Mask soaks = soak > Lanes(0.0);
  const Lanes vapour_heat = heat_of_vapour(select(outward, t0, t1));
  const Lanes liquid_heat = heat_of_water(select(soaks, t0, t1));
  FaceFlux f;
  f.water = vapour + soak;
  f.heat = conduct * drop + vapour * vapour_heat + soak * liquid_heat;
  // How passage and conductivity answer to the state.
  const Lanes pull = reach * drive;
  const Lanes t0_pass = select(first_rules, pull * p0.vapour_t, 0.0);
  const Lanes x0_pass = select(first_rules, pull * p0.vapour_x, 0.0);
  const Lanes t1_pass = select(first_rules, 0.0, pull * p1.vapour_t);
  const Lanes x1_pass = select(first_rules, 0.0, pull * p1.vapour_x);
  const Lanes twice_drop = 2.0 * reach * drop;
  const Lanes carry = k_vapour_heat_j_per_kg_k * vapour;
  const Lanes soak_carry = k_liquid_heat_j_per_kg_k * soak;
  f.water_t0 = pass * p0.potential_t + t0_pass;
  f.water_t1 = t1_pass - pass * p1.potential_t;
  const Lanes x0 = pass * p0.potential_x + x0_pass;
  const Lanes x1 = x1_pass - pass * p1.potential_x;
  f.water_x0 = x0 + liquid;
  f.water_x1 = x1 - liquid;
  f.heat_t0 = conduct + vapour_heat * f.water_t0 + select(outward, carry, 0.0) +
              select(soaks, soak_carry, 0.0);
  f.heat_t1 = vapour_heat * f.water_t1 - conduct + select(outward, 0.0, carry) +
              select(soaks, 0.0, soak_carry);
  f.heat_x0 =
      vapour_heat * x0 + liquid_heat * liquid + twice_drop * weight0 * weight0 * p0.conductivity_x;
  f.heat_x1 =
      vapour_heat * x1 - liquid_heat * liquid + twice_drop * weight1 * weight1 * p1.conductivity_x;
  return f;
}

/// Vapour potential of the oven's air, Pa.
inline Lanes air_potential(const Stage& s) {
  const Lanes share = min(s.around.vapour_pa * s.figures.inverse_pressure, 0.95);
  return -s.figures.pressure * log(1.0 - share);
}

/// Vapour into a surface cell from the oven's air: a film of so much passage, kg/s Pa,
/// then half the cell of this reach. heat_t0 .. water_x0 are derivatives by the cell.
inline FaceFlux film_flux(const Stage& s, const Lanes& film, const Lanes& reach,
                          const CellPhysics& p, const Lanes& t) {
  const Lanes crust = reach * p.vapour;
  const Lanes share = film / max(film + crust, 1e-300);
  const Lanes pass = share * crust;
  const Lanes drive = air_potential(s) - p.potential;
  const Lanes vapour = pass * drive;
  const Mask inward = vapour > Lanes(0.0);
  const Lanes carried = heat_of_vapour(select(inward, s.around.air_k, t));
  const Lanes opening = share * share * reach * drive;
  FaceFlux f{};
  f.water = vapour;
  f.heat = vapour * carried;
  f.water_t0 = opening * p.vapour_t - pass * p.potential_t;
  f.water_x0 = opening * p.vapour_x - pass * p.potential_x;
  f.heat_t0 = carried * f.water_t0 + select(inward, 0.0, k_vapour_heat_j_per_kg_k * vapour);
  f.heat_x0 = carried * f.water_x0;
  return f;
}

/// Into the piece at its open surface: radiation and convection through the half cell,
/// vapour against the air's film. Derivatives by the last node.
inline FaceFlux open_flux(const Stage& s, const CellPhysics& p, const Lanes& t, Lanes& surface_k) {
  const ColumnFigures& g = s.figures;
  const Lanes area = s.column.open_area_m2 * s.area_scale;
  const Lanes inner = s.column.open_reach_m * s.reach_scale;
  const Lanes conduct = inner * p.conductivity;
  const Lanes sigma = k_stefan_boltzmann * g.radiation;
  const Lanes top2 = s.around.top_k * s.around.top_k;
  // The surface lies between air and cell: two passes of Newton find where.
  Lanes surface = t, slope = 0.0;
  for (int pass = 0; pass < 2; ++pass) {
    const Lanes square = surface * surface;
    const Lanes gain = g.convection * (s.around.air_k - surface) + sigma * (top2 + square) *
                                                                       (s.around.top_k + surface) *
                                                                       (s.around.top_k - surface);
    slope = area * (g.convection + 4.0 * sigma * square * surface);
    surface += (area * gain - conduct * (surface - t)) / (slope + conduct);
  }
  surface_k = surface;
  const Lanes into = conduct * (surface - t);
  const Lanes share = slope / (slope + conduct);
  FaceFlux f = film_flux(s, area * g.mass_transfer, inner, p, t);
  f.heat += into;
  f.heat_t0 -= share * conduct;
  f.heat_x0 += share * inner * p.conductivity_x * (surface - t);
  return f;
}

/// Into the plate from the oven; derivative by the plate's temperature.
inline FaceFlux plate_flux(const Stage& s, const Lanes& t) {
  const ColumnFigures& g = s.figures;
  const Lanes area = s.column.base_area_m2 * s.area_scale;
  const Lanes sigma = k_stefan_boltzmann * g.plate_radiation;
  const Lanes floor2 = s.around.floor_k * s.around.floor_k;
  const Lanes radiant = sigma * (floor2 + t * t) * (s.around.floor_k + t);
  FaceFlux f{};
  f.heat = area * (g.plate_convection * (s.around.air_k - t) + radiant * (s.around.floor_k - t));
  f.heat_t0 = -area * (g.plate_convection + 4.0 * sigma * t * t * t);
  return f;
}

/// Into the first cell past the edges of tin or tray: the share of the open surface's
/// film that a covered one has.
inline FaceFlux vent_flux(const Stage& s, const CellPhysics& p, const Lanes& t) {
  const Lanes film =
      s.column.base_area_m2 * s.area_scale * s.figures.mass_transfer * s.figures.base_vent;
  return film_flux(s, film, s.column.reach_m[0] * s.reach_scale, p, t);
}

/// From the plate into the first cell: contact and half a cell in series, no water.
inline FaceFlux contact_flux(const Stage& s, const CellPhysics& p, const ColumnState& state) {
  const Lanes contact = s.column.base_area_m2 * s.area_scale * s.figures.plate_contact;
  const Lanes inner = s.column.reach_m[0] * s.reach_scale * p.conductivity;
  const Lanes through = contact * inner / (contact + inner);
  FaceFlux f{};
  f.heat = through * (state.temperature[0] - state.temperature[1]);
  f.heat_t0 = through;
  f.heat_t1 = -through;
  const Lanes share = contact / (contact + inner);
  f.heat_x1 = share * share * s.column.reach_m[0] * s.reach_scale * p.conductivity_x *
              (state.temperature[0] - state.temperature[1]);
  return f;
}

}  // namespace maslin
