// Messages that tell their list in sentences, with asides on it. What they say; common practice.
#include <doctest/doctest.h>

#include <string>

#include "support/reader.h"

using namespace maslin;
using reader::check_lines;
using reader::lines_of;
using reader::read;

TEST_CASE("a list told with asides is read whole, and no line runs into the next") {
  const char* const said =
      "Re: the black sesame ones from the ferry!!\n"
      "ok so heres what I do. bread flour 500g, dried yeast 1 sachet... I use 3/4, sugar 2 "
      "dessertspoons not 4 like the book says, salt 1 flat tsp\n"
      "water from the kettle let it cool a bit, bout half a mug, then a glug of oil and an egg + a "
      "fistful of black sesame\n"
      "leave it til its double, 9 buns, 180 fan 15 min ish\n";
  check_lines(said, {{"strong_white_flour", 500, "g"},
                     {"active_dry_yeast", 0.75, "packet"},
                     {"granulated_sugar", 2, "dessertspoon"},
                     {"salt", 1, "tsp"},
                     {"water", 0.5, "mug"},
                     {"sunflower_oil", -1, "splash"},
                     {"egg", 1, ""},
                     {"sesame_seeds", 1, "handful"}});
  const Recipe recipe = read(said);
  REQUIRE(recipe.pieces.has_value());
  CHECK(recipe.pieces->low == 9.0);
}

TEST_CASE("the same in other words") {
  check_lines(
      "hey its the fennel buns from choir\n"
      "so what goes in: flour 450g, yeast 1 packet (I only use half), sugar 3 spoons instead of 5 "
      "like granny did, pinch of salt\n"
      "lukewarm milk say 250 ml, a knob of butter and one egg, plus a good pinch of fennel seeds\n"
      "prove til puffy, 10 balls, 200 fan 12 min\n",
      {{"plain_flour", 450, "g"},
       {"instant_yeast", 0.5, "packet"},
       {"granulated_sugar", 3, "spoonful"},
       {"salt", 1, "pinch"},
       {"whole_milk", 250, "ml"},
       {"butter", 1, "knob"},
       {"egg", 1, ""},
       {"fennel_seed", 1, "pinch"}});
  check_lines(
      "Sorry late reply. For the caraway ones I just do this. Rye flour 200g and white flour 300g, "
      "fresh yeast a cube... half is enough, brown sugar 1 tbsp not 2 like on the packet, salt 2 "
      "level tsp\n"
      "water out the tap, bit warm, roughly a mug and a half, and a splash of vinegar\n"
      "knead it, leave it an hour, 8 rolls, 220 for 20 min\n",
      {{"rye_flour_medium", 200, "g"},
       {"plain_flour", 300, "g"},
       {"fresh_yeast", 0.5, "cube"},
       {"brown_sugar_light", 1, "tbsp"},
       {"salt", 2, "tsp"},
       {"water", 1.5, "mug"},
       {"white_vinegar", -1, "splash"}});
  check_lines(
      "twists\nstrong flour 600 g, honey 3 tbsp... I put 4 if its cold out\n"
      "milk from the fridge, warmed up a bit, about 300ml, then butter, lump the size of an egg, "
      "and 2 eggs + a handful of poppy seeds\nbake 20 min\n",
      {{"strong_white_flour", 600, "g"},
       {"honey", 4, "tbsp"},
       {"whole_milk", 300, "ml"},
       {"butter", 1, "piece"},
       {"egg", 2, ""},
       {"poppy_seeds", 1, "handful"}});
}

TEST_CASE("the writer's own amount within a stated range confirms it") {
  check_lines(
      "Muffins\n2 cups flour\n4 to 8 tablespoons of sunflower oil - I used 6\n5-6 cups "
      "rye flour (I used half organic whole wheat)\n",
      {{"plain_flour", 2, "cup"}, {"sunflower_oil", 4, "tbsp"}, {"rye_flour_medium", 5, "cup"}});
}

TEST_CASE("plain before a word nobody knows is no flour, peel by weight is candied") {
  const std::vector<Line> lines = lines_of(
      read("Rolls\n500 g plain\n2 tbsp plain zorbit\n2 tbsp plain, full-fat yogurt\n2oz peel\n"));
  REQUIRE(lines.size() == 4);
  CHECK(lines[0].ingredient_id == "plain_flour");
  CHECK(lines[1].ingredient_id.empty());
  CHECK(lines[2].ingredient_id == "yogurt_whole");
  CHECK(lines[3].ingredient_id == "mixed_peel");
}

TEST_CASE("two columns run into one row, names grown onto a unit of several words") {
  check_lines("Rolls\n\n100g 60ml | flour water\n5g | salt\n7g | instant yeast\n",
              {{"plain_flour", 100, "g"},
               {"water", 60, "ml"},
               {"salt", 5, "g"},
               {"instant_yeast", 7, "g"}});
  check_lines(
      "Brioche\n500 g de farine\n1cuil. \xC3\xA0 soupelait\n2 cuil. \xC3\xA0 caf\xC3\xA9"
      "de sel\n20 g de levure fra\xC3\xAE"
      "che\n",
      {{"plain_flour", 500, "g"},
       {"whole_milk", 1, "tbsp"},
       {"salt", 2, "tsp"},
       {"fresh_yeast", 20, "g"}});
}

TEST_CASE("a name told nearer is one, names among which one is unknown are each their own") {
  check_lines("Focaccia\n500 g flour\nSalt, sea salt\n350 ml water\n",
              {{"plain_flour", 500, "g"}, {"salt", -1, ""}, {"water", 350, "ml"}});
  const std::vector<Line> lines =
      lines_of(read("Doughnuts\n500 g flour\n2 eggs\nZorbella, jam, chocolate\nMethod\nFry.\n"));
  REQUIRE(lines.size() == 5);
  CHECK(lines[2].ingredient_id.empty());
  CHECK(lines[3].ingredient_id == "jam");
  CHECK(lines[4].ingredient_id == "dark_chocolate");
}

TEST_CASE("a total of so many is the yield") {
  const Recipe recipe = read(
      "Cornetti\n500 g farina 0\n250 g latte\n2 uova\nSi ottiene un totale di 40 cornettini\n");
  REQUIRE(recipe.pieces.has_value());
  CHECK(recipe.pieces->low == 40.0);
}
