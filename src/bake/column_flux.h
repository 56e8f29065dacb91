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
  const Lanes conduct = reach * 0.5 * (p0.conductivity + p1.conductivity);
  // The tighter of two neighbours rules: a half dry crust cell does not let through what
  // a mean would.
  const Lanes pass = reach * min(p0.vapour, p1.vapour);
  const Lanes liquid = reach * s.figures.liquid_passage;
  const Lanes vapour = pass * (p0.potential - p1.potential);
  const Lanes soak = liquid * (state.water[from] - state.water[to]);
  const Lanes vapour_heat = heat_of_vapour(select(vapour > Lanes(0.0), t0, t1));
  const Lanes liquid_heat = heat_of_water(select(soak > Lanes(0.0), t0, t1));
  FaceFlux f;
  f.water = vapour + soak;
  f.heat = conduct * (t0 - t1) + vapour * vapour_heat + soak * liquid_heat;
  f.water_t0 = pass * p0.potential_t;
  f.water_t1 = -pass * p1.potential_t;
  const Lanes x0 = pass * p0.potential_x, x1 = pass * p1.potential_x;
  f.water_x0 = x0 + liquid;
  f.water_x1 = -x1 - liquid;
  f.heat_t0 = conduct + vapour_heat * f.water_t0;
  f.heat_t1 = vapour_heat * f.water_t1 - conduct;
  f.heat_x0 = vapour_heat * x0 + liquid_heat * liquid;
  f.heat_x1 = -(vapour_heat * x1) - liquid_heat * liquid;
  return f;
}

/// Vapour potential of the oven's air, Pa.
inline Lanes air_potential(const Stage& s) {
  const Lanes share = min(s.around.vapour_pa * s.figures.inverse_pressure, 0.95);
  return -s.figures.pressure * log(1.0 - share);
}

/// Into the piece at its open surface: radiation and convection through the half cell,
/// vapour against the air's film. heat_t0 .. water_x0 are derivatives by the last node.
inline FaceFlux open_flux(const Stage& s, const CellPhysics& p, const Lanes& t, Lanes& surface_k) {
  const ColumnFigures& g = s.figures;
  const Lanes area = s.column.open_area_m2 * s.area_scale;
  const Lanes inner = s.column.open_reach_m * s.reach_scale;
  const Lanes conduct = inner * p.conductivity;
  const Lanes sigma = k_stefan_boltzmann * g.radiation;
  const Lanes top2 = s.around.top_k * s.around.top_k;
  // The surface lies between air and cell: one pass finds where, the second uses it.
  Lanes surface = t, into = 0.0, through = 0.0;
  for (int pass = 0; pass < 2; ++pass) {
    const Lanes radiant = sigma * (top2 + surface * surface) * (s.around.top_k + surface);
    const Lanes outer = area * (g.convection + radiant);
    const Lanes seen =
        (g.convection * s.around.air_k + radiant * s.around.top_k) / (g.convection + radiant);
    through = outer * conduct / (outer + conduct);
    into = through * (seen - t);
    surface = t + into / conduct;
  }
  surface_k = surface;
  const Lanes film = area * g.mass_transfer;
  const Lanes crust = inner * p.vapour;
  const Lanes pass = film * crust / (film + crust);
  const Lanes vapour = pass * (air_potential(s) - p.potential);
  const Lanes carried = heat_of_vapour(select(vapour > Lanes(0.0), s.around.air_k, t));
  FaceFlux f{};
  f.water = vapour;
  f.heat = into + vapour * carried;
  f.water_t0 = -pass * p.potential_t;
  f.water_x0 = -pass * p.potential_x;
  // Radiation stiffens with temperature: its slope is about 4 sigma T^3 at the surface.
  f.heat_t0 = carried * f.water_t0 - through;
  f.heat_x0 = carried * f.water_x0;
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
/// film that a covered one has. heat_t0 .. water_x0 are derivatives by the first cell.
inline FaceFlux vent_flux(const Stage& s, const CellPhysics& p, const Lanes& t) {
  const ColumnFigures& g = s.figures;
  const Lanes film = s.column.base_area_m2 * s.area_scale * g.mass_transfer * g.base_vent;
  const Lanes inner = s.column.reach_m[0] * s.reach_scale * p.vapour;
  const Lanes pass = film * inner / (film + inner);
  const Lanes vapour = pass * (air_potential(s) - p.potential);
  const Lanes carried = heat_of_vapour(select(vapour > Lanes(0.0), s.around.air_k, t));
  FaceFlux f{};
  f.water = vapour;
  f.heat = vapour * carried;
  f.water_t0 = -pass * p.potential_t;
  f.water_x0 = -pass * p.potential_x;
  f.heat_t0 = carried * f.water_t0;
  f.heat_x0 = carried * f.water_x0;
  return f;
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
  return f;
}

}  // namespace maslin
