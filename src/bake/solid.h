// A piece on a grid of two or three dimensions: the section for the picture, and the
// reference that the column is checked against. Same cells' physics, same steps.
#pragma once

#include <cstddef>
#include <vector>

#include "bake/bake_setup.h"
#include "bake/cell_physics.h"
#include "bake/column.h"
#include "bake/column_flux.h"
#include "bake/piece.h"
#include "bake/solid_solver.h"

namespace maslin {

/// Faces of cells at a side of the piece: against open air, or against a tin.
struct SolidSide {
  std::vector<Lanes> open_m2, tin_m2;
  std::vector<Lanes> reach_m;  // area over half the cell
};

/// One quarter of a piece: x from its middle to a side, y from its middle to an end, z
/// from base to top; round pieces have x as radius and one cell along. Eight columns
/// share a lane vector: lane l of group g is column x = l * groups + g, so a neighbour
/// across is the same lane of the next group but at the seams.
struct SolidGrid {
  std::size_t groups = 0;  // eighth of the cells across
  std::size_t along = 1;
  std::size_t up = 0;
  bool round = false;
  std::vector<double> x_m, y_m;  // edges
  std::vector<double> height_m;  // of the piece at the middle of each column, x
  std::vector<double> share_up;  // edges of cells as shares of the height
  // Per node: k = 0 the plate under a column, 1 .. up its cells.
  std::vector<Lanes> solids_kg;
  std::vector<Lanes> reach_z;           // node k to k+1; from 0 half the cell, from `up` to the top
  std::vector<Lanes> reach_x, reach_y;  // to the next cell across, along; 0 at the side
  SolidSide side, end;
  std::vector<Lanes> foot_m2, top_m2;  // per column: area below, area of the slanted top

  std::size_t columns() const { return groups * along; }
  std::size_t nodes() const { return columns() * (up + 1); }
  std::size_t node(std::size_t column, std::size_t k) const { return column * (up + 1) + k; }
  std::size_t across() const { return groups * k_lane_count; }
  StencilShape shape() const { return {groups, along, up}; }
};

struct SolidCells {
  int across = 24;  // a multiple of 8
  int along = 1;    // 1: a section
  int up = 30;
};

/// The grid of a piece's first lane. A dome gets a rim of a third of its height and a
/// parabola above; a block stays a block.
SolidGrid make_solid(const PieceSize& size, double solids_kg, const SolidCells& cells);

struct SolidState {
  std::vector<Lanes> temperature, water;  // per node; the plate's water stays 0
};

/// What spring has done to lengths: areas over distances and areas, up and sideways.
struct SolidScale {
  Lanes reach_up = 1.0, reach_side = 1.0, area_up = 1.0, area_side = 1.0;
};

struct SolidRoom {
  std::vector<CellPhysics> physics;
  StencilOf<Lanes> matrix;
  std::vector<Pair> mass, inner;
  std::vector<Pair> weight;  // what a residual counts: 1 per K and per 0.01 kg/kg
  std::vector<FaceFlux> surface, first_surface;  // what enters each node from outside
  std::vector<std::vector<Pair>> stage;
  std::vector<Pair> right, residual;
  double last_step_s = 0.0;  // whose stages are still in `stage`; 0: none
  SolidState trial;
  SolidSolver solver;
};
SolidRoom solid_room(const SolidGrid& grid);

struct SolidGain {
  double heat_j = 0.0, water_kg = 0.0;
};
/// Heat and water in the quarter (or the wedge of a round piece taken whole).
SolidGain solid_totals(const SolidGrid& grid, const ColumnFigures& figures,
                       const SolidState& state);

struct SolidStep {
  double error = 0.0;  // in units of the tolerance
  int iterations = 0;  // of the linear solver
};

/// One trial step, as the column's; advances only when `error` <= 1. The same with a team of
/// any size or none.
SolidStep try_solid_step(const SolidGrid& grid, const ColumnFigures& figures,
                         const Surroundings& before, const Surroundings& after,
                         const SolidScale& scale, double step_s, double tolerance,
                         SolidState& state, SolidGain& gained, SolidRoom& room, Team* team);

}  // namespace maslin
