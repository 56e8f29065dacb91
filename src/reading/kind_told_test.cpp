// The kind of a thing told behind its amount, and messages that begin each line small. What they
// say; common practice, no source.
#include <doctest/doctest.h>

#include <string>

#include "support/reader.h"

using namespace maslin;
using reader::check_lines;
using reader::lines_of;
using reader::read;

TEST_CASE("the kind may stand behind the amount") {
  check_lines(
      "rolls\n\nFlour - 1 lb strong\nflour: 500 g wholemeal\nsugar 50g brown\nyeast 7g instant\n"
      "flour 1 lb (strong white)\nbutter 50 g melted\nwater 300 ml warm\n\nMix. Knead 10 "
      "minutes.\n",
      {{"strong_white_flour", 1, "lb"},
       {"wholemeal_flour", 500, "g"},
       {"brown_sugar_light", 50, "g"},
       {"instant_yeast", 7, "g"},
       {"strong_white_flour", 1, "lb"},
       {"butter", 50, "g"},
       {"water", 300, "ml"}});
}

TEST_CASE("what follows with an amount of its own tells no kind") {
  check_lines(
      "buns\n\nflour 500 g\nmilk 200 ml coconut 50 g\nyeast 7 g\n\nMix. Knead 10 minutes.\n",
      {{"plain_flour", 500, "g"},
       {"whole_milk", 200, "ml"},
       {"coconut_fresh", 50, "g"},
       {"instant_yeast", 7, "g"}});
}

TEST_CASE("more of the same for another use is no other thing") {
  const std::vector<Line> lines = lines_of(
      read("buns\n\nflour 500g\nsugar 1 oz + a tsp for the yeast\nyeast 1 oz\nwater 300 ml\n\n"
           "Mix and knead 10 mins.\n"));
  CHECK(lines.size() == 4);
}

TEST_CASE("a message that begins each line small has a step a line") {
  const Recipe recipe = read(
      "teacakes\n\nflour 1 lb\nyeast 1/2 oz\nmilk 300 ml\nsugar 1 oz\nsalt 1 tsp\n\n"
      "cream yeast with the tsp of sugar. rub lard in. mix, knead 10 mins\n"
      "leave an hour or til double\n"
      "prove again 40 mins under a teatowel\n"
      "hot oven 15-20 mins, brush w milk when they come out\n");
  double kneaded = 0.0;
  int proves = 0;
  bool baked = false;
  for (const Step& step : recipe.parts.front().steps) {
    kneaded += step.kind == StepKind::knead && step.minutes ? step.minutes->middle() : 0.0;
    proves += step.kind == StepKind::prove ? 1 : 0;
    baked = baked || (step.kind == StepKind::bake && step.minutes && step.minutes->low == 15.0);
  }
  CHECK(kneaded == 10.0);
  CHECK(proves == 2);
  CHECK(baked);
}

TEST_CASE("minutes and heats without their units") {
  const Recipe recipe = read(
      "rolls\n\nflour 500 g\nwater 300 ml\nyeast 7 g\nsalt 9 g\n\n"
      "knead 10, rise 1 hr, shape 12 rolls, rise 45 in pan, 350 for 30-35 (tent after 20)\n");
  const std::vector<Step>& steps = recipe.parts.front().steps;
  REQUIRE(steps.size() == 5);
  REQUIRE(steps[3].minutes.has_value());
  CHECK(steps[3].minutes->low == 45.0);
  CHECK(steps[4].kind == StepKind::bake);
  REQUIRE(steps[4].minutes.has_value());
  CHECK(steps[4].minutes->high == 35.0);
  REQUIRE(steps[4].celsius.has_value());
  CHECK(steps[4].celsius->low == doctest::Approx(176.7).epsilon(0.001));  // 350 F
}

TEST_CASE("a food that is also a verb tells its kind behind the amount") {
  check_lines(
      "rye buns\n\nflour 600g rye, sifted\nflour 400g bread, the shop had no other\nsalt tsp\n"
      "water 650 ml [needed 700]\nyeast 7g\n\nMix. Knead 10 minutes.\n",
      {{"rye_flour_medium", 600, "g"},
       {"strong_white_flour", 400, "g"},
       {"salt", 1, "tsp"},
       {"water", 700, "ml"},
       {"instant_yeast", 7, "g"}});
}
