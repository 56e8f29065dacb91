// The cut through a piece: its balances, and the column against it.
#include <doctest/doctest.h>

#include <cmath>

#include "bake/section.h"

using namespace maslin;

namespace {

struct Case {
  PieceShape shape;
  double grams, neighbours;
  const char* bakeware;
  double celsius, core;
  double off;  // how far the column's time may be from the cut's, share
};

Piece piece_of(const Case& c) {
  Piece p;
  p.shape = c.shape;
  p.mass_g = c.grams;
  p.neighbours = c.neighbours;
  p.porosity = 0.63;
  return p;
}

/// Minute at which the cut's coldest cell passes this, by straight lines between frames.
double minutes_to(const SectionRun& run, double core_k) {
  for (std::size_t i = 1; i < run.frames.size(); ++i) {
    const SectionFrame& a = run.frames[i - 1];
    const SectionFrame& b = run.frames[i];
    if (b.core_k >= core_k) {
      return a.minutes + (b.minutes - a.minutes) * (core_k - a.core_k) / (b.core_k - a.core_k);
    }
  }
  return -1.0;
}

}  // namespace

TEST_CASE("The column is done within seven per cent of the cut's time") {
  const Case cases[] = {{PieceShape::bun, 60.0, 0.0, "tray", 190.0, 91.0, 0.07},
                        {PieceShape::hearth, 454.0, 0.0, "tray", 220.0, 95.0, 0.07},
                        {PieceShape::cluster, 80.0, 4.0, "tray", 190.0, 91.0, 0.07},
                        {PieceShape::tin_loaf, 700.0, 0.0, "tin", 200.0, 95.0, 0.07}};
  for (const Case& c : cases) {
    const Piece p = piece_of(c);
    const Oven oven = oven_of(OvenKind::conventional, c.celsius + 273.15, c.bakeware);
    DoneRule rule;
    rule.core_k = c.core + 273.15;
    BakeUnknowns still;
    still.spring_factor = 0.0;
    const BakeRun column = bake_piece(p, oven, rule, still);
    SectionOptions options;
    for (double minute = 0.0; minute <= 1.3 * column.minutes_to_done[0]; minute += 0.5) {
      options.minutes.push_back(minute);
    }
    const SectionRun cut = bake_section(p, oven, still, options);
    REQUIRE(cut.problem.empty());
    const double minutes = minutes_to(cut, rule.core_k[0]);
    CAPTURE(piece_shape_name(c.shape));
    CAPTURE(column.minutes_to_done[0]);
    CAPTURE(minutes);
    CHECK(std::fabs(column.minutes_to_done[0] / minutes - 1.0) < c.off);
    CHECK(cut.mass_closure < 1e-11);
    CHECK(cut.energy_closure < 1e-11);
  }
}

TEST_CASE("The cut shows a dry brown crust, a wet crumb and a coldest place inside") {
  const Case bun{PieceShape::bun, 60.0, 0.0, "tray", 200.0, 91.0, 0.0};
  SectionOptions options;
  options.minutes = {0.0, 7.0, 14.0};
  const SectionRun run =
      bake_section(piece_of(bun), oven_of(OvenKind::conventional, 473.15), {}, options);
  REQUIRE(run.problem.empty());
  REQUIRE(run.frames.size() == 3);
  const SectionFrame& end = run.frames.back();
  const auto across = static_cast<std::size_t>(run.across);
  REQUIRE(end.temperature_k.size() == across * static_cast<std::size_t>(run.up));
  const std::size_t top = (static_cast<std::size_t>(run.up) - 1) * across;
  const std::size_t middle = static_cast<std::size_t>(run.up) / 2 * across;
  CHECK(end.water[top] < 0.3 * end.water[middle]);
  CHECK(end.temperature_k[top] > end.temperature_k[middle]);
  CHECK(end.lightness[top] < end.lightness[middle] - 3.0);
  CHECK(end.volume_ratio > 1.1);
  CHECK(end.weight_loss_pct > run.frames[1].weight_loss_pct);
  CHECK(end.core_k > run.frames[1].core_k);
}

TEST_CASE("A cut of what cannot be baked is a sentence") {
  Piece none;
  none.mass_g = 0.0;
  CHECK(!bake_section(none, oven_of(OvenKind::conventional, 473.15), {}).problem.empty());
}

namespace {

/// A quarter of a block of 80 by 80 mm and 92 g, all sides open, at 200 degrees.
SectionRun quarter(int across, int along, int up, double tolerance) {
  Piece p = piece_of({PieceShape::cluster, 92.0, 0.0, "tray", 0.0, 0.0, 0.0});
  p.length_mm = 80.0;
  p.width_mm = 80.0;
  SectionOptions options;
  options.across = across;
  options.along = along;
  options.up = up;
  options.tolerance = tolerance;
  options.minutes = {0.0, 14.0};
  return bake_section(p, oven_of(OvenKind::conventional, 473.15), {}, options);
}

}  // namespace

TEST_CASE("A quarter in three dimensions keeps heat and water, and hardly minds its steps") {
  const SectionRun usual = quarter(16, 12, 15, SectionOptions{}.tolerance);
  const SectionRun fine = quarter(16, 12, 15, 0.2);
  REQUIRE(usual.problem.empty());
  CHECK(usual.mass_closure < 1e-11);
  CHECK(usual.energy_closure < 1e-11);
  CHECK(std::fabs(usual.frames.back().core_k - fine.frames.back().core_k) < 0.1);
  CHECK(std::fabs(usual.frames.back().weight_loss_pct - fine.frames.back().weight_loss_pct) < 0.02);
}

TEST_CASE("A long quarter is its own cut") {
  // Ten times as long as wide: the plane in the middle does not see the ends.
  Piece p = piece_of({PieceShape::cluster, 920.0, 0.0, "tray", 0.0, 0.0, 0.0});
  p.length_mm = 800.0;
  p.width_mm = 80.0;
  SectionOptions options;
  options.minutes = {0.0, 12.0};
  const Oven oven = oven_of(OvenKind::conventional, 473.15);
  BakeUnknowns still;
  still.spring_factor = 0.0;
  const SectionRun cut = bake_section(p, oven, still, options);
  options.along = 8;
  const SectionRun solid = bake_section(p, oven, still, options);
  CHECK(solid.frames.back().core_k == doctest::Approx(cut.frames.back().core_k).epsilon(5e-4));
}
