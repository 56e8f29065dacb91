#include <doctest/doctest.h>

#include "dough/formula_doubts.h"
#include "dough/tin_fill.h"

using namespace maslin;

namespace {

DoughState sane_state() {
  DoughState state;
  state.has_flour = true;
  state.flour_g = 500.0;
  state.total_g = 850.0;
  state.water_pct_flour = 62.0;
  state.salt_pct_flour = 1.8;
  state.yeast_pct_flour = 1.4;
  state.protein_pct_flour = 11.5;
  state.fibre_pct_flour = 2.7;
  state.ph = 5.8;
  state.density_g_per_ml = 1.15;
  return state;
}

}  // namespace

TEST_CASE("a sachet of instant yeast for 500 g of flour is sane, 28 g is not") {
  // Common practice, no source: one 7 to 8 g sachet is plenty for 500 g.
  const auto ranges = formula_ranges();
  DoughState state = sane_state();
  CHECK(formula_doubts(ranges, "any", state).empty());
  state.yeast_pct_flour = 100.0 * 28.0 / 500.0;
  const auto doubts = formula_doubts(ranges, "any", state);
  REQUIRE(doubts.size() == 1);
  CHECK(doubts[0].what == "yeast");
  CHECK(doubts[0].likely.find("fresh yeast") != std::string::npos);
  CHECK(doubts[0].mend.find("17.5 g") != std::string::npos);
}

TEST_CASE("a tablespoon of salt written for a teaspoon is doubted, and so is none") {
  const auto ranges = formula_ranges();
  DoughState state = sane_state();
  state.salt_pct_flour = 6.0;
  CHECK(formula_doubts(ranges, "any", state).front().what == "salt");
  state.salt_pct_flour = 0.0;
  CHECK(formula_doubts(ranges, "any", state).front().likely.find("forgotten") != std::string::npos);
}

TEST_CASE("the title tells the kind, the longest word winning") {
  const auto ranges = formula_ranges();
  CHECK(formula_kind_of(ranges, "Hot Cross Buns") == "spiced buns");
  CHECK(formula_kind_of(ranges, "Grandmother's rolls") == "soft rolls");
  CHECK(formula_kind_of(ranges, "Something else") == "any");
}

TEST_CASE("a tin of 8 by 4 by 2.5 inches holds what a cook measured") {
  // 1333 mL as a box, 3 cups of flour: sea-of-flowers.ca (read); tapered it holds less.
  const Tin tin{"loaf", 203.2, 101.6, 63.5, 0.0, "", ""};
  CHECK(tin_volume_ml(tin) < 1333.0);
  CHECK(tin_volume_ml(tin) > 0.82 * 1333.0);
  const TinFill fill = fill_of(fill_ranges(), tin, sane_state(), 450.0);
  CHECK(fill.verdict == FillVerdict::right);
  CHECK(fill_of(fill_ranges(), tin, sane_state(), 1100.0).verdict == FillVerdict::too_much);
}

TEST_CASE("a tin without sizes has no verdict") {
  CHECK(fill_of(fill_ranges(), Tin{}, sane_state(), 500.0).verdict == FillVerdict::unknown);
}

TEST_CASE("a nine by thirteen tray takes twelve to fifteen touching buns") {
  // Common practice, no source: such a pan takes 12 pieces of 80 to 110 g, or 15.
  const Tin tin{"tray", 330.0, 230.0, 50.0, 0.0, "", ""};
  const int pieces = lay_pieces(tin, sane_state(), 95.0).touching_in_tray;
  CHECK(pieces >= 12);
  CHECK(pieces <= 15);
  CHECK(lay_pieces(tin, sane_state(), 140.0).touching_in_tray == 12);
  CHECK(lay_pieces(tin, sane_state(), 1e-30).touching_in_tray > 10'000);
}
