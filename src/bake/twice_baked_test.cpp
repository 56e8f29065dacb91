// Pieces that come frozen, go out of the oven and in again, and crusts that go past brown.
#include <doctest/doctest.h>

#include <cmath>

#include "bake/bake.h"
#include "bake/progress.h"

using namespace maslin;

namespace {

Piece roll() {
  Piece out;
  out.mass_g = 70.0;
  out.porosity = 0.62;
  return out;
}

}  // namespace

TEST_CASE("A frozen dough lacks the heat of its ice as well") {
  const DoughFigures lean;
  // Nothing to thaw above its freezing point.
  CHECK(frozen_start_k(lean, 4.0)[0] == doctest::Approx(277.15));
  // By hand: freezes at -1.86 K times what is dissolved per kg of water, at least half a degree;
  // what can freeze is the water less 0.3 of starch and protein; 333.6 kJ/kg of ice.
  const double start = frozen_start_k(lean, -18.0)[0] - 273.15;
  CHECK(start < -38.0);
  CHECK(start > -60.0);
  CHECK(frozen_start_k(lean, -18.0)[0] < frozen_start_k(lean, -8.0)[0]);
  DoughFigures dry = lean;
  dry.water_share = 0.15;
  dry.solids_share = 0.85;
  CHECK(frozen_start_k(dry, -18.0)[0] > frozen_start_k(lean, -18.0)[0]);
}

TEST_CASE("A piece that goes out cools, keeps its colour, and bakes on when it comes back") {
  Oven oven = oven_of(OvenKind::conventional, 453.15);
  OvenPhase out;
  out.from_minute = 12.0;
  out.set_point_k = 294.15;
  out.outside = true;
  OvenPhase again = oven.phases.front();
  again.from_minute = 132.0;
  oven.phases.push_back(out);
  oven.phases.push_back(again);
  DoneRule rule;
  rule.core_k = 363.15;
  rule.from_minute = 132.0;
  const BakeRun run = bake_piece(roll(), oven, rule, {});
  REQUIRE(run.status == BakeStatus::done);
  CHECK(run.mass_closure < 1e-6);
  CHECK(run.energy_closure < 1e-6);
  const BakeMoment first = moment_at(run, 12.0), cold = moment_at(run, 131.5);
  CHECK(cold.core_k[0] < 303.15);
  CHECK(cold.core_k[0] > 290.15);
  CHECK(std::fabs(cold.lightness[0] - first.lightness[0]) < 0.5);
  CHECK(cold.starch_set[0] >= first.starch_set[0]);
  CHECK(cold.weight_loss_pct[0] >= first.weight_loss_pct[0] - 0.05);
  CHECK(run.minutes_to_done[0] > 135.0);
  CHECK(run.at_done.lightness[0] < cold.lightness[0]);
}

TEST_CASE("A crust goes on from brown to char") {
  CHECK(lightness_of(0.0)[0] == doctest::Approx(85.0));
  // Half browned: hardly any char yet, within a point of browning alone.
  CHECK(lightness_of(0.7)[0] ==
        doctest::Approx(85.0 - 46.8 * (1.0 - std::exp(-0.7))).epsilon(0.015));
  // Bread between black walls came to 25 (a study of oven surfaces, excerpt read).
  CHECK(lightness_of(30.0)[0] < 25.0);
  CHECK(lightness_of(1000.0)[0] == doctest::Approx(20.2).epsilon(0.01));
  CHECK(crust_of(lightness_of(4.0)[0]) == Crust::dark);
  CHECK(crust_of(lightness_of(12.0)[0]) == Crust::burnt);
  double before = 86.0;
  for (double browning = 0.0; browning < 60.0; browning += 0.25) {
    CHECK(lightness_of(browning)[0] < before);
    before = lightness_of(browning)[0];
  }
}
