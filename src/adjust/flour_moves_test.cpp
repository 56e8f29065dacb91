// Swaps that carry flour and liquid with them. How much starter, yeast or cooked flour is usual is
// common practice, no source (data/leavens.tsv, data/pastes.tsv).
#include "adjust/flour_moves.h"

#include <doctest/doctest.h>

#include <string>

#include "adjust/adjust.h"
#include "adjust/want_words.h"
#include "forecast/forecast.h"
#include "forecast/summary.h"
#include "support/larder.h"

using namespace maslin;

namespace {

Recipe milk_rolls() {
  Recipe out;
  out.title = "Milk rolls";
  Part dough;
  dough.name = "dough";
  dough.lines = {weighed_line("strong_white_flour", 400.0),
                 weighed_line("whole_milk", 260.0),
                 weighed_line("caster_sugar", 40.0),
                 weighed_line("butter", 40.0),
                 weighed_line("salt", 7.0),
                 weighed_line("instant_yeast", 5.0)};
  out.parts = {dough};
  out.pieces = Range{10.0, 10.0};
  return out;
}

Adjustment wanting(const Recipe& recipe, const std::string& words) {
  const SaidWants said = wants_from_words(words);
  REQUIRE_MESSAGE(said.problem.empty(), said.problem);
  AdjustRequest request;
  request.wants = said.wants;
  return adjust_recipe(recipe, whole_pantry(), request);
}

ForecastSummary forecast_of(const Recipe& recipe) {
  ForecastOptions options;
  options.draws = 64;
  const ForecastSetup setup = set_up_forecast(recipe, {}, whole_pantry(), options);
  return summarise(setup, run_forecast(setup));
}

}  // namespace

TEST_CASE("a starter for yeast brings its flour and water and takes as much out") {
  const Adjustment out = wanting(milk_rolls(), "sourdough starter instead of yeast");
  REQUIRE(out.met);
  CHECK(grams_of(out.recipe, "instant_yeast") == 0.0);
  const double starter = grams_of(out.recipe, "sourdough_starter");
  CHECK(starter == doctest::Approx(80.0).epsilon(0.02));
  // Half of it is flour and half water, by the pantry's composition.
  CHECK(grams_of(out.recipe, "strong_white_flour") + 0.5 * starter ==
        doctest::Approx(400.0).epsilon(0.03));
  CHECK(grams_of(out.recipe, "whole_milk") < 240.0);
  const ForecastSummary before = forecast_of(milk_rolls());
  const ForecastSummary after = forecast_of(out.recipe);
  CHECK(after.dough->feel_words == before.dough->feel_words);
  CHECK(after.proves[0].minutes.p50 > 2.0 * before.proves[0].minutes.p50);
}

TEST_CASE("and yeast for a starter puts them back") {
  const Recipe sour = wanting(milk_rolls(), "sourdough starter instead of yeast").recipe;
  const Adjustment back = wanting(sour, "instant yeast instead of starter");
  REQUIRE(back.met);
  CHECK(grams_of(back.recipe, "sourdough_starter") == 0.0);
  CHECK(grams_of(back.recipe, "instant_yeast") == doctest::Approx(4.0).epsilon(0.05));
  CHECK(grams_of(back.recipe, "strong_white_flour") == doctest::Approx(400.0).epsilon(0.03));
  CHECK(grams_of(back.recipe, "whole_milk") == doctest::Approx(260.0).epsilon(0.06));
}

TEST_CASE(
    "a part of the flour cooked to a paste makes the recipe wetter and not the dough softer") {
  const Adjustment out = wanting(milk_rolls(), "tangzhong");
  REQUIRE(out.met);
  REQUIRE(out.recipe.parts.size() == 2);
  CHECK(out.recipe.parts[0].kind == PartKind::soaker);
  CHECK(out.recipe.parts[0].lines[0].grams.p50() == doctest::Approx(24.0));
  CHECK(out.recipe.parts[0].lines[1].grams.p50() == doctest::Approx(120.0));
  CHECK(grams_of(out.recipe, "strong_white_flour") == doctest::Approx(400.0).epsilon(0.01));
  CHECK(grams_of(out.recipe, "whole_milk") > 300.0);
  CHECK(forecast_of(out.recipe).dough->feel_words == forecast_of(milk_rolls()).dough->feel_words);
  CHECK(!cook_paste(out.recipe, whole_pantry(), *paste_called("tangzhong"), 6.0).problem.empty());
}

TEST_CASE("flour cooked in the recipe counts as the pantry's paste does") {
  // A paste of 5 flour and 25 water makes a dough about 12 points firmer: common practice.
  Recipe cooked = milk_rolls();
  cooked.parts[0].lines[0] = weighed_line("strong_white_flour", 375.0);
  cooked.parts[0].lines[1] = weighed_line("whole_milk", 135.0);
  Part paste;
  paste.kind = PartKind::soaker;
  paste.name = "water roux";
  paste.lines = {weighed_line("strong_white_flour", 25.0), weighed_line("whole_milk", 125.0)};
  cooked.parts.push_back(paste);
  const double firmer = forecast_of(milk_rolls()).dough->effective_hydration.p50 -
                        forecast_of(cooked).dough->effective_hydration.p50;
  CHECK(firmer == doctest::Approx(14.0).epsilon(0.25));
  // Soaked cold it is flour and milk like any other.
  cooked.parts[1].name = "soak";
  const double cold = forecast_of(cooked).dough->effective_hydration.p50;
  CHECK(cold == doctest::Approx(forecast_of(milk_rolls()).dough->effective_hydration.p50));
}

TEST_CASE("a share of one food for another leaves the rest") {
  const Adjustment out = wanting(milk_rolls(), "30 % wholemeal");
  REQUIRE(out.met);
  CHECK(grams_of(out.recipe, "strong_white_flour") == doctest::Approx(280.0));
  CHECK(grams_of(out.recipe, "wholemeal_flour") == doctest::Approx(120.0));
  const Adjustment oil = wanting(milk_rolls(), "half the butter for oil");
  CHECK(grams_of(oil.recipe, "butter") == doctest::Approx(20.0).epsilon(0.05));
  CHECK(grams_of(oil.recipe, "sunflower_oil") > 14.0);
}

TEST_CASE("what an earlier want took out need not be there for a later one") {
  const Adjustment out = wanting(milk_rolls(), "no milk, no butter");
  CHECK(out.problem.empty());
  CHECK(grams_of(out.recipe, "butter") == 0.0);
  CHECK(wanting(milk_rolls(), "no lard").problem.find("no weighed") != std::string::npos);
}

TEST_CASE(
    "a word that is neither want nor food gets the sentence, a food of no kind there another") {
  CHECK(wanting(milk_rolls(), "zorgle").problem == not_a_want("zorgle"));
  CHECK(wanting(milk_rolls(), "raisins").problem.find("say what it goes in for") !=
        std::string::npos);
}

TEST_CASE("a tin named in the want is the tin that is filled") {
  AdjustRequest request;
  request.wants = wants_from_words("fits a 23 x 13 x 7 cm loaf tin").wants;
  request.tin = Tin{"loaf", 230.0, 130.0, 70.0, 0.0, "", ""};
  const Adjustment out = adjust_recipe(milk_rolls(), whole_pantry(), request);
  REQUIRE(out.met);
  CHECK(out.recipe.tin == request.tin);
  CHECK(out.recipe.parts[0].lines[0].grams.p50() != 400.0);
}
