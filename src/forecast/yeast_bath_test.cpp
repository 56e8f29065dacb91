#include "forecast/yeast_bath.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "forecast/forecast.h"
#include "support/larder.h"

using namespace maslin;

namespace {

Step mix(const char* text, double minutes = 0.0) {
  Step out;
  out.text = text;
  out.minutes = minutes > 0.0 ? std::optional(Range{minutes, minutes}) : std::nullopt;
  return out;
}

Recipe milk_dough(const char* milk, std::vector<Step> steps) {
  Recipe recipe;
  Part dough;
  dough.name = "dough";
  dough.lines = {weighed_line("plain_flour", 500), weighed_line("whole_milk", 300),
                 weighed_line("instant_yeast", 7), weighed_line("salt", 8)};
  dough.lines[1].text = milk;
  dough.steps = std::move(steps);
  Step prove;
  prove.kind = StepKind::prove;
  prove.text = "Prove.";
  prove.until = "doubled";
  dough.steps.push_back(prove);
  recipe.parts = {dough};
  return recipe;
}

double chance_doubled(const Recipe& recipe) {
  ForecastOptions options;
  options.draws = 64;
  options.reach = ForecastReach::rise;
  const ForecastRun run = run_forecast(set_up_forecast(recipe, {}, whole_pantry(), options));
  return run.ensemble.mean(*run.ensemble.column("prove/0/reached"));
}

}  // namespace

TEST_CASE("the heat of a liquid is read off its words, and cups are no degrees") {
  CHECK(*liquid_celsius("660 g water at 30C") == doctest::Approx(30.0));
  CHECK(*liquid_celsius("1 cup milk, 110 °F") == doctest::Approx(43.33).epsilon(0.001));
  CHECK(*liquid_celsius("300 ml boiling water") == doctest::Approx(98.0));
  CHECK(*liquid_celsius("Hot milk, 300 ml") == doctest::Approx(60.0));
  for (const char* words : {"2 c milk", "300 ml milk", "1 1/2 c. water",
                            "boiling water, cooled to tepid", "scalded milk", "water 4 C"}) {
    CAPTURE(words);
    CHECK(!liquid_celsius(words));
  }
}

TEST_CASE("yeast stirred into hot milk meets it, into cooled milk or with the flour it does not") {
  const auto bath = [](const char* milk, std::vector<Step> steps) {
    return yeast_bath(milk_dough(milk, std::move(steps)));
  };
  REQUIRE(bath("300 ml milk", {mix("Heat the milk to 60 C."), mix("Stir in the yeast.")}));
  CHECK(bath("300 ml milk", {mix("Heat the milk to 60 C."), mix("Stir in the yeast.")})->celsius ==
        60.0);
  CHECK(
      bath("300 ml milk", {mix("Heat the milk to 60 C and stir in the yeast. Mix in the flour.")}));
  CHECK(bath("300 ml hot milk", {mix("Dissolve the yeast in it.", 5.0)})->minutes == 5.0);
  CHECK(!bath("300 ml hot milk", {mix("Dissolve the yeast in it.")})->stated);
  CHECK(!bath("300 ml hot milk", {mix("Dissolve the yeast in the warm water.")}));
  CHECK(!bath("300 ml milk (110 F)", {mix("Dissolve the yeast in it.")}));
  CHECK(!bath("300 ml milk",
              {mix("Heat the milk to 60 C."), mix("Let it cool."), mix("Stir in the yeast.")}));
  CHECK(!bath("300 ml milk", {mix("Heat the milk to 38 C and add the yeast.")}));
  CHECK(!bath("300 ml hot milk", {mix("Mix flour, yeast and salt."), mix("Add the milk.")}));
  CHECK(!bath("300 ml milk", {mix("Add the yeast to the milk.")}));
}

TEST_CASE("a dough whose yeast stood in milk at 60 C does not rise, in milk at 38 C it does") {
  // Dies at 60 C, unharmed below 43 C: docs/models/rise.md.
  const Recipe hot =
      milk_dough("300 ml milk", {mix("Heat the milk to 60 C."), mix("Stir in the yeast.")});
  CHECK(chance_doubled(hot) < 0.05);
  CHECK(chance_doubled(milk_dough("300 ml milk at 38 C", {mix("Stir in the yeast.")})) > 0.95);
  const ForecastSetup setup = set_up_forecast(hot, {}, whole_pantry(), {});
  const auto said = [](const Doubt& one) { return one.text.find("60 °C") != std::string::npos; };
  CHECK(std::count_if(setup.doubts.begin(), setup.doubts.end(), said) == 1);
}
