#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "support/reader.h"

using namespace maslin;
using reader::Amount;
using reader::check_lines;
using reader::read;

namespace {

// What the texts say; common practice, no source.
const std::vector<Amount> k_loaf{
    {"plain_flour", 500, "g"}, {"water", 320, "g"}, {"salt", 10, "g"}, {"instant_yeast", 7, "g"}};

}  // namespace

TEST_CASE("one list is read from every layout it may have") {
  check_lines("Ingredients: flour (500g), water (320 g), salt (10g), instant yeast (7g)\nBake.\n",
              k_loaf);
  check_lines("flour,500,g\nwater,320,g\nsalt,10,g\ninstant yeast,7,g\n", k_loaf);
  check_lines(
      "| Amount | What |\n|---|---|\n| 500 g | flour |\n| 320 g | water |\n| 10 g | salt "
      "|\n| 7 g | instant yeast |\n",
      k_loaf);
  check_lines("a) 500g flour\nb) 320g water\nc) 10g salt\nd) 7g instant yeast\n", k_loaf);
  check_lines(
      "1\xEF\xB8\x8F\xE2\x83\xA3 500g flour\n2\xEF\xB8\x8F\xE2\x83\xA3 320g "
      "water\n3\xEF\xB8\x8F\xE2\x83\xA3 10g salt\n4\xEF\xB8\x8F\xE2\x83\xA3 7g "
      "instant yeast\n",
      k_loaf);
  check_lines("Flour 500 g Water 320 g Salt 10 g Instant yeast 7 g\nKnead 10 min.\n", k_loaf);
  check_lines("500gflour\n320gwater\n10gsalt\n7ginstant yeast\n", k_loaf);
  check_lines("For 500 g flour: 320 g water, 10 g salt, 7 g instant yeast. Knead 10 min.\n",
              k_loaf);
  check_lines("500 g flour to 320 g water with 10 g salt and 7 g instant yeast, knead well.\n",
              k_loaf);
  check_lines(
      "1. 500 g flour\n2. 320 g water\n3. 10 g salt\n4. 7 g instant yeast\n5. Knead all "
      "for 10 minutes\n",
      k_loaf);
  check_lines(
      "             g    %\nFlour      500  100\nWater      320   64\nSalt        10    "
      "2\nInstant yeast  7  1.4\n",
      k_loaf);
}

TEST_CASE("amounts written in odd ways are still amounts") {
  check_lines(
      "2x sachets instant yeast\nx2 egg yolks\nONE (1) TEASPOON SALT\n31/2 cps flour\n1 1 "
      "/4 tsp sugar\n2 + 1 tbsp butter\n1/4th cup water\n",
      {{"instant_yeast", 2, "packet"},
       {"egg_yolk", 2, ""},
       {"salt", 1, "tsp"},
       {"plain_flour", 3.5, "cup"},
       {"granulated_sugar", 1.25, "tsp"},
       {"butter", 3, "tbsp"},
       {"water", 0.25, "cup"}});
  check_lines("100 g all-purpose flour", {{"plain_flour", 100, "g"}});
}

TEST_CASE("a rounded spoon weighs less than a heaped one and more than a level one") {
  // Common practice: as much above the rim as below; a heap more.
  const Recipe recipe =
      read("1 level tbsp plain flour\n1 rounded tbsp plain flour\n1 heaped tbsp plain flour\n");
  const std::vector<Line>& lines = recipe.parts[0].lines;
  REQUIRE(lines.size() == 3);
  CHECK(lines[1].grams.p50() > 1.4 * lines[0].grams.p50());
  CHECK(lines[2].grams.p50() > 1.1 * lines[1].grams.p50());
}

TEST_CASE("an amount that only the method names is an ingredient too") {
  const Recipe recipe = read(
      "2 cups flour\n1 yeast cake\n1 tsp sugar\n\nDissolve the yeast in 1/4 cup lukewarm water. "
      "Add the flour and 1 tsp salt. Put a pan with 2 cups of water in the oven. Knead. Brush with "
      "1 tbsp milk. Bake 30 minutes at 400 F.\n");
  REQUIRE(recipe.parts.size() == 2);
  std::vector<std::string> ids;
  for (const Line& line : recipe.parts[0].lines) {
    ids.push_back(line.ingredient_id);
  }
  CHECK(ids == std::vector<std::string>{"plain_flour", "fresh_yeast", "granulated_sugar", "water",
                                        "salt"});
  CHECK(recipe.parts[0].lines[3].found.number == Range{0.25, 0.25});
  CHECK(recipe.parts[1].kind == PartKind::wash);
  CHECK(recipe.parts[1].lines[0].ingredient_id == "whole_milk");
}

TEST_CASE("times before their word, and minutes at a heat, belong together") {
  const Recipe recipe = read(
      "500 g flour\n320 g water\n7 g yeast\n10 min knead, 4 h bulk, shape, 1 h proof, 375 x 20\n");
  const std::vector<Step>& steps = recipe.parts[0].steps;
  REQUIRE(steps.size() == 5);
  CHECK(steps[0].minutes == Range{10, 10});
  CHECK(steps[1].kind == StepKind::prove);
  CHECK(steps[1].minutes == Range{240, 240});
  CHECK(steps[3].minutes == Range{60, 60});
  CHECK(steps[4].kind == StepKind::bake);
  CHECK(steps[4].minutes == Range{20, 20});
}

TEST_CASE("a measure said twice is one measure, and a comma before the name hides nothing") {
  check_lines(
      "500 g flour\n1 1/2 cups 355ml slightly warm water\n1 tablespoon 15ml sugar\n2 cups, strong "
      "black tea\n2 egg(s)\n",
      {{"plain_flour", 500, "g"},
       {"water", 1.5, "cup"},
       {"granulated_sugar", 1, "tbsp"},
       {"black_tea", 2, "cup"},
       {"egg", 2, ""}});
}

TEST_CASE("a hot oven says no more than the figure it was preheated to") {
  const Recipe recipe = read(
      "500 g flour\n320 g water\n7 g yeast\n\nPreheat the oven to 250 C.\nBake in a hot oven for "
      "30 "
      "minutes.\n");
  const Step& bake = recipe.parts[0].steps.back();
  CHECK(bake.kind == StepKind::bake);
  REQUIRE(bake.celsius);
  CHECK(bake.celsius->low == doctest::Approx(250.0));
}

TEST_CASE("half of a message is a list, half of it is told: the told flour is not lost") {
  const Recipe recipe = read(
      "so you take about half a kilo of plain flour, maybe more, yours is different no?\n"
      "sugar 3 tbsp, salt 1 tsp\n"
      "then a cup of warm milk, one egg if you have, butter the size of a walnut x2\n"
      "knead 10 mins till it stops sticking. leave it 1 hr till double\n"
      "oven gas 5, 25 min till brown on top\n");
  REQUIRE(!recipe.parts.empty());
  std::vector<std::string> found;
  for (const Line& line : recipe.parts[0].lines) {
    found.push_back(line.ingredient_id);
  }
  const auto has = [&](const char* id) {
    return std::find(found.begin(), found.end(), id) != found.end();
  };
  CHECK(has("plain_flour"));
  CHECK(has("whole_milk"));
  CHECK(has("salt"));
  CHECK(has("granulated_sugar"));
}

TEST_CASE("the yeast of brewers is weighed as what it was, with a doubt") {
  const Recipe recipe = read("2 lb flour\na gill of good ale yeast\n1 pint milk\na little salt\n");
  REQUIRE(!recipe.parts.empty());
  REQUIRE(recipe.parts[0].lines.size() == 4);
  CHECK(recipe.parts[0].lines[1].ingredient_id == "liquid_yeast");
  CHECK(std::any_of(recipe.doubts.begin(), recipe.doubts.end(), [](const Doubt& one) {
    return one.why.find("no longer sold") != std::string::npos;
  }));
}

TEST_CASE("a list line that broke off goes on in the next") {
  const Recipe recipe = read(
      "\xC2\xB7 25g sugar\n\xC2\xB7 7g active dry yeast or\ninstant yeast\n\xC2\xB7 227g\n"
      "sourdough starter, ripe\n\xC2\xB7 500g bread flour\n\xC2\xB7 10g salt\n");
  REQUIRE(!recipe.parts.empty());
  REQUIRE(recipe.parts[0].lines.size() == 5);
  CHECK(recipe.parts[0].lines[1].note.find("instant yeast") != std::string::npos);
  CHECK(recipe.parts[0].lines[2].ingredient_id == "sourdough_starter");
  CHECK(recipe.parts[0].lines[2].found.number->low == doctest::Approx(227));
}

TEST_CASE("what nobody knows keeps its amount and name, and is told from a guess") {
  const Recipe recipe =
      read("Ingredients\n500g flour\n2 cups wumble chunks\nZorvel brew 1 cup\n10g salt\n");
  REQUIRE(!recipe.parts.empty());
  REQUIRE(recipe.parts[0].lines.size() == 4);
  for (const std::size_t i : {1U, 2U}) {
    const Line& line = recipe.parts[0].lines[i];
    CHECK(line.ingredient_id.empty());
    CHECK(line.found.unit == "cup");
    CHECK(!line.name.empty());
  }
  CHECK(std::any_of(recipe.doubts.begin(), recipe.doubts.end(), [](const Doubt& doubt) {
    return doubt.why.find("no ingredient of this name") != std::string::npos &&
           doubt.why.find("perhaps") != std::string::npos;
  }));
}

TEST_CASE("names without amounts on one line are a line each") {
  const Recipe recipe = read("500g flour\n10g salt\nJam, butter and extra cream for serving\n");
  std::vector<std::string> ids;
  for (const Part& part : recipe.parts) {
    for (const Line& line : part.lines) {
      ids.push_back(line.ingredient_id);
    }
  }
  for (const char* id : {"jam", "butter"}) {
    CHECK(std::find(ids.begin(), ids.end(), id) != ids.end());
  }
  CHECK(ids.size() == 5);
}

TEST_CASE(
    "what twenty odd texts asked for: shorthand, speech, a baker's slashes, another kitchen's "
    "words") {
  const auto line = [](const Recipe& recipe, const std::string& id) -> const Line* {
    for (const Part& part : recipe.parts) {
      for (const Line& one : part.lines) {
        if (one.ingredient_id == id) {
          return &one;
        }
      }
    }
    return nullptr;
  };
  const auto grams = [&](const Recipe& recipe, const std::string& id) {
    const Line* found = line(recipe, id);
    return found == nullptr ? 0.0 : found->grams.p50();
  };
  const Recipe told = read(
      "Mix five hundred grams of double zero, three hundred and twenty five of water and ten of "
      "salt with two grams of dried yeast. Knead ten minutes.");
  CHECK(grams(told, "farina_00") == doctest::Approx(500.0));
  CHECK(grams(told, "water") == doctest::Approx(325.0));
  CHECK(grams(told, "salt") == doctest::Approx(10.0));
  const Recipe sachet = read("rice flour 200g\nyeast 1 sachet(7g)\nwater 200ml\n");
  CHECK(line(sachet, "fresh_yeast") == nullptr);
  const Recipe cups =
      read("flour 3 cups\n\xC2\xBD cup + 2 Tbsp. (125g) sugar, divided\nsalt 1 tsp\n");
  CHECK(grams(cups, "granulated_sugar") == doctest::Approx(125.0));
  CHECK(std::none_of(cups.doubts.begin(), cups.doubts.end(), [](const Doubt& doubt) {
    return doubt.why.find("do not agree") != std::string::npos;
  }));
  const Recipe water =
      read("500g flour\nlukewarm water three quarters of a pint, give or take\n2tsp.salt\n");
  CHECK(grams(water, "water") > 300.0);
  const Recipe oven = read(
      "250g self-raising flour | pinch salt | 50g butter\nOven 220C/200C Fan/Gas 7. Rub, bake "
      "12-15 mins.");
  REQUIRE(!oven.parts.empty());
  CHECK(oven.parts[0].lines.size() == 3);
  const Recipe sponge = read(
      "For the sponge mix 150g flour, 150g water and a pinch of yeast; leave overnight. Next day "
      "add 350g flour, 200g water and 10g salt. Knead 8 mins.");
  const auto dough = std::find_if(sponge.parts.begin(), sponge.parts.end(),
                                  [](const Part& part) { return part.kind == PartKind::dough; });
  REQUIRE(dough != sponge.parts.end());
  CHECK(std::any_of(dough->lines.begin(), dough->lines.end(), [](const Line& one) {
    return one.ingredient_id == "plain_flour" && one.grams.p50() > 340.0;
  }));
}

TEST_CASE("a dough put in the fridge overnight proves there") {
  const Recipe rolls = read(
      "500 g bread flour\n320 g water\n3 g instant yeast\n10 g salt\n\nKnead 8 minutes. Let rise 1 "
      "hour, fold, and put in the fridge overnight. Shape into 10 balls. Bake at 220 C for 16 "
      "minutes.");
  REQUIRE(!rolls.parts.empty());
  const std::vector<Step>& steps = rolls.parts[0].steps;
  CHECK(std::any_of(steps.begin(), steps.end(), [](const Step& one) {
    return one.kind == StepKind::prove && one.place == "cold" && one.minutes;
  }));
}
