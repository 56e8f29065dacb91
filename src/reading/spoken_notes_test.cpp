// Notes spoken and typed up, run on, or told above their list. What they say; common practice.
#include <doctest/doctest.h>

#include <string>

#include "recipe/hot_rise.h"
#include "support/reader.h"

using namespace maslin;
using reader::check_lines;
using reader::lines_of;
using reader::read;

namespace {

const char* const k_note =
    "COUSIN EFUA'S COCOYAM TWISTS (rang me, jotted down)\n"
    "Mash 3 soft bananas with half a tin of coconut milk + 2 eggs.\n"
    "Nearly 5 cups bread flour, some held back\n"
    "two level dsp yeast, 4 tbsp honey (orig 8!), 1.5 tsp salt, dash of ground nutmeg\n"
    "lard size of an egg, melted in\n"
    "Work it till silky, cover till doubled, make 16, put them touching in a big tray\n"
    "rise again 40 mins, moderate oven 25-30 mins. Brush with more honey.\n";

std::vector<Step> steps_of(const Recipe& recipe) {
  std::vector<Step> out;
  for (const Part& part : recipe.parts) {
    out.insert(out.end(), part.steps.begin(), part.steps.end());
  }
  return out;
}

bool doubts(const Recipe& recipe, const std::string& words) {
  for (const Doubt& doubt : recipe.doubts) {
    if ((doubt.text + " " + doubt.why).find(words) != std::string::npos) {
      return true;
    }
  }
  return false;
}

/// How many pieces a recipe makes whose method says so.
double pieces_of(const std::string& method) {
  const Recipe recipe =
      read("Rolls\n500 g flour\n300 ml milk\n8 g salt\n7 g instant yeast\n\nKnead well. " + method +
           " Rise 1 hour. Bake 20 min at 200C.\n");
  return recipe.pieces ? recipe.pieces->low : 0.0;
}

}  // namespace

TEST_CASE("a sentence that works with amounts above the list is read, nothing runs together") {
  check_lines(k_note, {{"strong_white_flour", 5, "cup"},
                       {"active_dry_yeast", 2, "dessertspoon"},
                       {"honey", 4, "tbsp"},
                       {"salt", 1.5, "tsp"},
                       {"nutmeg", 1, "dash"},
                       {"lard", 1, "piece"},
                       {"banana", 3, ""},
                       {"coconut_milk", 0.5, "can"},
                       {"egg", 2, ""}});
  CHECK(doubts(read(k_note), "another amount is said of it: 8"));
}

TEST_CASE("what rises is not as hot as an oven, what is covered till doubled is not shaped") {
  const std::vector<Step> steps = steps_of(read(k_note));
  REQUIRE(steps.size() >= 6);
  CHECK(steps[0].kind == StepKind::mix);
  CHECK(steps[1].kind == StepKind::knead);
  CHECK(steps[2].kind == StepKind::prove);
  CHECK(steps[2].until == "doubled");
  CHECK(steps[3].kind == StepKind::divide);
  CHECK(steps[4].kind == StepKind::prove);
  REQUIRE(steps[4].minutes);
  CHECK(steps[4].minutes->low == 40.0);
  CHECK(!steps[4].celsius);
  CHECK(steps[5].kind == StepKind::bake);
  REQUIRE(steps[5].minutes);
  CHECK(steps[5].minutes->high == 30.0);
  REQUIRE(steps[5].celsius);
  CHECK(steps[5].celsius->low > k_hottest_rise_celsius);
}

TEST_CASE("a rise in an oven just warm has no heat of a bake") {
  for (const char* said :
       {"Prove 1 hour in a slow oven.", "Leave to rise in a cool oven 1 hour."}) {
    CAPTURE(said);
    const Recipe recipe = read("Rolls\n500 g flour\n300 ml milk\n8 g salt\n7 g instant yeast\n" +
                               std::string(said) + " Bake 20 min at 200C.\n");
    const std::vector<Step> steps = steps_of(recipe);
    REQUIRE(!steps.empty());
    CHECK(steps[0].kind == StepKind::prove);
    CHECK(!steps[0].celsius);
    CHECK(steps[0].place == "warm");
  }
}

TEST_CASE("lots that are divided again are no pieces") {
  CHECK(pieces_of("Halve the dough and cut 20 pieces from each.") == 40.0);
  CHECK(pieces_of("Divide in half. Roll each half out and cut into 12 wedges each.") == 24.0);
  CHECK(pieces_of("Divide into 2. Cut each into 8 pieces.") == 16.0);
  CHECK(pieces_of("Cut into 4. Form each quarter into 6 balls.") == 24.0);
  CHECK(pieces_of("Divide into 12 pieces. Roll each into a ball.") == 12.0);
  CHECK(pieces_of("Divide into 3 pieces, cut each into 3 strips and plait.") == 3.0);
}

TEST_CASE("an oven and a yield under the list are no food") {
  for (const char* last : {"Moderate oven, 2 dozen.", "Hot oven 15 min. 2 doz."}) {
    CAPTURE(last);
    const Recipe recipe =
        read("Buns\n500 g flour\n7 g yeast\n300 ml water\n60 g sugar\n" + std::string(last) + "\n");
    CHECK(lines_of(recipe).size() == 4);
    REQUIRE(recipe.pieces);
    CHECK(recipe.pieces->low == 24.0);
    const std::vector<Step> steps = steps_of(recipe);
    REQUIRE(!steps.empty());
    CHECK(steps[0].kind == StepKind::bake);
  }
}

TEST_CASE("a recipe run on in one line has its own title and its number of pieces") {
  const Recipe recipe =
      read("plain bun: 400 g flour; 240 g water; 4 g yeast; 9 equal parts; ferment to twice size");
  CHECK(recipe.title == "plain bun");
  CHECK(lines_of(recipe).size() == 3);
  REQUIRE(recipe.pieces);
  CHECK(recipe.pieces->low == 9.0);
}

TEST_CASE("headings that run on inside a line open their parts") {
  const Recipe german = read(
      "Hefezopf\nZutaten: 400 g Mehl, 20 g Hefe, 200 ml Milch, 1 Ei F\xC3\xBCr den Guss: 80 g "
      "Puderzucker, 1 EL Milch Zum Bestreuen: Hagelzucker\n");
  REQUIRE(german.parts.size() >= 2);
  CHECK(german.parts[0].lines.size() == 4);
  CHECK(lines_of(german).size() == 7);
  const Recipe bare = read(
      "Swirls\nDough 400 g flour 6 g yeast 240 ml milk Filling 80 g butter 120 g sugar Icing 90 g "
      "icing sugar 1 tbsp water\n");
  REQUIRE(bare.parts.size() == 3);
  CHECK(bare.parts[1].kind == PartKind::filling);
  CHECK(bare.parts[2].kind == PartKind::glaze);
  CHECK(bare.parts[2].lines.size() == 2);
}

TEST_CASE("brewers' yeast is the leaven where no other is, and a food beside one") {
  check_lines("Rolls\n2 lb flour\n1 oz brewer's yeast\n1 pint milk\n",
              {{"plain_flour", 2, "lb"}, {"fresh_yeast", 1, "oz"}, {"whole_milk", 1, "pint"}});
  check_lines("Rolls\n2 lb flour\na gill of brewer's yeast\n1 pint milk\n",
              {{"plain_flour", 2, "lb"}, {"liquid_yeast", 1, "gill"}, {"whole_milk", 1, "pint"}});
  check_lines(
      "Loaf\n500 g flour\n7 g instant yeast\n2 tbsp brewer's yeast\n",
      {{"plain_flour", 500, "g"}, {"instant_yeast", 7, "g"}, {"nutritional_yeast", 2, "tbsp"}});
}
