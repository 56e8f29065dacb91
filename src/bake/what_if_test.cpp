#include "bake/what_if.h"

#include <doctest/doctest.h>

#include <cmath>

using namespace maslin;

TEST_CASE("The setting that was asked for gives the colour at done") {
  Piece p;
  p.mass_g = 90.0;
  const Oven oven = oven_of(OvenKind::conventional, 463.15);
  const OvenSetting s = setting_for(p, oven, 366.15, 68.0, {});
  REQUIRE(s.problem.empty());
  CHECK(std::fabs(s.lightness - 68.0) < 1.0);
  CHECK(s.set_point_k > 440.0);
  CHECK(s.set_point_k < 573.0);
  // A paler crust asks for a cooler oven and a longer bake.
  const OvenSetting paler = setting_for(p, oven, 366.15, 73.0, {});
  REQUIRE(paler.problem.empty());
  CHECK(paler.set_point_k < s.set_point_k);
  CHECK(paler.minutes > s.minutes);
}

TEST_CASE("A colour that no setting gives comes back as a sentence") {
  Piece loaf;
  loaf.shape = PieceShape::tin_loaf;
  loaf.mass_g = 2500.0;
  const OvenSetting s =
      setting_for(loaf, oven_of(OvenKind::conventional, 463.15, "tin"), 370.15, 84.0, {});
  CHECK(!s.problem.empty());
  Piece none;
  none.mass_g = 0.0;
  CHECK(!setting_for(none, oven_of(OvenKind::conventional, 463.15), 366.15, 65.0, {})
             .problem.empty());
}

TEST_CASE("The last minute before dry lies where the loss passes") {
  Piece p;
  BakeOptions options;
  options.at_least_minutes = 40.0;
  const BakeRun run = bake_piece(p, oven_of(OvenKind::conventional, 473.15), {}, {}, options);
  const Lanes minute = last_minute_before_dry(run, 12.0);
  CHECK(moment_at(run, minute).weight_loss_pct[0] == doctest::Approx(12.0).epsilon(0.01));
  CHECK(last_minute_before_dry(run, 99.0)[0] == doctest::Approx(run.trace_minutes.back()));
}
