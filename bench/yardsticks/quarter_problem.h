// The bake that yardsticks and maslin both solve: a quarter of a free block of 92 g in three
// dimensions, 14 minutes at 200 C, without spring. Same cells, same equations, same oven.
#pragma once

#include "bake/bake_setup.h"
#include "bake/section.h"
#include "bake/solid.h"

namespace yardstick {

using namespace maslin;

inline constexpr double k_minutes = 14.0;

inline Piece quarter_piece() {
  Piece p;
  p.shape = PieceShape::cluster;
  p.mass_g = 92.0;
  p.neighbours = 0.0;
  p.length_mm = 80.0;
  p.width_mm = 80.0;
  p.dough.water_share = 0.36;
  p.dough.solids_share = 0.64;
  p.dough.sugar_pct_solids = 11.0;
  return p;
}
inline Oven quarter_oven() {
  return oven_of(OvenKind::conventional, 473.15);
}
inline BakeUnknowns quarter_unknowns() {
  BakeUnknowns u;
  u.spring_factor = 0.0;
  return u;
}

struct QuarterProblem {
  SolidGrid grid;
  BakeSetup setup;
  double water_kg = 0.0;  // at the start, in the quarter
  double mass_kg = 0.0;   // of the quarter

  QuarterProblem(int across, int along, int up)
      : setup(bake_setup(quarter_piece(), quarter_oven(), {}, quarter_unknowns(), {})) {
    const Piece piece = quarter_piece();
    const double solids_kg = (setup.mass_kg * piece.dough.solids_share)[0];
    grid = make_solid(piece_size(piece, 1.0), solids_kg, {across, along, up});
    mass_kg = 0.25 * setup.mass_kg[0];
    water_kg = 0.25 * solids_kg * setup.figures.first_water[0];
  }
};

}  // namespace yardstick
