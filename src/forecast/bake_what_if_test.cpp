#include "forecast/bake_what_if.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

using namespace maslin;

namespace {

BatchOutcome baked(PieceShape shape, double grams, double celsius) {
  DrawnBake bake;
  bake.piece.shape = shape;
  bake.piece.mass_g = grams;
  bake.oven = oven_of(OvenKind::conventional, celsius + k_zero_celsius_k,
                      shape == PieceShape::tin_loaf ? "tin" : "tray");
  bake.minutes_to_done =
      bake_piece(bake.piece, bake.oven, bake.rule, bake.unknowns).minutes_to_done;
  BatchOutcome out;
  out.bake = bake;
  return out;
}

const BakeWhatIf& named(const BakeWhatIfs& all, const std::string& words) {
  const auto found = std::find_if(all.others.begin(), all.others.end(),
                                  [&](const BakeWhatIf& one) { return one.what.find(words) == 0; });
  REQUIRE_MESSAGE(found != all.others.end(), words);
  return *found;
}

}  // namespace

TEST_CASE("the bake's what-ifs go the way a baker knows") {
  const BakeWhatIfs bun = bake_what_ifs(baked(PieceShape::bun, 80.0, 190.0));
  REQUIRE(bun.problem.empty());
  const double now = bun.as_it_is.minutes;
  CHECK(named(bun, "half as heavy").minutes < named(bun, "a quarter lighter").minutes);
  CHECK(named(bun, "a quarter lighter").minutes < now);
  CHECK(named(bun, "twice as heavy").minutes > named(bun, "a quarter heavier").minutes);
  CHECK(named(bun, "the oven at 210").minutes < now);
  CHECK(named(bun, "the oven at 170").minutes > now);
  CHECK(named(bun, "bright tray").minutes > named(bun, "dark tray").minutes);
  CHECK(named(bun, "two trays").minutes > now);
  CHECK(named(bun, "straight from the fridge").minutes > now);
  // Shaped rolls from the freezer take about half as long again: common practice, no source.
  CHECK(named(bun, "straight from the freezer").minutes > 1.25 * now);
  CHECK(named(bun, "straight from the freezer").minutes < 1.8 * now);
  // The second bake is shorter than the whole one and drier than one bake to that colour.
  const BakeWhatIf& again = named(bun, "baked again");
  CHECK(again.problem.empty());
  CHECK(again.minutes > 3.0);
  CHECK(again.minutes < now);
  CHECK(again.weight_loss_pct > named(bun, "left in until golden").weight_loss_pct);
  // A fan 20 degrees cooler bakes about as long: common practice, no source.
  CHECK(std::fabs(named(bun, "with the fan").minutes / now - 1.0) < 0.2);
  CHECK(named(bun, "left in until brown").minutes > named(bun, "left in until light gold").minutes);
  CHECK(named(bun, "par-baked").lightness > named(bun, "left in until golden").lightness);
  REQUIRE(bun.for_golden);
  CHECK(bun.for_golden->problem.empty());
  CHECK(bun.for_golden->celsius > 150.0);
  CHECK(bun.for_golden->celsius < 280.0);
  REQUIRE(bun.last_minute_before_dry);
  CHECK(*bun.last_minute_before_dry > now);
  const BakeWhatIfs loaf = bake_what_ifs(baked(PieceShape::tin_loaf, 800.0, 200.0));
  CHECK(named(loaf, "bright tin").minutes > named(loaf, "dark tin").minutes);
  // The same dough stands higher in a smaller tin.
  CHECK(named(loaf, "a smaller tin").minutes > loaf.as_it_is.minutes);
  CHECK(named(loaf, "a larger tin").minutes < loaf.as_it_is.minutes);
  CHECK(!bake_what_ifs(BatchOutcome{}).problem.empty());
}
