#include "bake/stepper.h"

#include <doctest/doctest.h>

#include "bake/bake_setup.h"

namespace maslin {
namespace {

/// A bun's nodes after some steps, and how many of them were taken.
struct Baked {
  ColumnState state;
  Exchanged exchanged;
  int taken = 0;
};

Baked baked(bool wide) {
  Piece piece;
  piece.mass_g = 70.0;
  for (std::size_t lane = 0; lane < k_lane_count; ++lane) {
    piece.mass_g.set(lane, 50.0 + 6.0 * static_cast<double>(lane));
  }
  const BakeSetup setup = bake_setup(piece, oven_of(OvenKind::conventional, 473.15), {}, {}, {});
  REQUIRE(setup.problem.empty());
  StepperRoom room = stepper_room(setup.column, wide);
  const Surroundings around{473.15, 473.15, 483.15, 2000.0};
  Baked out{setup.start, {}, 0};
  for (int i = 0; i < 60; ++i) {
    const double step_s = 1.0 + 29.0 * (i % 7) / 6.0;
    out.taken += try_step(setup.column, setup.figures, around, around, 1.0 + 0.005 * i, step_s, 1.0,
                          out.state, out.exchanged, room)
                             .error <= 1.0
                     ? 1
                     : 0;
  }
  return out;
}

bool same_bits(const Lanes& a, const Lanes& b) {
  bool same = true;
  for (std::size_t lane = 0; lane < k_lane_count; ++lane) {
    same = same && a[lane] == b[lane];
  }
  return same;
}

}  // namespace

TEST_CASE("Steps in whole registers give the bits of steps in halves") {
  const Baked wide = baked(true), narrow = baked(false);
  CHECK(wide.taken == narrow.taken);
  CHECK(wide.taken > 20);
  for (std::size_t i = 0; i < wide.state.temperature.size(); ++i) {
    CHECK(same_bits(wide.state.temperature[i], narrow.state.temperature[i]));
    CHECK(same_bits(wide.state.water[i], narrow.state.water[i]));
  }
  CHECK(same_bits(wide.exchanged.heat_j, narrow.exchanged.heat_j));
  CHECK(same_bits(wide.exchanged.water_kg, narrow.exchanged.water_kg));
}

}  // namespace maslin
