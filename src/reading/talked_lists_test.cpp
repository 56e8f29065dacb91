// Lists that are talked over, telegraphed, or set in rows nobody planned for. What they say; common
// practice, no source.
#include <doctest/doctest.h>

#include <string>

#include "support/reader.h"

using namespace maslin;
using reader::check_lines;
using reader::lines_of;
using reader::read;

TEST_CASE("a telegram's stops end its lines") {
  check_lines(
      "SEND WORD STOP FLOUR THREE POUNDS STOP YEAST ONE OUNCE STOP WATER ONE QUART STOP SALT TWO "
      "TABLESPOONS STOP RISE OVERNIGHT STOP AUNT\n",
      {{"plain_flour", 3, "lb"},
       {"fresh_yeast", 1, "oz"},
       {"water", 1, "quart"},
       {"salt", 2, "tbsp"}});
}

TEST_CASE("answers belong to what was asked, and a later word puts an amount right") {
  check_lines(
      "Rolls for Sunday\nflour 600g\nhow much butter?\nabout 80 g\nmilk 300ml\nno wait 340ml\n"
      "yeast?\n2 tsp\n",
      {{"plain_flour", 600, "g"},
       {"butter", 80, "g"},
       {"whole_milk", 340, "ml"},
       {"instant_yeast", 2, "tsp"}});
}

TEST_CASE("a table whose cells each have a line of their own") {
  check_lines(
      "Rolls\nINGREDIENTS\n2 1/4 |\nc |\nPlain flour |\n2 |\nts |\nInstant yeast |\n3 |\n|\nEggs "
      "|\n"
      "1/3 |\nc |\nWarm milk |\n1 |\ntb |\nSugar |\nINSTRUCTIONS\nMix and knead.\n",
      {{"plain_flour", 2.25, "cup"},
       {"instant_yeast", 2, "tsp"},
       {"egg", 3, ""},
       {"whole_milk", 1.0 / 3.0, "cup"},
       {"granulated_sugar", 1, "tbsp"}});
}

TEST_CASE("of several batches in columns the first stands") {
  const Recipe recipe = read(
      "Ingredient\t1 dough (g)\t4 doughs (g)\nStrong "
      "flour\t500\t2000\nWater\t320\t1280\nSalt\t10\t40\n"
      "Fresh yeast\t15\t60\n");
  const std::vector<Line> lines = lines_of(recipe);
  REQUIRE(lines.size() == 4);
  CHECK(lines[0].grams.p50() == doctest::Approx(500));
  CHECK(lines[3].grams.p50() == doctest::Approx(15));
  check_lines("Rolls x1 / x4\nflour 500 / 2000\nwater 320 / 1280\nsalt 10 / 40\n",
              {{"plain_flour", 500, "g"}, {"water", 320, "g"}, {"salt", 10, "g"}});
}

TEST_CASE("amounts in brackets behind their names, in sentences") {
  check_lines("Take bread flour (2kg), water (1250), salt (40). Rest it 1h. Bake at 240.",
              {{"strong_white_flour", 2, "kg"}, {"water", 1250, "g"}, {"salt", 40, "g"}});
}

TEST_CASE("a smaller unit after a comma adds, an amount said last is of each") {
  check_lines("Rolls\n2 qts., 1 1/2 cups flour\n1 pt., 1 cup milk\nham and cheese 90 g each\n",
              {{"plain_flour", 2.375, "quart"},
               {"whole_milk", 1.5, "pint"},
               {"ham_cooked", 90, "g"},
               {"cheddar", 90, "g"}});
}

TEST_CASE("what yeast is dissolved in takes no share of its amount") {
  check_lines("Rolls\n600 g flour\n25 g fresh yeast and water to dissolve it\n",
              {{"plain_flour", 600, "g"}, {"fresh_yeast", 25, "g"}, {"water", -1, ""}});
  check_lines("Rolls\n600 g flour\n25 g fresh yeast (in 60 ml milk)\n",
              {{"plain_flour", 600, "g"}, {"fresh_yeast", 25, "g"}, {"whole_milk", 60, "ml"}});
}

TEST_CASE("a kind that a bracket prefers, a noun said once, a count by the last word") {
  check_lines(
      "Rolls\n600 g flour (ideally strong white flour)\n1 cake fresh or 1 packet dried yeast\n"
      "8 cardamom pods\neggs 2 + 1 for brushing\n",
      {{"strong_white_flour", 600, "g"},
       {"fresh_yeast", 1, "cake"},
       {"cardamom", 8, "piece"},
       {"egg", 2, ""}});
}

TEST_CASE("foods by the names that cards use, in every language") {
  check_lines("Brot\n500 g Mehl\n3 EL K\xC3\xBCrbiskerne\n2 EL Melasse\n1 EL Leinsamen\n",
              {{"plain_flour", 500, "g"},
               {"pumpkin_seeds", 3, "tbsp"},
               {"molasses", 2, "tbsp"},
               {"linseed", 1, "tbsp"}});
}

TEST_CASE("the middle's heading under a row with dots is no rest of that row") {
  const Recipe recipe = read(
      "for the dough\n- flour ..... 400g\n- milk ...... 240g\n- yeast ..... 6g\n- butter .... 50g\n"
      "for the middle\n- butter .... 70g\n- brown sugar 90g\n");
  REQUIRE(recipe.parts.size() == 2);
  CHECK(recipe.parts[0].lines.size() == 4);
  CHECK(recipe.parts[1].kind == PartKind::filling);
  CHECK(recipe.parts[1].lines.size() == 2);
}

TEST_CASE("a list of amounts ends with names that are verbs elsewhere") {
  check_lines("Rolls\nIngredients: 900 g flour, 3 eggs, 90 g butter, salt, oil\nMix all.\n",
              {{"plain_flour", 900, "g"},
               {"egg", 3, ""},
               {"butter", 90, "g"},
               {"salt", -1, ""},
               {"sunflower_oil", -1, ""}});
  check_lines("Rolls\n550 g flour, salt\n320 g water, yeast\n", {{"plain_flour", 550, "g"},
                                                                 {"salt", -1, ""},
                                                                 {"water", 320, "g"},
                                                                 {"instant_yeast", -1, ""}});
}

TEST_CASE("butter or oil is butter; a heaped spoon needs no number; an amount behind a part") {
  check_lines(
      "Rolls\n300 g flour heaped teaspoon baking powder\n2 tbsp butter or sunflower oil\n"
      "I large egg\nJuice of lemon: 2 tbsp\n",
      {{"plain_flour", 300, "g"},
       {"baking_powder", 1, "tsp"},
       {"butter", 2, "tbsp"},
       {"egg", 1, ""},
       {"lemon_juice", 2, "tbsp"}});
}

TEST_CASE("a list's word in a cell before it, and amounts of the method for bare names") {
  check_lines("Panini\n\nIngredienti principali | 1 kg di farina 0, 3 uova, sale\nMescolare.\n",
              {{"farina_0", 1, "kg"}, {"egg", 3, ""}, {"salt", -1, ""}});
  check_lines(
      "Focaccia\nIngredients\n- Flour: any plain flour will do\n- Water\n- Salt\nMethod\n"
      "1. Mix 450 g flour with 300 ml water and 9 g salt.\n2. Rest for an hour.\n",
      {{"plain_flour", 450, "g"}, {"water", 300, "ml"}, {"salt", 9, "g"}});
}

TEST_CASE("\"La biga\" over its list is a part") {
  const Recipe recipe = read(
      "Panini\nLa biga\n- 140 g di farina 00\n- 80 g di acqua\n- 2 g di lievito\nImpasto\n"
      "- 300 g di farina 00\n- 8 g di sale\n");
  REQUIRE(recipe.parts.size() == 2);
  CHECK(recipe.parts[0].kind == PartKind::preferment);
}

TEST_CASE("beside another amount \"an egg\" is one, and the size of an egg is none") {
  const auto eggs = [](const std::string& said) {
    int out = 0;
    for (const Line& line : lines_of(read("Rolls\n\n" + said +
                                          "\n500 g flour\n7 g yeast\n9 g salt\n\nKnead. Prove 1 "
                                          "hour. Bake 20 minutes at 200C.\n"))) {
      out += line.ingredient_id == "egg" ? 1 : 0;
    }
    return out;
  };
  CHECK(eggs("Mash 2 ripe pears with half a carton of buttermilk and an egg.") == 1);
  CHECK(eggs("Mix 200 ml milk with an egg.") == 1);
  CHECK(eggs("Mix 200 ml milk and a lemon.") == 0);
  CHECK(eggs("Shape 8 pieces, each the size of an egg, and add 50 g butter.") == 0);
}
