// Lists told half in sentences, and titles that name a food.
#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "support/reader.h"

using namespace maslin;
using reader::Amount;
using reader::check_lines;
using reader::lines_of;
using reader::read;

namespace {

// What the lists below say; common practice, no source.
const char* const k_list =
    "\n500 g bread flour\n300 ml milk\n50 g butter\n2 eggs\n8 g salt\n7 g instant yeast\n\n"
    "Knead 10 min. Rise 1 hour. Bake 20 min at 200C.\n";
constexpr std::size_t k_listed = 6;

/// The lines read beyond those of the list, with this said after it.
std::vector<Line> told(const std::string& method) {
  std::vector<Line> lines = lines_of(read("Rolls\n" + std::string(k_list) + method + "\n"));
  REQUIRE(lines.size() >= k_listed);
  lines.erase(lines.begin(), lines.begin() + k_listed);
  return lines;
}

}  // namespace

TEST_CASE("a list told half in sentences is read whole") {
  check_lines(
      "UNCLE BAS'S BANANA CURLS (what he texted)\n"
      "Steep 40g dried banana chips in 150 ml boiling water, mash + sieve. Egg x2, make up to "
      "250ml w/ buttermilk.\n"
      "480g bread flour, hold 30 back\n"
      "55 g sugar (orig said 120 - no thanks)\n"
      "1 sachet yeast, 1.5 tsp salt, 50g butter soft\n"
      "Knead 12, rise 1h till double. Roll out, spread 3 heaped tbsp almond butter, twist, 10 pcs, "
      "on 2 trays.\n"
      "Rise again 25 min. Gas 5 for 16-18 mins. Brush w/ 1 tbsp honey warmed with 2 tbsp water.\n",
      {{"dried_banana", 40, "g"},
       {"water", 150, "ml"},
       {"egg", 2, ""},
       {"buttermilk", 150, "g"},  // 250 ml less two eggs of 54 g; buttermilk is 1.03 g/ml
       {"strong_white_flour", 480, "g"},
       {"granulated_sugar", 55, "g"},
       {"instant_yeast", 1, "packet"},
       {"salt", 1.5, "tsp"},
       {"butter", 50, "g"},
       {"almond_butter", 3, "tbsp"},
       {"honey", 1, "tbsp"},
       {"water", 2, "tbsp"}});
}

TEST_CASE("what only a step names is an ingredient, whatever the step does with it") {
  struct Case {
    const char* step;
    std::vector<Amount> wanted;
  };
  for (const Case& one : std::vector<Case>{
           {"Soak 60 g tamarind pulp in 200 ml hot water, squeeze and strain.",
            {{"tamarind", 60, "g"}, {"water", 200, "ml"}}},
           {"Soak 100 g raisins in 2 cups hot water for 20 min and drain.",
            {{"raisins", 100, "g"}}},
           {"Roll out, spread with 4 tbsp peanut butter.", {{"peanut_butter", 4, "tbsp"}}},
           {"Cook 2 apples with 50 g brown sugar until soft.",
            {{"apple", 2, ""}, {"brown_sugar_light", 50, "g"}}},
           {"Boil 2 litres water with 1 tbsp honey and poach the rolls.", {}},
           {"Heat 1 litre oil and fry them golden.", {}},
           {"Bake 20 min, then brush with 1 tbsp golden syrup.", {{"golden_syrup", 1, "tbsp"}}},
           {"Put 1 tsp jam on each roll.", {}},
           {"Scatter 40 g chopped walnuts over.", {{"walnuts", 40, "g"}}},
           {"Add each 1 tsp cinnamon and nutmeg.", {{"cinnamon", 1, "tsp"}, {"nutmeg", 1, "tsp"}}},
           {"Add 200 ml cream.", {{"whipping_cream", 200, "ml"}}}}) {
    CAPTURE(one.step);
    const std::vector<Line> lines = told(one.step);
    CHECK(lines.size() == one.wanted.size());
    for (std::size_t i = 0; i < std::min(lines.size(), one.wanted.size()); ++i) {
      CHECK(lines[i].ingredient_id == one.wanted[i].id);
      CHECK(lines[i].found.unit == one.wanted[i].unit);
      REQUIRE(lines[i].found.number);
      CHECK(lines[i].found.number->low == doctest::Approx(one.wanted[i].number));
    }
  }
}

TEST_CASE("what a step repeats from the list is not counted twice") {
  for (const char* step :
       {"Add 100 g of the flour and half of the milk.", "Work in the remaining 50 g butter.",
        "Add 1 egg, 50 ml milk and 3 g salt.", "Dissolve the yeast in 100 ml warm milk.",
        "Beat the other egg. Dust with 2 tbsp flour.", "Mix 250 g flour with 7 g yeast.",
        "Knead in 50 g soft butter.", "Put a cup of water in the oven."}) {
    CAPTURE(step);
    CHECK(told(step).empty());
  }
}

TEST_CASE("said twice in the method it is one line") {
  const std::vector<Line> lines = told("Soak 150 g sultanas. Knead in the 150 g sultanas.");
  REQUIRE(lines.size() == 1);
  CHECK(lines[0].ingredient_id == "sultanas");
}

TEST_CASE("a title is no ingredient, whatever food or measure it names") {
  for (const char* title :
       {"Tante's Tamarind Twists", "CHEESE TWISTS", "Cinnamon Swirls", "Gran's 2 lb Malt Loaf",
        "2 LB MALT LOAF", "4 Cup Flour Rolls", "500g Flour Challah", "12 Hot Cross Buns",
        "1-HOUR BUTTER ROLLS", "A Pinch of Saffron Buns", "Salt & Pepper Knots", "EGG BREAD",
        "3 Ingredient Yogurt Flatbread", "Sugar and spice buns", "Potato Bread (half a batch)"}) {
    CAPTURE(title);
    for (const char* gap : {"", "\n"}) {
      const Recipe recipe = read(std::string(title) + gap + k_list);
      CHECK(lines_of(recipe).size() == k_listed);
      CHECK(recipe.title == title);
    }
  }
}

TEST_CASE("names and amounts run on in one line keep to each other") {
  check_lines(
      "Rolls. Strong flour: 500 g Fine sea salt: 8 g Warm milk: 300 ml Active dry yeast: 7 g\n"
      "Knead and bake 20 min.\n",
      {{"strong_white_flour", 500, "g"},
       {"salt", 8, "g"},
       {"whole_milk", 300, "ml"},
       {"active_dry_yeast", 7, "g"}});
  check_lines("Mix 500 g flour with each 1 tsp salt and sugar, 7 g instant yeast. Knead 10 min.",
              {{"plain_flour", 500, "g"},
               {"salt", 1, "tsp"},
               {"granulated_sugar", 1, "tsp"},
               {"instant_yeast", 7, "g"}});
}

TEST_CASE("names without amounts under a lead and a colon are a list") {
  check_lines(
      "Gran's rolls\nFor this we use the following:\n\xE2\x80\xA2 Bread flour\n\xE2\x80\xA2 Warm "
      "milk\n\xE2\x80\xA2 Salt\nKnead it all 10 minutes and bake at 200C.\n",
      {{"strong_white_flour", -1, ""}, {"whole_milk", -1, ""}, {"salt", -1, ""}});
}

TEST_CASE("shares written as figures, and a spoon a scan misread") {
  check_lines("2 cups flour\n1 8th cup sugar\n3 4ths cup milk\n2 taps salt\n300 ml tap water\n",
              {{"plain_flour", 2, "cup"},
               {"granulated_sugar", 0.125, "cup"},
               {"whole_milk", 0.75, "cup"},
               {"salt", 2, "tsp"},
               {"water", 300, "ml"}});
}
