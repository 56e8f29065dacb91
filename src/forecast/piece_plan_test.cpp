#include "forecast/piece_plan.h"

#include <doctest/doctest.h>

using namespace maslin;

namespace {

PlannedBake planned(const char* title, const char* steps, double grams, double minutes,
                    double by_steps = 0.0, double by_yield = 0.0) {
  PieceHints hints;
  hints.title = title;
  hints.steps = steps;
  hints.dough_grams = grams;
  hints.oven_minutes = minutes;
  hints.by_steps = by_steps;
  hints.by_yield = by_yield;
  PlannedBake out;
  plan_piece_by(hints, out);
  return out;
}

}  // namespace

// All of it common practice, no source.

TEST_CASE("words of the title name the shape, those of the steps where it does not") {
  CHECK(planned("milk buns", "bake in a loaf tin", 900, 15).pieces == 12.0);
  CHECK(planned("supper bread", "shape into rolls", 900, 15).shape == PieceShape::tin_loaf);
  CHECK(planned("for tea", "shape into rolls", 650, 15).pieces == 10.0);
}

TEST_CASE("a verb or another food is no shape") {
  CHECK(planned("for tea", "roll out; bread flour for the board", 800, 40).shape !=
        PieceShape::bun);
  CHECK(planned("oat bread with rolled oats", "", 500, 55).shape == PieceShape::tin_loaf);
}

TEST_CASE("where nothing is said the minutes in the oven tell one large piece from many small") {
  CHECK(planned("barley farmhouse", "set it on a floured tray", 850, 40).pieces == 1.0);
  CHECK(planned("barley farmhouse", "set it on a floured tray", 850, 40).shape ==
        PieceShape::hearth);
  CHECK(planned("from my aunt", "in a buttered tin", 850, 40).shape == PieceShape::tin_loaf);
  CHECK(planned("from my aunt", "", 850, 14).pieces == 11.0);
  CHECK(planned("white soda bread and scones", "", 870, 45).shape == PieceShape::tin_loaf);
  CHECK(planned("fruit cake", "", 2600, 240).pieces == 1.0);
}

TEST_CASE("a number that cannot be meant is doubted, one that can is kept") {
  PieceHints hints;
  hints.title = "buns";
  hints.dough_grams = 900;
  hints.oven_minutes = 12;
  hints.by_yield = 1;
  PlannedBake bake;
  const std::vector<Doubt> doubts = plan_piece_by(hints, bake);
  CHECK(bake.pieces == 12.0);
  REQUIRE(doubts.size() == 1);
  CHECK(doubts[0].why.find("1 is said") == 0);
  CHECK(planned("buns", "", 900, 12, 0, 9).pieces == 9.0);
  CHECK(planned("tear-and-share bun", "", 900, 40, 0, 1).pieces == 1.0);
}
