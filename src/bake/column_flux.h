// Heat and water through faces between cells and at surfaces, with their derivatives.
// In a header because the steppers must see it whole to keep the lanes in registers.
#pragma once

#include "bake/cell_physics.h"
#include "bake/column.h"

namespace maslin {

/// Heat and water through a face and how they answer to the nodes at its ends.
template <typename Real>
struct FaceFluxOf {
  Real heat, water;
  Real heat_t0, heat_x0, heat_t1, heat_x1;
  Real water_t0, water_x0, water_t1, water_x1;
};
using FaceFlux = FaceFluxOf<Lanes>;

/// What a piece is and what it meets at one instant.
template <typename Real>
struct MeetingOf {
  const CellFigures<Real>& figures;
  const SurroundingsOf<Real>& around;
};
using Meeting = MeetingOf<Lanes>;

/// The surroundings so far (0 to 1, or past it) from one instant to another.
template <typename Real>
inline SurroundingsOf<Real> blend(const SurroundingsOf<Real>& before,
                                  const SurroundingsOf<Real>& after, double when) {
  const auto mix = [when](const Real& a, const Real& b) { return a + when * (b - a); };
  return {mix(before.air_k, after.air_k), mix(before.top_k, after.top_k),
          mix(before.floor_k, after.floor_k), max(mix(before.vapour_pa, after.vapour_pa), 0.0),
          mix(before.shade, after.shade)};
}

template <typename Real>
inline Real heat_of_water(const Real& t) {
  return k_liquid_heat_j_per_kg_k * (t - k_zero_celsius_k);
}
template <typename Real>
inline Real heat_of_vapour(const Real& t) {
  return k_vapour_at_zero_celsius_j_per_kg + k_vapour_heat_j_per_kg_k * (t - k_zero_celsius_k);
}

/// From cell 0 to cell 1, which meet over `reach` (area over distance, m); `creep` is what
/// passes of liquid, kg/m s per kg/kg.
template <typename Real>
inline FaceFluxOf<Real> inner_flux(const Real& creep, const Real& reach,
                                   const CellPhysicsOf<Real>& p0, const Real& t0, const Real& x0,
                                   const CellPhysicsOf<Real>& p1, const Real& t1, const Real& x1) {
  // Half a cell of each in series: crust and crumb differ fourfold.
  const Real both = 1.0 / (p0.conductivity + p1.conductivity);
  const Real weight0 = p1.conductivity * both;
  const Real weight1 = p0.conductivity * both;
  const Real conduct = 2.0 * reach * p0.conductivity * weight0;
  // The tighter of two neighbours rules: a half dry crust cell does not let through what
  // a mean would.
  const auto first_rules = p0.vapour < p1.vapour;
  const Real pass = reach * select(first_rules, p0.vapour, p1.vapour);
  const Real liquid = reach * creep;
  const Real drop = t0 - t1;
  const Real drive = p0.potential - p1.potential;
  const Real vapour = pass * drive;
  const Real soak = liquid * (x0 - x1);
  const auto outward = vapour > Real(0.0);
  const auto soaks = soak > Real(0.0);
  const Real vapour_heat = heat_of_vapour(select(outward, t0, t1));
  const Real liquid_heat = heat_of_water(select(soaks, t0, t1));
  FaceFluxOf<Real> f;
  f.water = vapour + soak;
  f.heat = conduct * drop + vapour * vapour_heat + soak * liquid_heat;
  // How passage and conductivity answer to the state.
  const Real pull = reach * drive;
  const Real by_t0 = select(first_rules, pull * p0.vapour_t, 0.0);
  const Real by_x0 = select(first_rules, pull * p0.vapour_x, 0.0);
  const Real by_t1 = select(first_rules, 0.0, pull * p1.vapour_t);
  const Real by_x1 = select(first_rules, 0.0, pull * p1.vapour_x);
  const Real twice_drop = 2.0 * reach * drop;
  const Real carry = k_vapour_heat_j_per_kg_k * vapour;
  const Real soak_carry = k_liquid_heat_j_per_kg_k * soak;
  f.water_t0 = pass * p0.potential_t + by_t0;
  f.water_t1 = by_t1 - pass * p1.potential_t;
  const Real vapour_x0 = pass * p0.potential_x + by_x0;
  const Real vapour_x1 = by_x1 - pass * p1.potential_x;
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

template <typename Real>
inline FaceFluxOf<Real> inner_flux(const CellFigures<Real>& g, const Also<Real>& reach,
                                   const CellPhysicsOf<Real>& p0, const Also<Real>& t0,
                                   const Also<Real>& x0, const CellPhysicsOf<Real>& p1,
                                   const Also<Real>& t1, const Also<Real>& x1) {
  return inner_flux(g.liquid_passage, reach, p0, t0, x0, p1, t1, x1);
}

/// Vapour potential of the oven's air, Pa.
template <typename Real>
inline Real air_potential(const MeetingOf<Real>& s) {
  const Real share = min(s.around.vapour_pa * s.figures.inverse_pressure, 0.95);
  return -s.figures.pressure * log(1.0 - share);
}

/// Vapour into a surface cell from the oven's air: a film of so much passage, kg/s Pa,
/// then half the cell of this reach. heat_t0 .. water_x0 are derivatives by the cell.
template <typename Real>
inline FaceFluxOf<Real> film_flux(const MeetingOf<Real>& s, const Also<Real>& film,
                                  const Also<Real>& reach, const CellPhysicsOf<Real>& p,
                                  const Also<Real>& t) {
  const Real crust = reach * p.vapour;
  const Real share = film / max(film + crust, 1e-300);
  const Real pass = share * crust;
  const Real drive = air_potential(s) - p.potential;
  const Real vapour = pass * drive;
  const auto inward = vapour > Real(0.0);
  const Real carried = heat_of_vapour(select(inward, s.around.air_k, t));
  const Real opening = share * share * reach * drive;
  FaceFluxOf<Real> f{};
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
template <typename Real>
inline FaceFluxOf<Real> open_flux(const MeetingOf<Real>& s, const Also<Real>& area,
                                  const Also<Real>& inner, const CellPhysicsOf<Real>& p,
                                  const Also<Real>& t, Also<Real>& surface_k) {
  const CellFigures<Real>& g = s.figures;
  const Real conduct = inner * p.conductivity;
  const Real sigma = k_stefan_boltzmann * g.radiation * s.around.shade;
  const Real top2 = s.around.top_k * s.around.top_k;
  // The surface lies between air and cell: two passes of Newton find where.
  Real surface = t, slope = 0.0;
  for (int pass = 0; pass < 2; ++pass) {
    const Real square = surface * surface;
    const Real gain = g.convection * (s.around.air_k - surface) + sigma * (top2 + square) *
                                                                      (s.around.top_k + surface) *
                                                                      (s.around.top_k - surface);
    slope = area * (g.convection + 4.0 * sigma * square * surface);
    surface += (area * gain - conduct * (surface - t)) / max(slope + conduct, 1e-300);
  }
  surface_k = surface;
  const Real into = conduct * (surface - t);
  const Real share = slope / max(slope + conduct, 1e-300);
  FaceFluxOf<Real> f = film_flux(s, area * g.mass_transfer, inner, p, t);
  f.heat += into;
  f.heat_t0 -= share * conduct;
  f.heat_x0 += share * inner * p.conductivity_x * (surface - t);
  return f;
}

/// Into a plate of this area from the oven; derivative by the plate's temperature.
template <typename Real>
inline FaceFluxOf<Real> plate_flux(const MeetingOf<Real>& s, const Also<Real>& area,
                                   const Also<Real>& t) {
  const CellFigures<Real>& g = s.figures;
  const Real sigma = k_stefan_boltzmann * g.plate_radiation;
  const Real floor2 = s.around.floor_k * s.around.floor_k;
  const Real radiant = sigma * (floor2 + t * t) * (s.around.floor_k + t);
  FaceFluxOf<Real> f{};
  f.heat = area * (g.plate_convection * (s.around.air_k - t) + radiant * (s.around.floor_k - t));
  f.heat_t0 = -area * (g.plate_convection + 4.0 * sigma * t * t * t);
  return f;
}

/// Into a covered cell past the edges of tin or tray: the share of an open surface's film
/// that a covered one has.
template <typename Real>
inline FaceFluxOf<Real> vent_flux(const MeetingOf<Real>& s, const Also<Real>& area,
                                  const Also<Real>& inner, const CellPhysicsOf<Real>& p,
                                  const Also<Real>& t) {
  return film_flux(s, area * s.figures.mass_transfer * s.figures.base_vent, inner, p, t);
}

/// From the plate into a cell: contact and half a cell in series, no water.
template <typename Real>
inline FaceFluxOf<Real> contact_flux(const CellFigures<Real>& g, const Also<Real>& area,
                                     const Also<Real>& reach, const CellPhysicsOf<Real>& p,
                                     const Also<Real>& plate_k, const Also<Real>& t) {
  const Real contact = area * g.plate_contact;
  const Real inner = reach * p.conductivity;
  const Real share = contact / max(contact + inner, 1e-300);
  const Real through = share * inner;
  FaceFluxOf<Real> f{};
  f.heat = through * (plate_k - t);
  f.heat_t0 = through;
  f.heat_t1 = -through;
  f.heat_x1 = share * share * reach * p.conductivity_x * (plate_k - t);
  return f;
}

}  // namespace maslin
