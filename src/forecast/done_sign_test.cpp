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
  CHECK(rule_for(PieceShape::tin_loaf, "").by == DoneBy::loaf);
}

TEST_CASE("an enriched loaf need not lose a tenth of its weight") {
  PlannedBake bake;
  bake.shape = PieceShape::tin_loaf;
  CHECK(done_rule_of(bake, 363.15, true).by == DoneBy::core_and_colour);
  bake.until = "core 90 C";
  CHECK(done_rule_of(bake, 363.15, true).by == DoneBy::core);
}

TEST_CASE("a bun that sounds hollow is golden and dry beneath, not a small loaf") {
  const DoneRule bun = rule_for(PieceShape::bun, "they sound hollow when tapped");
  const DoneRule loaf = rule_for(PieceShape::hearth, "it sounds hollow when tapped");
  CHECK(bun.by == DoneBy::loaf);
  CHECK(bun.weight_loss_pct == 0.0);
  CHECK(loaf.weight_loss_pct == 10.0);
  CHECK(crust_of(bun.lightness) == Crust::golden);
  CHECK(crust_of(loaf.lightness) == Crust::brown);
  // A colour that is said as well rules.
  const DoneRule light = rule_for(PieceShape::cluster, "light golden and hollow");
  CHECK(light.lightness > bun.lightness);
  CHECK(light.by == DoneBy::loaf);
  // Crusty rolls of 72 g at 200 C: 20 to 25 minutes (scranzone.neocities.org, read).
  Piece piece;
  piece.mass_g = 72.0;
  const BakeRun run = bake_piece(piece, oven_of(OvenKind::conventional, 473.15), bun, {});
  CHECK(run.status == BakeStatus::done);
  CHECK(run.minutes_to_done[0] > 20.0);
  CHECK(run.minutes_to_done[0] < 25.0);
}

TEST_CASE("a flat bread is done when it is golden, one that is wanted soft when it is hot") {
  CHECK(rule_for(PieceShape::sheet, "").by == DoneBy::core_and_colour);
  PlannedBake pocket;
  pocket.shape = PieceShape::flat;
  pocket.soft = true;
  CHECK(done_rule_of(pocket, 365.15, false).by == DoneBy::core);
  // Under a topping no colour of the dough's can be seen, unless the recipe speaks of one.
  PlannedBake topped;
  topped.shape = PieceShape::sheet;
  CHECK(done_rule_of(topped, 365.15, true, true).by == DoneBy::core);
  topped.until = "golden";
  CHECK(done_rule_of(topped, 365.15, true, true).by == DoneBy::core_and_colour);
}

TEST_CASE("a stated core rules alone, if a crumb can have it") {
  const DoneRule rule = rule_for(PieceShape::tin_loaf, "core 94 C");
  CHECK(rule.by == DoneBy::core);
  CHECK(rule.core_k[0] == doctest::Approx(367.15));
  CHECK(rule_for(PieceShape::bun, "core 20 C").core_k[0] == doctest::Approx(365.15));
}
