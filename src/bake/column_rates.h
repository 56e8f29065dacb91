// Rates of heat and water of a whole column, and the matrix that goes with them; for all eight
// lanes or a few.
#pragma once

#include <cstdint>

#include "bake/column_flux.h"
#include "numerics/block_tridiagonal.h"
#include "numerics/register_lanes.h"

namespace maslin {

/// Some lanes of what a step reads.
template <typename Real>
inline CellFigures<Real> part_of(const CellFigures<Lanes>& f, const PartOf<Real>& of) {
  return {.solids_heat = of(f.solids_heat),
          .solute_water = of(f.solute_water),
          .conductivity_dry = of(f.conductivity_dry),
          .crust_shrink = of(f.crust_shrink),
          .crust_passage = of(f.crust_passage),
          .spring_conductance = of(f.spring_conductance),
          .spring_area = of(f.spring_area),
          .pressure = of(f.pressure),
          .convection = of(f.convection),
          .radiation = of(f.radiation),
          .mass_transfer = of(f.mass_transfer),
          .base_vent = of(f.base_vent),
          .plate_heat = of(f.plate_heat),
          .plate_convection = of(f.plate_convection),
          .plate_radiation = of(f.plate_radiation),
          .plate_contact = of(f.plate_contact),
          .inverse_pressure = of(f.inverse_pressure),
          .inverse_first_water = of(f.inverse_first_water),
          .isotherm_offset = of(f.isotherm_offset),
          .conductivity_gain = of(f.conductivity_gain),
          .free_vapour = of(f.free_vapour),
          .liquid_passage = of(f.liquid_passage)};
}
template <typename Real>
inline SurroundingsOf<Real> part_of(const Surroundings& s, const PartOf<Real>& of) {
  return {of(s.air_k), of(s.top_k), of(s.floor_k), of(s.vapour_pa), of(s.shade)};
}

/// A column at one instant of its bake, with what the spring has done to its lengths.
template <typename Real>
struct StageOf {
  const CellColumn& column;
  MeetingOf<Real> meeting;
  Real reach_scale;
  Real area_scale;
  const CellFigures<Real>* filling = nullptr;  // of the cells inside, where they are one
  const CellFigures<Real>* topping = nullptr;  // of those on top, likewise
  PartOf<Real> of = {};                        // the column's lanes

  const CellFigures<Real>& figures(std::size_t node) const {
    return filling != nullptr && column.inside(node)   ? *filling
           : topping != nullptr && column.on_top(node) ? *topping
                                                       : meeting.figures;
  }
  Real reach(std::size_t face) const { return of(column.reach_m[face]) * reach_scale; }
};
using Stage = StageOf<Lanes>;

/// Temperature and water of every node.
template <typename Real>
struct NodesOf {
  const Real* temperature;
  const Real* water;
};

/// What passes the surfaces of the column.
template <typename Real>
struct SurfaceFluxesOf {
  FaceFluxOf<Real> plate;  // into the plate
  FaceFluxOf<Real> vent;   // into the first cell, past the plate
  FaceFluxOf<Real> open;   // into the last cell
  Real surface_k;

  Real heat() const { return plate.heat + vent.heat + open.heat; }
  Real water() const { return vent.water + open.water; }
};

template <typename Real>
inline SurfaceFluxesOf<Real> surface_fluxes(const StageOf<Real>& s, const NodesOf<Real>& nodes,
                                            const CellPhysicsOf<Real>* physics) {
  const std::size_t last = s.column.last;
  SurfaceFluxesOf<Real> out;
  const Real base = s.of(s.column.base_area_m2) * s.area_scale;
  out.plate = plate_flux(s.meeting, base, nodes.temperature[0]);
  out.vent = vent_flux(s.meeting, base, s.reach(0), physics[1], nodes.temperature[1]);
  out.open = open_flux(s.meeting, s.of(s.column.open_area_m2) * s.area_scale,
                       s.of(s.column.open_reach_m) * s.reach_scale, physics[last],
                       nodes.temperature[last], out.surface_k);
  return out;
}

template <typename Real>
inline void add_surfaces(const SurfaceFluxesOf<Real>& f, std::size_t last, PairOf<Real>* rate) {
  rate[0].a += f.plate.heat;
  rate[1].a += f.vent.heat;
  rate[1].b += f.vent.water;
  rate[last].a += f.open.heat;
  rate[last].b += f.open.water;
}

/// Room for the physics of a column's cells.
template <typename Real>
struct CellRoom {
  CellLogs<Real>* logs;
  CellPhysicsOf<Real>* physics;
};

enum class Slopes : std::uint8_t { none, all };

/// The physics of every cell, with derivatives or without. In short loops, one for each long chain
/// of operations: so a processor works on several cells at a time, and what a loop needs stays in
/// registers.
template <Slopes slopes, typename Real>
inline void cells_of(const StageOf<Real>& s, const NodesOf<Real>& nodes,
                     const CellRoom<Real>& room) {
  const std::size_t count = s.column.count;
  for (std::size_t i = 1; i < count; ++i) {
    room.logs[i] = cell_logs(s.figures(i), nodes.temperature[i], nodes.water[i]);
  }
  for (std::size_t i = 1; i < count; ++i) {
    room.logs[i].dry_odds = exp_short(room.logs[i].dry_odds);
    room.logs[i].pure = exp_short(room.logs[i].pure);
  }
  for (std::size_t i = 1; i < count; ++i) {
    const CellPhysicsOf<Real> p =
        cell_physics(s.figures(i), nodes.temperature[i], nodes.water[i], room.logs[i].dry_odds,
                     room.logs[i].pure, room.logs[i].pure_slope);
    if constexpr (slopes == Slopes::all) {
      room.physics[i] = p;
    } else {
      room.physics[i].conductivity = p.conductivity;
      room.physics[i].vapour = p.vapour;
      room.physics[i].potential = p.potential;
    }
  }
}

/// Every face of the column, from the plate on, with what passes it: `face(f, from, flux)` for
/// face f between the nodes `from` and f + 1.
template <typename Real, typename Face>
inline void for_each_face(const StageOf<Real>& s, const NodesOf<Real>& nodes,
                          const CellPhysicsOf<Real>* physics, const Face& face) {
  const CellColumn& c = s.column;
  face(0, 0,
       contact_flux(s.meeting.figures, s.of(c.base_area_m2) * s.area_scale, s.reach(0), physics[1],
                    nodes.temperature[0], nodes.temperature[1]));
  for (std::size_t f = 1; f + 1 < c.count; ++f) {
    const std::size_t from = c.before(f);
    const std::size_t to = f + 1;
    // Water per solids drives no liquid from one stuff into another.
    const bool seam = &s.figures(from) != &s.figures(to);
    const Real creep = seam ? Real(0.0) : s.figures(to).liquid_passage;
    face(f, from,
         inner_flux(creep, s.reach(f), physics[from], nodes.temperature[from], nodes.water[from],
                    physics[to], nodes.temperature[to], nodes.water[to]));
  }
}

template <typename Real>
inline void pass(PairOf<Real>* rate, std::size_t from, std::size_t to, const FaceFluxOf<Real>& f) {
  rate[from].a -= f.heat;
  rate[from].b -= f.water;
  rate[to].a += f.heat;
  rate[to].b += f.water;
}

/// The rates by what passes between nodes.
template <typename Real>
inline void inner_rates(const StageOf<Real>& s, const NodesOf<Real>& nodes,
                        const CellRoom<Real>& room, PairOf<Real>* rate) {
  cells_of<Slopes::none>(s, nodes, room);
  for (std::size_t i = 0; i < s.column.count; ++i) {
    rate[i] = {0.0, 0.0};
  }
  for_each_face(s, nodes, room.physics,
                [rate](std::size_t f, std::size_t from, const FaceFluxOf<Real>& flux) {
                  pass(rate, from, f + 1, flux);
                });
}

/// The blocks of  mass - gamma h d(rate)/d(state), and the mass itself.
template <typename Real>
struct MatrixOf {
  BlockOf<Real>* lower;
  BlockOf<Real>* diagonal;
  BlockOf<Real>* upper;
  PairOf<Real>* mass;
};

/// Puts what a face does to the nodes at its ends into the blocks. `upper` and `lower`
/// go by the face: what ties the node before it to the one after.
template <typename Real>
inline void add_face(const MatrixOf<Real>& m, double gamma_h, std::size_t from, std::size_t face,
                     const FaceFluxOf<Real>& f) {
  BlockOf<Real>& d0 = m.diagonal[from];
  BlockOf<Real>& d1 = m.diagonal[face + 1];
  const BlockOf<Real> by0{gamma_h * f.heat_t0, gamma_h * f.heat_x0, gamma_h * f.water_t0,
                          gamma_h * f.water_x0};
  const BlockOf<Real> by1{gamma_h * f.heat_t1, gamma_h * f.heat_x1, gamma_h * f.water_t1,
                          gamma_h * f.water_x1};
  d0.aa += by0.aa;
  d0.ab += by0.ab;
  d0.ba += by0.ba;
  d0.bb += by0.bb;
  d1.aa -= by1.aa;
  d1.ab -= by1.ab;
  d1.ba -= by1.ba;
  d1.bb -= by1.bb;
  m.upper[face] = by1;
  m.lower[face + 1] = {-by0.aa, -by0.ab, -by0.ba, -by0.bb};
}

/// Takes a surface flux's derivatives by its cell off that cell's block.
template <typename Real>
inline void take_surface(BlockOf<Real>& block, double gamma_h, const FaceFluxOf<Real>& f) {
  block.aa -= gamma_h * f.heat_t0;
  block.ab -= gamma_h * f.heat_x0;
  block.ba -= gamma_h * f.water_t0;
  block.bb -= gamma_h * f.water_x0;
}

/// As inner_rates, with the matrix and what passes the surfaces.
template <typename Real>
inline SurfaceFluxesOf<Real> rates_and_matrix(const StageOf<Real>& s, const NodesOf<Real>& nodes,
                                              double gamma_h, const CellRoom<Real>& room,
                                              const MatrixOf<Real>& m, PairOf<Real>* rate) {
  const CellColumn& c = s.column;
  cells_of<Slopes::all>(s, nodes, room);
  m.mass[0] = {s.of(c.base_area_m2) * s.meeting.figures.plate_heat, 0.0};
  m.diagonal[0] = {m.mass[0].a, 0.0, 0.0, 1.0};
  rate[0] = {0.0, 0.0};
  for (std::size_t i = 1; i < c.count; ++i) {
    const Real solids = s.of(c.solids_kg[i]);
    m.mass[i] = {solids * (s.figures(i).solids_heat + k_liquid_heat_j_per_kg_k * nodes.water[i]),
                 solids * heat_of_water(nodes.temperature[i])};
    m.diagonal[i] = {m.mass[i].a, m.mass[i].b, 0.0, solids};
    rate[i] = {0.0, 0.0};
  }
  for_each_face(s, nodes, room.physics,
                [&](std::size_t f, std::size_t from, const FaceFluxOf<Real>& flux) {
                  pass(rate, from, f + 1, flux);
                  add_face(m, gamma_h, from, f, flux);
                });
  const SurfaceFluxesOf<Real> surfaces = surface_fluxes(s, nodes, room.physics);
  m.diagonal[0].aa -= gamma_h * surfaces.plate.heat_t0;
  take_surface(m.diagonal[1], gamma_h, surfaces.vent);
  take_surface(m.diagonal[c.last], gamma_h, surfaces.open);
  return surfaces;
}

}  // namespace maslin
