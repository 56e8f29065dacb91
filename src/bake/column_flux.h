// Heat and water through faces between cells and at surfaces, with their derivatives.
// In a header because the steppers must see it whole to keep the lanes in registers.
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

/// What a piece is and what it meets at one instant.
struct Meeting {
  const ColumnFigures& figures;
  const Surroundings& around;
};

/// The surroundings so far (0 to 1, or past it) from one instant to another.
inline Surroundings blend(const Surroundings& before, const Surroundings& after, double when) {
  const auto mix = [when](const Lanes& a, const Lanes& b) { return a + when * (b - a); };
  return {mix(before.air_k, after.air_k), mix(before.top_k, after.top_k),
          mix(before.floor_k, after.floor_k), max(mix(before.vapour_pa, after.vapour_pa), 0.0),
          mix(before.shade, after.shade)};
}

inline Lanes heat_of_water(const Lanes& t) {
  return k_liquid_heat_j_per_kg_k * (t - k_zero_celsius_k);
}
inline Lanes heat_of_vapour(const Lanes& t) {
  return k_vapour_at_zero_celsius_j_per_kg + k_vapour_heat_j_per_kg_k * (t - k_zero_celsius_k);
}

/// From cell 0 to cell 1, which meet over `reach` (area over distance, m); `creep` is what
/// passes of liquid, kg/m s per kg/kg.
inline FaceFlux inner_flux(const Lanes& creep, const Lanes& reach, const CellPhysics& p0,
                           const Lanes& t0, const Lanes& x0, const CellPhysics& p1, const Lanes& t1,
                           const Lanes& x1) {
  // Half a cell of each in series: crust and crumb differ fourfold.
  const Lanes both = 1.0 / (p0.conductivity + p1.conductivity);
  const Lanes weight0 = p1.conductivity * both;
  const Lanes weight1 = p0.conductivity * both;
  const Lanes conduct = 2.0 * reach * p0.conductivity * weight0;
  // The tighter of two neighbours rules: a half dry crust cell does not let through what
  // a mean would.
  const Mask first_rules = p0.vapour < p1.vapour;
  const Lanes pass = reach * select(first_rules, p0.vapour, p1.vapour);
  const Lanes liquid = reach * creep;
  const Lanes drop = t0 - t1;
  const Lanes drive = p0.potential - p1.potential;
  const Lanes vapour = pass * drive;
  const Lanes soak = liquid * (x0 - x1);
  const Mask outward = vapour > Lanes(0.0);
  const Mask soaks = soak > Lanes(0.0);
  const Lanes vapour_heat = heat_of_vapour(select(outward, t0, t1));
  const Lanes liquid_heat = heat_of_water(select(soaks, t0, t1));
  FaceFlux f;
  f.water = vapour + soak;
  f.heat = conduct * drop + vapour * vapour_heat + soak * liquid_heat;
  // How passage and conductivity answer to the state.
  const Lanes pull = reach * drive;
  const Lanes by_t0 = select(first_rules, pull * p0.vapour_t, 0.0);
  const Lanes by_x0 = select(first_rules, pull * p0.vapour_x, 0.0);
  const Lanes by_t1 = select(first_rules, 0.0, pull * p1.vapour_t);
  const Lanes by_x1 = select(first_rules, 0.0, pull * p1.vapour_x);
  const Lanes twice_drop = 2.0 * reach * drop;
  const Lanes carry = k_vapour_heat_j_per_kg_k * vapour;
  const Lanes soak_carry = k_liquid_heat_j_per_kg_k * soak;
  f.water_t0 = pass * p0.potential_t + by_t0;
  f.water_t1 = by_t1 - pass * p1.potential_t;
  const Lanes vapour_x0 = pass * p0.potential_x + by_x0;
  const Lanes vapour_x1 = by_x1 - pass * p1.potential_x;
  f.water_x0 = vapour_x0 + liquid;
  f.water_x1 = vapour_x1 - liquid;
  f.heat_t0 = conduct + vapour_heat * f.water_t0 + select(outward, carry, 0.0) +
              select(soaks, soak_carry, 0.0);
  f.heat_t1 = vapour_heat * f.water_t1 - conduct + select(outward, 0.0, carry) +
              select(soaks, 0.0, soak_carry);
  f.heat_x0 = vapour_heat * vapour_x0 + liquid_heat * liquid +
              twice_drop * weight0 * weight0 * p0.conductivity_x;
  f.heat_x1 = vapour_heat * vapour_x1 - liquid_heat * liquid +
              twice_drop * weight1 * weight1 * p1.conductivity_x;
  return f;
}

inline FaceFlux inner_flux(const ColumnFigures& g, const Lanes& reach, const CellPhysics& p0,
                           const Lanes& t0, const Lanes& x0, const CellPhysics& p1, const Lanes& t1,
                           const Lanes& x1) {
  return inner_flux(g.liquid_passage, reach, p0, t0, x0, p1, t1, x1);
}

/// Vapour potential of the oven's air, Pa.
inline Lanes air_potential(const Meeting& s) {
  const Lanes share = min(s.around.vapour_pa * s.figures.inverse_pressure, 0.95);
  return -s.figures.pressure * log(1.0 - share);
}

/// Vapour into a surface cell from the oven's air: a film of so much passage, kg/s Pa,
/// then half the cell of this reach. heat_t0 .. water_x0 are derivatives by the cell.
inline FaceFlux film_flux(const Meeting& s, const Lanes& film, const Lanes& reach,
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

/// Into a cell at an open surface: radiation and convection through the half cell,
/// vapour against the air's film. Derivatives by the cell.
inline FaceFlux open_flux(const Meeting& s, const Lanes& area, const Lanes& inner,
                          const CellPhysics& p, const Lanes& t, Lanes& surface_k) {
  const ColumnFigures& g = s.figures;
  const Lanes conduct = inner * p.conductivity;
  const Lanes sigma = k_stefan_boltzmann * g.radiation * s.around.shade;
  const Lanes top2 = s.around.top_k * s.around.top_k;
  // The surface lies between air and cell: two passes of Newton find where.
  Lanes surface = t, slope = 0.0;
  for (int pass = 0; pass < 2; ++pass) {
    const Lanes square = surface * surface;
    const Lanes gain = g.convection * (s.around.air_k - surface) + sigma * (top2 + square) *
                                                                       (s.around.top_k + surface) *
                                                                       (s.around.top_k - surface);
    slope = area * (g.convection + 4.0 * sigma * square * surface);
    surface += (area * gain - conduct * (surface - t)) / max(slope + conduct, 1e-300);
  }
  surface_k = surface;
  const Lanes into = conduct * (surface - t);
  const Lanes share = slope / max(slope + conduct, 1e-300);
  FaceFlux f = film_flux(s, area * g.mass_transfer, inner, p, t);
  f.heat += into;
  f.heat_t0 -= share * conduct;
  f.heat_x0 += share * inner * p.conductivity_x * (surface - t);
  return f;
}

/// Into a plate of this area from the oven; derivative by the plate's temperature.
inline FaceFlux plate_flux(const Meeting& s, const Lanes& area, const Lanes& t) {
  const ColumnFigures& g = s.figures;
  const Lanes sigma = k_stefan_boltzmann * g.plate_radiation;
  const Lanes floor2 = s.around.floor_k * s.around.floor_k;
  const Lanes radiant = sigma * (floor2 + t * t) * (s.around.floor_k + t);
  FaceFlux f{};
  f.heat = area * (g.plate_convection * (s.around.air_k - t) + radiant * (s.around.floor_k - t));
  f.heat_t0 = -area * (g.plate_convection + 4.0 * sigma * t * t * t);
  return f;
}

/// Into a covered cell past the edges of tin or tray: the share of an open surface's film
/// that a covered one has.
inline FaceFlux vent_flux(const Meeting& s, const Lanes& area, const Lanes& inner,
                          const CellPhysics& p, const Lanes& t) {
  return film_flux(s, area * s.figures.mass_transfer * s.figures.base_vent, inner, p, t);
}

/// From the plate into a cell: contact and half a cell in series, no water.
inline FaceFlux contact_flux(const ColumnFigures& g, const Lanes& area, const Lanes& reach,
                             const CellPhysics& p, const Lanes& plate_k, const Lanes& t) {
  const Lanes contact = area * g.plate_contact;
  const Lanes inner = reach * p.conductivity;
  const Lanes share = contact / max(contact + inner, 1e-300);
  const Lanes through = share * inner;
  FaceFlux f{};
  f.heat = through * (plate_k - t);
  f.heat_t0 = through;
  f.heat_t1 = -through;
  f.heat_x1 = share * share * reach * p.conductivity_x * (plate_k - t);
  return f;
}

}  // namespace maslin
