#include "forecast/done_sign.h"

#include <doctest/doctest.h>

using namespace maslin;

namespace {

DoneRule rule_for(PieceShape shape, const char* until) {
  PlannedBake bake;
  bake.shape = shape;
  bake.until = until;
  return done_rule_of(bake, 365.15, false);
}

}  // namespace

TEST_CASE("a recipe's words say when its pieces are baked") {
  CHECK(rule_for(PieceShape::bun, "golden").by == DoneBy::core_and_colour);
  CHECK(rule_for(PieceShape::bun, "Golden brown").lightness <
        rule_for(PieceShape::bun, "light golden").lightness);
  CHECK(rule_for(PieceShape::bun, "").by == DoneBy::core);
  CHECK(rule_for(PieceShape::bun, "they sound hollow when tapped").by == DoneBy::loaf);
  CHECK(rule_for(PieceShape::tin_loaf, "").by == DoneBy::loaf);
}

TEST_CASE("an enriched loaf need not lose a tenth of its weight") {
  PlannedBake bake;
  bake.shape = PieceShape::tin_loaf;
  CHECK(done_rule_of(bake, 363.15, true).by == DoneBy::core_and_colour);
  bake.until = "core 90 C";
  CHECK(done_rule_of(bake, 363.15, true).by == DoneBy::core);
}

TEST_CASE("a stated core rules alone, if a crumb can have it") {
  const DoneRule rule = rule_for(PieceShape::tin_loaf, "core 94 C");
  CHECK(rule.by == DoneBy::core);
  CHECK(rule.core_k[0] == doctest::Approx(367.15));
  CHECK(rule_for(PieceShape::bun, "core 20 C").core_k[0] == doctest::Approx(365.15));
}
