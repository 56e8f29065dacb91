// What pages found by plain words taught: amounts that went to the wrong thing, headings, tables.
// What they say; common practice, no source.
#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "support/reader.h"

using namespace maslin;
using reader::check_lines;
using reader::lines_of;
using reader::read;

namespace {

const Part* part_named(const Recipe& recipe, const std::string& name) {
  for (const Part& part : recipe.parts) {
    if (part.name == name) {
      return &part;
    }
  }
  return nullptr;
}

}  // namespace

TEST_CASE("one more for another use takes nothing from the dough") {
  for (const std::string said :
       {"2 eggs and one for brushing", "2 eggs, 1 for brushing", "2 eggs + another to glaze"}) {
    CAPTURE(said);
    const Recipe recipe =
        read("buns\n\n500 g flour\n" + said + "\n7 g yeast\n\nMix. Knead 10 minutes.\n");
    REQUIRE(recipe.parts.size() == 1);
    CHECK(recipe.parts.front().lines.at(1).ingredient_id == "egg");
    CHECK(recipe.parts.front().lines.at(1).found.number->low == 2.0);
  }
  // In other languages: two in the dough.
  for (const std::string said : {"Bollos\n\n500 g harina\n2 huevos y 1 para pintar\n",
                                 "Zopf\n\n500 g Mehl\n2 Eier und eins "
                                 "zum Bestreichen\n",
                                 "Brioches\n\n500 g farine\n2 oeufs et un pour dorer\n"}) {
    CAPTURE(said);
    const Recipe recipe = read(said);
    REQUIRE(recipe.parts.size() == 1);
    CHECK(recipe.parts.front().lines.size() == 2);
  }
}

TEST_CASE("what leads a line is said of all of it") {
  const Recipe recipe = read(
      "plait\n\n500 g flour, 7 g yeast, 250 ml milk\nFor brushing 1 egg yolk + 1 tbsp milk\n\nMix, "
      "knead 8 min.\n");
  REQUIRE(recipe.parts.size() == 2);
  CHECK(recipe.parts[0].lines.size() == 3);
  CHECK(recipe.parts[1].lines.size() == 2);
}

TEST_CASE("a food that nobody knows keeps its amount, and so do those after it") {
  check_lines(
      "girda\n\nMaida\n1/2 kg\nSifted Blorp\n1/2 kg\nGhee\n2 tbsp\nFine Sugar\n1 tbsp\nSalt\n1 "
      "tsp\n\nKnead 10 minutes.\n",
      {{"maida", 0.5, "kg"},
       {"", 0.5, "kg"},
       {"ghee", 2, "tbsp"},
       {"caster_sugar", 1, "tbsp"},
       {"salt", 1, "tsp"}});
}

TEST_CASE("numbered headings over rows open their parts, and one led to is filled in") {
  const Recipe recipe = read(
      "Rolls\n\nIngredients\n\n1.For the Dough:\n\n- 1 cup milk\n- 4 cups flour\n\n2. "
      "Filling:\n\n- 1/2 cup butter\n- 1 cup brown sugar\n\nFor the pesto\n- 2 cloves garlic\n- "
      "1/4 "
      "cup olive oil\n\nMethod\n1. Mix. Knead 10 minutes.\n");
  const Part* const filling = part_named(recipe, "filling");
  REQUIRE(filling != nullptr);
  CHECK(filling->lines.size() == 2);
  const Part* const pesto = part_named(recipe, "pesto");
  REQUIRE(pesto != nullptr);
  CHECK(pesto->kind == PartKind::filling);
}

TEST_CASE("tables that a page set in one line, and columns that stop and go on") {
  check_lines(
      "Atta bread\nThe table tells the amounts:| Ingredient | Measure "
      "||\xE2\x80\x94|\xE2\x80\x94|| "
      "Atta flour | 3 cups || Water | 1 1/2 cups || Salt | 1 teaspoon || Oil | 2 tablespoons "
      "|\n\nKnead "
      "10 minutes.\n",
      {{"atta", 3, "cup"},
       {"water", 1.5, "cup"},
       {"salt", 1, "tsp"},
       {"sunflower_oil", 2, "tbsp"}});
  const Recipe two = read(
      "Rolls\n\nDough                          Filling\n"
      "1 3/4 c flour                  1/4 c brown sugar\n"
      "1 tsp instant yeast            1 tbsp cinnamon\n"
      "2 tbsp sugar                   3 tbsp butter\n"
      "1/2 tsp salt\n"
      "1/2 c milk                     1 tsp vanilla\n\nKnead 8 min.\n");
  const Part* const filling = part_named(two, "filling");
  REQUIRE(filling != nullptr);
  CHECK(filling->lines.size() == 4);
  CHECK(two.parts.front().lines.size() == 5);
}

TEST_CASE("short forms that lost their flour, or weighed fifty knobs of butter") {
  check_lines(
      "buns\n\nstrong white 450g (mill)\nmilk 225 ml\nbutter 50\ncaster 40\nsalt 3/4 tsp\nfast "
      "yeast 1 1/2 tsp\n\nKnead 10 minutes.\n",
      {{"strong_white_flour", 450, "g"},
       {"whole_milk", 225, "ml"},
       {"butter", 50, "g"},
       {"caster_sugar", 40, "g"},
       {"salt", 0.75, "tsp"},
       {"instant_yeast", 1.5, "tsp"}});
}

TEST_CASE("so much each, so many of so much, a cup's own size, cubic centimetres") {
  const std::vector<Line> lines = lines_of(
      read("buns\n\n4 cups flour (250 ml cup)\n2 packets dry yeast (7 g each)\n3 - 1 lb tins "
           "tomatoes\n150 c.c. of milk\n120 g oil and salt\n\nKnead 10 minutes.\n"));
  REQUIRE(lines.size() == 6);
  CHECK(lines[0].found.unit == "cup");
  REQUIRE(lines[1].weighed);
  CHECK(lines[1].grams.p50() == doctest::Approx(14.0));
  CHECK(lines[3].found.unit == "ml");
  REQUIRE(lines[4].weighed);
  CHECK(lines[4].grams.p50() == doctest::Approx(120.0));
}

TEST_CASE("the writer's own amount where none is stated") {
  const std::vector<Line> lines =
      lines_of(read("buns\n\n1 cup milk\n7 g yeast\n1 tsp salt\nflour as needed (I used 4 "
                    "cups)\n\nKnead 10 minutes.\n"));
  REQUIRE(lines.size() == 4);
  CHECK(lines[3].found.unit == "cup");
  REQUIRE(lines[3].found.number.has_value());
  CHECK(lines[3].found.number->low == 4.0);
}

TEST_CASE("what one of the containers holds is told in a bracket") {
  const std::vector<Line> lines = lines_of(
      read("buns\n\n500 g flour\n1/2 jar marmalade (thick cut, 454g jar)\n1/2 tin (400 g tin) "
           "tomatoes\n2 jars jam (340 g jars)\n1 jar honey (340 g)\n\nKnead 10 minutes.\n"));
  REQUIRE(lines.size() == 5);
  CHECK(lines[1].grams.p50() == doctest::Approx(227.0));
  CHECK(lines[2].grams.p50() == doctest::Approx(200.0));
  CHECK(lines[3].grams.p50() == doctest::Approx(680.0));
  CHECK(lines[4].grams.p50() == doctest::Approx(340.0));
}
