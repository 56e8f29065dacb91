#include "adjust/next_trial.h"

#include <doctest/doctest.h>

#include <algorithm>

#include <cmath>

#include "support/larder.h"

using namespace maslin;

namespace {

Recipe buns(double milk, double sugar) {
  Recipe recipe;
  recipe.title = "Milk buns";
  Part dough;
  dough.name = "dough";
  dough.lines = {weighed_line("plain_flour", 500), weighed_line("whole_milk", milk),
                 weighed_line("butter", 40),       weighed_line("caster_sugar", sugar),
                 weighed_line("instant_yeast", 6), weighed_line("salt", 8)};
  recipe.parts = {dough};
  return recipe;
}

/// A baker who likes these buns best at 70 g of sugar.
double liking(double sugar) {
  const double off = (sugar - 70.0) / 40.0;
  return 0.9 - 0.4 * off * off;
}

double sugar_in(const Recipe& recipe) {
  return recipe.parts[0].lines[3].grams.p50();
}

}  // namespace

TEST_CASE("two scores are too few, and bakes that are alike teach nothing") {
  NextTrialRequest request;
  request.bakes = {{buns(300, 40), 0.5}, {buns(300, 50), 0.6}};
  CHECK(next_trial(request, whole_pantry()).problem.find("Three bakes") == 0);
  request.bakes = {{buns(300, 40), 0.5}, {buns(300, 40), 0.6}, {buns(300, 40), 0.7}};
  CHECK(next_trial(request, whole_pantry()).problem.find("differ in no amount") !=
        std::string::npos);
}

TEST_CASE("bake after bake the proposals come to what the baker likes best") {
  NextTrialRequest request;
  for (const double sugar : {20.0, 35.0, 50.0}) {
    request.bakes.push_back({buns(300, sugar), liking(sugar)});
  }
  for (int bake = 0; bake < 6; ++bake) {
    const NextTrial next = next_trial(request, whole_pantry());
    REQUIRE(next.problem.empty());
    REQUIRE(next.adjustment.met);
    const double sugar = sugar_in(next.adjustment.recipe);
    request.bakes.push_back({next.adjustment.recipe, liking(sugar)});
  }
  double best = 0.0;
  for (const ScoredBake& bake : request.bakes) {
    best = std::max(best, bake.score);
  }
  CHECK(best > 0.87);  // of 0.9; the first three had 0.8 at most
}

TEST_CASE("a proposal says why, keeps the limits and is made by adjust") {
  NextTrialRequest request;
  for (const double sugar : {20.0, 35.0, 50.0}) {
    request.bakes.push_back({buns(300, sugar), liking(sugar)});
  }
  request.limits = {{"sugar_pct_flour", 6.0, 11.0}};
  const NextTrial next = next_trial(request, whole_pantry());
  // Sugar is what was turned; the water follows it only by what the milk is of the whole.
  REQUIRE(std::any_of(next.changes.begin(), next.changes.end(), [](const ChangedAmount& change) {
    return change.figure == "sugar_pct_flour";
  }));
  CHECK(next.best_bake == 2);
  CHECK((next.reason.starts_with("To do better") || next.reason.starts_with("To learn")));
  for (const ChangedAmount& change : next.changes) {
    if (change.figure == "sugar_pct_flour") {
      CHECK(change.to >= 6.0);
      CHECK(change.to <= 11.0);
      CHECK(change.to > 10.0);  // more sugar was liked, and this is as far as the limit lets it
    }
  }
  CHECK_FALSE(next.adjustment.changes.empty());
  CHECK(parse_limit("sugar_pct_flour=10..20").limit.has_value());
  for (const char* bad : {"sugar=10..20", "sugar_pct_flour=20..10", "sugar_pct_flour", ""}) {
    CHECK_FALSE(parse_limit(bad).problem.empty());
  }
}
