// Styles of pages that nobody here wrote: each a rule, said in the least text that shows it.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "support/reader.h"

using namespace maslin;
using reader::check_lines;
using reader::read;

TEST_CASE("what is said of two things is halved, and what is mixed with one is a line of its own") {
  check_lines("8 oz flour\n3oz mixed peel & currants\n2 eggs w/ 1 tbsp milk\n",
              {{"plain_flour", 8, "oz"},
               {"mixed_peel", 1.5, "oz"},
               {"currants", 1.5, "oz"},
               {"egg", 2, ""},
               {"whole_milk", 1, "tbsp"}});
  check_lines("5 cups flour\n2t baking soda in 1C water\n",
              {{"plain_flour", 5, "cup"}, {"bicarbonate_of_soda", 2, "tsp"}, {"water", 1, "cup"}});
}

TEST_CASE("water that only a step names is not forgotten") {
  for (const char* step :
       {"Pour in 1 cup warm water and mix.", "Add enough water to make a soft dough."}) {
    CAPTURE(step);
    const Recipe loaf = read("500 g flour\n7 g instant yeast\n10 g salt\n\n" + std::string(step) +
                             "\nBake at 220 C for 30 minutes.\n");
    REQUIRE(!loaf.parts.empty());
    const std::vector<Line>& lines = loaf.parts[0].lines;
    CHECK(std::any_of(lines.begin(), lines.end(),
                      [](const Line& line) { return line.ingredient_id == "water"; }));
  }
}

TEST_CASE("a dough left warm until it has doubled proves, and @ stands before a heat") {
  const Recipe loaf = read(
      "500 g flour\n300 g water\n7 g instant yeast\n10 g salt\n\nKnead. Leave in a warm place "
      "until doubled.\nBake 20 min @ 230\n");
  REQUIRE(!loaf.parts.empty());
  const std::vector<Step>& steps = loaf.parts[0].steps;
  CHECK(std::any_of(steps.begin(), steps.end(),
                    [](const Step& step) { return step.kind == StepKind::prove; }));
  CHECK(std::any_of(steps.begin(), steps.end(), [](const Step& step) {
    return step.kind == StepKind::bake && step.celsius &&
           step.celsius->low == doctest::Approx(230.0);
  }));
  const Recipe night = read(
      "500 g flour\n300 g water\n3 g instant yeast\n10 g salt\n\nKnead. Overnight, 12 hours, in "
      "the fridge. Bake at 230 C for 30 minutes.\n");
  REQUIRE(!night.parts.empty());
  const std::vector<Step>& over = night.parts[0].steps;
  CHECK(std::count_if(over.begin(), over.end(),
                      [](const Step& step) { return step.kind == StepKind::prove; }) == 1);
}

TEST_CASE("rows whose name, amount and remark are lines of their own") {
  check_lines(
      "Granulated sugar\n\xC2\xBD cup\nSweetness base\nSour cream (room temp)\n\xC2\xBD cup\nKeeps "
      "the crumb tender\nAll-purpose flour\n1\xC2\xBD cups\nSpooned and leveled\nBaking soda\n"
      "\xC2\xBD tsp\nGives lift\n",
      {{"granulated_sugar", 0.5, "cup"},
       {"soured_cream", 0.5, "cup"},
       {"plain_flour", 1.5, "cup"},
       {"bicarbonate_of_soda", 0.5, "tsp"}});
  check_lines("10 | oz | Flour |\n4 | oz | Lard |\n1/2 | ts | Bicarbonate |\n",
              {{"plain_flour", 10, "oz"}, {"lard", 4, "oz"}, {"bicarbonate_of_soda", 0.5, "tsp"}});
}

TEST_CASE("what is said of a thing may follow it, and a flour may be quoted") {
  check_lines("500 g flour\n2 tsp salt, coarse\n250 g \"00\" flour\n",
              {{"plain_flour", 500, "g"}, {"coarse_salt", 2, "tsp"}, {"farina_00", 250, "g"}});
}

TEST_CASE("a letter may be an egg's size") {
  check_lines("500 g flour\n1 L egg\n", {{"plain_flour", 500, "g"}, {"egg", 1, ""}});
}

TEST_CASE("a bracket may say the amount in more ways than one") {
  check_lines(
      "3 cups flour\n2 tsp (1 packet / 7g) instant yeast\n\xC2\xBC cup (4 tbsp; 56 g) "
      "butter\n1 cup packed (7 ounces) brown sugar\n",
      {{"plain_flour", 3, "cup"},
       {"instant_yeast", 7, "g"},
       {"butter", 56, "g"},
       {"brown_sugar_light", 7, "oz"}});
}

TEST_CASE("a topping in the title is no part") {
  const Recipe muffins = read(
      "Muffins with Almond Streusel\n2 cups flour\n1 egg\n7 tbsp cold butter, cut into small "
      "cubes\n\nBake at 200 C for 20 minutes.\n");
  REQUIRE(muffins.parts.size() == 1);
  CHECK(muffins.parts[0].kind == PartKind::dough);
  CHECK(muffins.parts[0].lines.size() == 3);
}
