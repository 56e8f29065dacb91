// The bake's own stepper against SUNDIALS CVODE and IDA on the same cells.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "bake/bake_setup.h"
#include "bake/stepper.h"
#include "cvode_bake.h"
#include "ida_bake.h"

using namespace maslin;

namespace {

ColumnState stepped(const BakeSetup& setup, const Surroundings& around, double end_s,
                    double tolerance, int* steps) {
  ColumnState state = setup.start;
  StepperRoom room = stepper_room(setup.column);
  Exchanged exchanged;
  double now_s = 0.0, step_s = 1.0;
  while (now_s < end_s - 1e-9) {
    const double tried = std::min(step_s, end_s - now_s);
    const double error = try_step(setup.column, setup.figures, around, around, 1.0, tried,
                                  tolerance, state, exchanged, room)
                             .error;
    now_s += error <= 1.0 ? tried : 0.0;
    *steps += error <= 1.0;
    step_s = tried * std::clamp(0.85 / std::cbrt(error), 0.2, 2.5);
  }
  return state;
}

}  // namespace

TEST_CASE("The bake's steps follow CVODE at tight tolerance") {
  for (const PieceShape shape : {PieceShape::bun, PieceShape::cluster, PieceShape::tin_loaf}) {
    Piece piece;
    piece.shape = shape;
    piece.mass_g = shape == PieceShape::tin_loaf ? 600.0 : 70.0;
    const double end_s = shape == PieceShape::tin_loaf ? 1800.0 : 840.0;
    const BakeSetup setup = bake_setup(piece, oven_of(OvenKind::conventional, 473.15), {}, {}, {});
    REQUIRE(setup.problem.empty());
    const Surroundings around{473.15, 473.15, 483.15, 2000.0};
    const CvodeBake exact =
        cvode_bake(setup.column, setup.figures, around, setup.start, end_s, 1e-8);
    int fine_steps = 0, usual_steps = 0;
    const ColumnState fine = stepped(setup, around, end_s, 0.001, &fine_steps);
    const ColumnState usual = stepped(setup, around, end_s, 1.0, &usual_steps);
    double fine_k = 0.0, usual_k = 0.0, fine_water = 0.0;
    for (std::size_t i = 0; i < setup.column.count; ++i) {
      fine_k = std::max(fine_k, std::fabs(fine.temperature[i][0] - exact.temperature_k[i]));
      fine_water = std::max(fine_water, std::fabs(fine.water[i][0] - exact.water[i]));
    }
    // The core, which is what a baker measures; the front's own cell moves faster.
    const std::size_t core = setup.column.count - 1;
    usual_k = std::fabs(usual.temperature[core][0] - exact.temperature_k[core]);
    CAPTURE(piece_shape_name(shape));
    MESSAGE("steps " << usual_steps << " usual, " << fine_steps << " fine, " << exact.steps
                     << " CVODE; worst node fine " << fine_k << " K, core usual " << usual_k
                     << " K");
    CHECK(fine_k < 0.05);
    CHECK(fine_water < 1e-3);
    CHECK(usual_k < 0.25);
  }
}

TEST_CASE("A whole bake at its usual steps follows IDA at tight tolerance") {
  struct Case {
    PieceShape shape;
    double mass_g;
    OvenKind oven;
    double celsius;
    double minutes;
  };
  double worst_core_k = 0.0, worst_loss = 0.0, worst_crust_mm = 0.0, worst_lightness = 0.0;
  for (const Case& one : {Case{PieceShape::bun, 60.0, OvenKind::conventional, 190.0, 16.0},
                          Case{PieceShape::cluster, 80.0, OvenKind::fan, 170.0, 25.0},
                          Case{PieceShape::tin_loaf, 800.0, OvenKind::conventional, 180.0, 45.0},
                          Case{PieceShape::hearth, 500.0, OvenKind::conventional, 230.0, 35.0},
                          Case{PieceShape::flat, 300.0, OvenKind::conventional, 220.0, 20.0}}) {
    Piece piece;
    piece.shape = one.shape;
    piece.mass_g = one.mass_g;
    const Oven oven = oven_of(one.oven, one.celsius + 273.15);
    BakeOptions options;
    options.sample_minutes = 1.0;
    options.at_least_minutes = options.at_most_minutes = one.minutes;
    const BakeRun run = bake_piece(piece, oven, {}, {}, options);
    const BakeSetup setup = bake_setup(piece, oven, {}, {}, options);
    REQUIRE(setup.problem.empty());
    const IdaBake exact = ida_bake(setup, one.minutes, options.sample_minutes, 1e-8);
    REQUIRE(!exact.failed);
    REQUIRE(run.trace.size() == exact.trace.size());
    REQUIRE(exact.trace.size() > 15);
    double core_k = 0.0, loss = 0.0, crust_mm = 0.0, lightness = 0.0, at_core = 0.0;
    for (std::size_t i = 0; i < run.trace.size(); ++i) {
      const BakeMoment& ours = run.trace[i];
      const BakeMoment& theirs = exact.trace[i];
      const double off = std::fabs(ours.core_k[0] - theirs.core_k[0]);
      at_core = off > core_k ? run.trace_minutes[i] : at_core;
      core_k = std::max(core_k, off);
      loss = std::max(loss, std::fabs(ours.weight_loss_pct[0] - theirs.weight_loss_pct[0]));
      crust_mm = std::max(crust_mm, std::fabs(ours.crust_mm[0] - theirs.crust_mm[0]));
      lightness = std::max(lightness, std::fabs(ours.lightness[0] - theirs.lightness[0]));
    }
    MESSAGE(piece_shape_name(one.shape)
            << ": " << run.steps << " steps, IDA " << exact.steps << "; over the whole bake core "
            << core_k << " K (worst at minute " << at_core << "), loss " << loss
            << " points, crust " << crust_mm << " mm, lightness " << lightness);
    worst_core_k = std::max(worst_core_k, core_k);
    worst_loss = std::max(worst_loss, loss);
    worst_crust_mm = std::max(worst_crust_mm, crust_mm);
    worst_lightness = std::max(worst_lightness, lightness);
  }
  CHECK(worst_core_k < 0.5);
  CHECK(worst_loss < 0.2);
  CHECK(worst_crust_mm < 0.1);
  CHECK(worst_lightness < 0.3);
}
