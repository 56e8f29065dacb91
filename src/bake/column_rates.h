// Rates of heat and water of a whole column, and the matrix that goes with them.
#pragma once

#include "bake/column_flux.h"
#include "bake/stepper.h"

namespace maslin {

/// A column at one instant of its bake, with what the spring has done to its lengths.
struct Stage {
  const Column& column;
  Meeting meeting;
  Lanes reach_scale;
  Lanes area_scale;
};

/// What passes the surfaces of the column.
struct SurfaceFluxes {
  FaceFlux plate;  // into the plate
  FaceFlux vent;   // into the first cell, past the plate
  FaceFlux open;   // into the last cell
  Lanes surface_k;

  Lanes heat() const { return plate.heat + vent.heat + open.heat; }
  Lanes water() const { return vent.water + open.water; }
};

inline SurfaceFluxes surface_fluxes(const Stage& s, const ColumnState& state,
                                    const CellPhysics* physics) {
  const std::size_t last = s.column.last;
  SurfaceFluxes out;
  const Lanes base = s.column.base_area_m2 * s.area_scale;
  out.plate = plate_flux(s.meeting, base, state.temperature[0]);
  out.vent = vent_flux(s.meeting, base, s.column.reach_m[0] * s.reach_scale, physics[1],
                       state.temperature[1]);
  out.open = open_flux(s.meeting, s.column.open_area_m2 * s.area_scale,
                       s.column.open_reach_m * s.reach_scale, physics[last],
                       state.temperature[last], out.surface_k);
  return out;
}

inline void add_surfaces(const SurfaceFluxes& f, std::size_t last, Pair* rate) {
  rate[0].a += f.plate.heat;
  rate[1].a += f.vent.heat;
  rate[1].b += f.vent.water;
  rate[last].a += f.open.heat;
  rate[last].b += f.open.water;
}

/// From the plate into the first cell, and from node to node further in.
inline FaceFlux contact_of(const Stage& s, const CellPhysics* physics, const ColumnState& state) {
  return contact_flux(s.meeting.figures, s.column.base_area_m2 * s.area_scale,
                      s.column.reach_m[0] * s.reach_scale, physics[1], state.temperature[0],
                      state.temperature[1]);
}
inline FaceFlux flux_of(const Stage& s, std::size_t face, std::size_t from,
                        const CellPhysics* physics, const ColumnState& state) {
  const std::size_t to = face + 1;
  const ColumnFigures& g = s.meeting.figures;
  // Water per solids drives no liquid from one stuff into another.
  const bool seam = g.filling && s.column.inside(from) != s.column.inside(to);
  const Lanes creep = seam ? Lanes(0.0) : g.at(s.column, to).liquid_passage;
  return inner_flux(creep, s.column.reach_m[face] * s.reach_scale, physics[from],
                    state.temperature[from], state.water[from], physics[to], state.temperature[to],
                    state.water[to]);
}

/// Physics of every cell and the rates by what passes between nodes.
inline void inner_rates(const Stage& s, const ColumnState& state, CellPhysics* physics,
                        Pair* rate) {
  rate[0] = {0.0, 0.0};
  for (std::size_t i = 1; i < s.column.count; ++i) {
    physics[i] =
        cell_physics(s.meeting.figures.at(s.column, i), state.temperature[i], state.water[i]);
    rate[i] = {0.0, 0.0};
  }
  const FaceFlux contact = contact_of(s, physics, state);
  rate[0].a -= contact.heat;
  rate[1].a += contact.heat;
  for (std::size_t i = 1; i + 1 < s.column.count; ++i) {
    const std::size_t from = s.column.before(i);
    const FaceFlux f = flux_of(s, i, from, physics, state);
    rate[from].a -= f.heat;
    rate[from].b -= f.water;
    rate[i + 1].a += f.heat;
    rate[i + 1].b += f.water;
  }
}

/// Puts what a face does to the nodes at its ends into the blocks. `upper` and `lower`
/// go by the face: what ties the node before it to the one after.
inline void add_face(StepperRoom& room, double gamma_h, std::size_t from, std::size_t face,
                     const FaceFlux& f) {
  Block& d0 = room.diagonal[from];
  Block& d1 = room.diagonal[face + 1];
  const Block by0{gamma_h * f.heat_t0, gamma_h * f.heat_x0, gamma_h * f.water_t0,
                  gamma_h * f.water_x0};
  const Block by1{gamma_h * f.heat_t1, gamma_h * f.heat_x1, gamma_h * f.water_t1,
                  gamma_h * f.water_x1};
  d0.aa += by0.aa;
  d0.ab += by0.ab;
  d0.ba += by0.ba;
  d0.bb += by0.bb;
  d1.aa -= by1.aa;
  d1.ab -= by1.ab;
  d1.ba -= by1.ba;
  d1.bb -= by1.bb;
  room.upper[face] = by1;
  room.lower[face + 1] = {-by0.aa, -by0.ab, -by0.ba, -by0.bb};
}

/// Takes a surface flux's derivatives by its cell off that cell's block.
inline void take_surface(Block& block, double gamma_h, const FaceFlux& f) {
  block.aa -= gamma_h * f.heat_t0;
  block.ab -= gamma_h * f.heat_x0;
  block.ba -= gamma_h * f.water_t0;
  block.bb -= gamma_h * f.water_x0;
}

/// As inner_rates, and the matrix  mass - gamma h d(rate)/d(state)  into the room's
/// blocks.
inline SurfaceFluxes rates_and_matrix(const Stage& s, const ColumnState& state, double gamma_h,
                                      StepperRoom& room, Pair* rate) {
  const ColumnFigures& g = s.meeting.figures;
  room.mass[0] = {s.column.base_area_m2 * g.plate_heat, 0.0};
  room.diagonal[0] = {room.mass[0].a, 0.0, 0.0, 1.0};
  rate[0] = {0.0, 0.0};
  for (std::size_t i = 1; i < s.column.count; ++i) {
    const Lanes& solids = s.column.solids_kg[i];
    const ColumnFigures& own = g.at(s.column, i);
    room.physics[i] = cell_physics(own, state.temperature[i], state.water[i]);
    room.mass[i] = {solids * (own.solids_heat + k_liquid_heat_j_per_kg_k * state.water[i]),
                    solids * heat_of_water(state.temperature[i])};
    room.diagonal[i] = {room.mass[i].a, room.mass[i].b, 0.0, solids};
    rate[i] = {0.0, 0.0};
  }
  const FaceFlux contact = contact_of(s, room.physics.data(), state);
  rate[0].a -= contact.heat;
  rate[1].a += contact.heat;
  add_face(room, gamma_h, 0, 0, contact);
  for (std::size_t i = 1; i + 1 < s.column.count; ++i) {
    const std::size_t from = s.column.before(i);
    const FaceFlux f = flux_of(s, i, from, room.physics.data(), state);
    rate[from].a -= f.heat;
    rate[from].b -= f.water;
    rate[i + 1].a += f.heat;
    rate[i + 1].b += f.water;
    add_face(room, gamma_h, from, i, f);
  }
  const SurfaceFluxes surfaces = surface_fluxes(s, state, room.physics.data());
  room.diagonal[0].aa -= gamma_h * surfaces.plate.heat_t0;
  take_surface(room.diagonal[1], gamma_h, surfaces.vent);
  take_surface(room.diagonal[s.column.last], gamma_h, surfaces.open);
  return surfaces;
}

}  // namespace maslin
