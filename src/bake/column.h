// The column of cells from base to open surface on which a piece is solved, its
// constants, and its state. Internal to bake/ and to its tests.
#pragma once

#include <cstddef>
#include <memory>
#include <vector>

#include "bake/piece.h"
#include "numerics/lanes.h"

namespace maslin {

/// A tree of three legs that meet at the `join`: from the base, from the open surface,
/// and the core that both share. Near the surfaces base and crust go their own ways;
/// deep inside a compact piece its isotherms close around the core, so there the two
/// are one. Node 0 is the plate (tin, tray or stone); 1 .. join-1 the base's leg from
/// the base inward; join the outermost core cell; join+1 .. last the open leg, outward;
/// last+1 .. count-1 the rest of the core, inward. Face f < last lies between nodes f
/// and f+1, face 0 being the contact with the plate; face f >= last lies before node
/// f+1 on the core's leg (the first of them after the join).
struct CellColumn {
  std::size_t count = 0;
  std::size_t join = 0;
  std::size_t last = 0;
  std::vector<Lanes> solids_kg;  // per node (0 for the plate): the mesh moves with the solids
  std::vector<Lanes> reach_m;    // per face: area / distance of the nodes it parts, m
  std::vector<Lanes> depth_m;    // per node: its thickness
  Lanes open_reach_m = 0.0;      // from the last cell to the open surface
  Lanes base_area_m2 = 0.0;
  Lanes open_area_m2 = 0.0;
  Lanes core_extrapolation = 0.0;  // T(0) = T_core - this (T_next - T_core)

  /// The node before face f.
  std::size_t before(std::size_t f) const { return f == last ? join : f; }
  /// A filling reaches so many cells from the join into both legs.
  std::size_t filling_reach = 0;

  /// A topping: so many cells of the open leg, outermost.
  std::size_t topping_cells = 0;
  bool on_top(std::size_t node) const { return node <= last && node + topping_cells > last; }

  /// Whether a node lies inside a filling's rim: the core, and the legs so far.
  bool inside(std::size_t node) const {
    return node > last || (node + filling_reach >= join && node <= join + filling_reach);
  }
};

struct ColumnCells {
  int base = 8;
  int core = 4;
  int open = 12;
};

/// A graded column for a geometry. `solids_kg` is spread evenly by volume.
CellColumn make_column(const PieceGeometry& geometry, const Lanes& solids_kg,
                       const ColumnCells& cells);

/// Gives what lies inside the filling's rim these dry solids and the rest the others, each
/// evenly by volume.
void part_solids(CellColumn& column, const Lanes& filling_kg, const Lanes& dough_kg);

/// The column with a layer on its open surface, of this thickness and these dry solids.
CellColumn with_topping(const CellColumn& bare, const Lanes& thick_m, const Lanes& solids_kg);

/// What does not change during a bake and a step reads, one value a lane; for all eight lanes
/// or a few.
template <typename Real>
struct CellFigures {
  Real solids_heat = 1700.0;        // J/kg K
  Real solute_water = 0.0;          // kg/kg solids: 0.018 times mol of solutes
  Real conductivity_dry = 0.07;     // W/m K
  Real crust_shrink = 0.44;         // thickness lost by a crust without water, share
  Real crust_passage = 0.33;        // of the pores' passage, what is left in such a crust
  Real spring_conductance = 0.333;  // reach grows as volume ratio to this power
  Real spring_area = 0.667;
  // Oven.
  Real pressure = 101325.0;  // Pa
  Real convection = 7.0;     // W/m2K
  Real radiation = 0.85;
  Real mass_transfer = 3e-8;  // kg/m2 s Pa at the open surface
  Real base_vent = 0.0;       // share of the film past the edges of tin or tray
  Real plate_heat = 3000.0;   // J/m2K of tin or tray, per base area
  Real plate_convection = 7.0;
  Real plate_radiation = 0.6;
  Real plate_contact = 150.0;  // W/m2K
  // Set by settle_figures.
  Real inverse_pressure = 1.0 / 101325.0;
  Real inverse_first_water = 1.0 / 0.75;
  Real isotherm_offset = 0.0;    // ln of the water at which polymers have activity 0.5
  Real conductivity_gain = 0.0;  // W/m K
  Real free_vapour = 0.0;        // kg/m s Pa at 373 K
  Real liquid_passage = 0.0;     // kg/m s per kg/kg
};

/// What does not change during a bake, one value a lane. Set all but what settle_figures does,
/// then call that.
struct ColumnFigures : CellFigures<Lanes> {
  // Dough.
  Lanes first_water = 0.75;  // kg/kg solids
  Lanes polymer_share = 1.0;
  Lanes conductivity_wet = 0.20;   // W/m K at the first water
  Lanes vapour_passage = 0.2;      // pores and their windings
  Lanes water_diffusivity = 1e-9;  // m2/s, liquid
  Lanes solids_density = 170.0;    // kg dry solids per m3 at loading
  Lanes volume_gain = 0.35;        // spring at full swelling of the gas, share of volume
  Lanes start_k = 298.15;
  Lanes browning_factor = 1.0;  // recipe and eye
  Lanes wash_factor = 1.0;      // egg wash and the like, open surface alone
  Lanes starch_delay_k = 0.0;   // what sugar adds to the temperature of setting
  Lanes first_swelling = 0.0;   // T / (1 - y) of the gas at loading, K; set by settle_figures
  /// Of the cells inside where they are a filling, else none.
  std::shared_ptr<const ColumnFigures> filling;
  std::shared_ptr<const ColumnFigures> topping;  // of those on top, likewise
  Lanes gas = 1.0;                               // per kg of dry solids, against the dough's

  const ColumnFigures& at(const CellColumn& column, std::size_t node) const {
    return filling && column.inside(node)   ? *filling
           : topping && column.on_top(node) ? *topping
                                            : *this;
  }
};
void settle_figures(ColumnFigures& figures);

/// The oven at one instant.
template <typename Real>
struct SurroundingsOf {
  Real air_k = 473.15;
  Real top_k = 473.15;    // what the open surface sees
  Real floor_k = 473.15;  // what tin or tray sees
  Real vapour_pa = 1500.0;
  Real shade = 1.0;  // share of the radiation that reaches the open surface
};
using Surroundings = SurroundingsOf<Lanes>;

/// Temperature K and water kg/kg solids of every node; the plate's water stays 0.
struct ColumnState {
  std::vector<Lanes> temperature;
  std::vector<Lanes> water;
};

}  // namespace maslin
