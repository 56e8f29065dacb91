#include "bake/oven.h"

#include <doctest/doctest.h>

#include "bake/bake.h"

using namespace maslin;

namespace {

constexpr double k_celsius = 273.15;

BakeRun after(const Oven& oven, double minutes, double grams = 60.0,
              PieceShape shape = PieceShape::bun) {
  Piece piece;
  piece.shape = shape;
  piece.mass_g = grams;
  DoneRule rule;
  rule.by = DoneBy::time;
  rule.minutes = minutes;
  return bake_piece(piece, oven, rule, {});
}

double core_celsius(const BakeRun& run) {
  return run.at_done.core_k[0] - k_celsius;
}

}  // namespace

TEST_CASE("A steamed bun is cooked through, stays white and wet, and takes up water") {
  const Oven oven = oven_of(OvenKind::steamer, 100.0 + k_celsius);
  // Common practice, no source: buns of 50 to 60 g steam for 10 to 15 minutes.
  const BakeRun run = after(oven, 15.0);
  CHECK(core_celsius(run) > 90.0);
  CHECK(run.at_done.surface_k[0] - k_celsius < 100.5);
  CHECK(run.at_done.lightness[0] > 80.0);
  CHECK(run.at_done.weight_loss_pct[0] < 0.0);
  CHECK(run.at_done.crust_mm[0] < 0.1);
}

TEST_CASE("A toaster browns the top sooner than a still oven at the same setting") {
  const Oven toaster = oven_of(OvenKind::toaster, 190.0 + k_celsius);
  const BakeRun small = after(toaster, 12.0);
  const BakeRun still = after(oven_of(OvenKind::conventional, 190.0 + k_celsius), 12.0);
  CHECK(small.at_done.lightness[0] < still.at_done.lightness[0] - 3.0);
}

TEST_CASE("Foil keeps a crust pale and wet, and hardly holds the core back once it boils") {
  Oven foil = oven_of(OvenKind::conventional, 200.0 + k_celsius);
  const BakeRun bare = after(foil, 18.0);
  foil.phases.front().shade = 0.15;
  foil.phases.front().covered = true;
  const BakeRun under = after(foil, 18.0);
  CHECK(under.at_done.lightness[0] > bare.at_done.lightness[0] + 8.0);
  CHECK(under.at_done.weight_loss_pct[0] < 0.7 * bare.at_done.weight_loss_pct[0]);
}

TEST_CASE("In a water bath a tin's wall stays under boiling and its side pale") {
  const BakeRun dry = after(oven_of(OvenKind::conventional, 180.0 + k_celsius, "tin"), 45.0, 700.0,
                            PieceShape::tin_loaf);
  const BakeRun bath = after(oven_of(OvenKind::conventional, 180.0 + k_celsius, "water bath"), 45.0,
                             700.0, PieceShape::tin_loaf);
  CHECK(bath.at_done.base_k[0] - k_celsius < 100.0);
  CHECK(dry.at_done.base_k[0] - k_celsius > 110.0);
  CHECK(bath.at_done.base_lightness[0] > 80.0);
}

TEST_CASE("A covered pan on a flame bakes from below and leaves the top pale") {
  const BakeRun run = after(oven_of(OvenKind::none, 200.0 + k_celsius), 20.0);
  CHECK(run.at_done.lightness[0] > run.at_done.base_lightness[0] + 3.0);
  CHECK(core_celsius(run) > 80.0);
}

TEST_CASE("An oven that cannot be is said to be none") {
  Oven odd = oven_of(OvenKind::fan, 473.15);
  odd.phases.front().shade = 2.0;
  CHECK(!oven_problem(odd).empty());
}
