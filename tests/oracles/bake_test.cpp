// The bake's own stepper against SUNDIALS CVODE on the same cells.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "bake/bake_setup.h"
#include "bake/stepper.h"
#include "cvode_bake.h"

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
