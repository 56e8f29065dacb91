// The inside of a piece as it bakes: a cut through it, for the picture.
#pragma once

#include <string>
#include <vector>

#include "bake/bake.h"
#include "numerics/team.h"

namespace maslin {

struct SectionOptions {
  /// Cells from the middle to the side (a multiple of 8) and from base to top.
  int across = 16;
  int up = 24;
  /// Cells from the middle to an end: more than one solves a quarter of the piece in three
  /// dimensions, its frames showing the cut through the middle. Round pieces take one.
  int along = 1;
  /// When to look, in order, minutes; the last ends the run. Empty: at 0, 5, 10 ... 40.
  std::vector<double> minutes;
  double tolerance = 4.0;  // times 1 K and 0.01 kg/kg a step
  /// Hands that work on a large grid together; may be null. The answer is the same.
  Team* team = nullptr;
};

/// One look at the cut. Cells row by row from the base, each row from the middle outward.
struct SectionFrame {
  double minutes = 0.0;
  double core_k = 0.0;  // the coldest cell
  double weight_loss_pct = 0.0;
  double volume_ratio = 1.0;  // by which the heights (a block) or all lengths (a dome) grew
  std::vector<double> temperature_k;
  std::vector<double> water;      // kg per kg dry solids
  std::vector<double> lightness;  // L* that the place would have at a surface
};

struct SectionRun {
  std::string problem;  // one sentence when it could not be had, else empty
  int across = 0;
  int up = 0;
  bool round = false;             // x is a radius; else half the width of a long piece
  std::vector<double> x_mm;       // edges of the cells across, from the middle, at loading
  std::vector<double> height_mm;  // of every column of cells, at loading
  std::vector<double> share_up;   // edges of the cells up, as shares of that height
  std::vector<SectionFrame> frames;
  int steps = 0;
  int rejected = 0;
  int iterations = 0;  // of the linear solver, over all stages
  double mass_closure = 0.0;
  double energy_closure = 0.0;
};

/// A cut through the piece of the first lane: round pieces by radius, others across their
/// width with nothing passing along their length. Same physics as bake_piece, without
/// its reduction to one dimension.
SectionRun bake_section(const Piece& piece, const Oven& oven, const BakeUnknowns& unknowns,
                        const SectionOptions& options = {});

}  // namespace maslin
