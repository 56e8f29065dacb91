#include <doctest/doctest.h>

#include <rapidcheck.h>
#include <fstream>
#include <iterator>

#include <string>
#include <vector>

#include "recipe/json.h"
#include "recipe/kitchen.h"
#include "recipe/recipe.h"
#include "recipe/recipe_json.h"

using namespace maslin;

namespace {

rc::Gen<std::string> any_words() {
  return rc::gen::element<std::string>("", "butter", "crème fraîche", "a \"quoted\" note",
                                       "line\nbreak", "</script>", "flour\t1", "ß ½ °");
}

double one_decimal(int low, int high) {
  return *rc::gen::inRange(low, high) / 10.0;
}

Distribution any_grams() {
  const double a = one_decimal(1, 20000);
  return *rc::gen::element(point(a), lognormal(a, 0.1), uniform(a, a + 20.0),
                           triangular(a, a + 1.0, a + 5.0), normal(a + 100.0, 3.0));
}

Line any_line() {
  Line line;
  line.text = *any_words();
  line.name = *any_words();
  line.ingredient_id = *rc::gen::element<std::string>("", "butter", "plain_flour");
  line.note = *any_words();
  if (*rc::gen::arbitrary<bool>()) {
    const double low = one_decimal(0, 900);
    line.found = {Range{low, low + 0.5}, "cup", "large", "packed"};
  }
  if (*rc::gen::arbitrary<bool>()) {
    line.grams = any_grams();
    line.weighed = true;
  }
  return line;
}

Step any_step() {
  Step step;
  step.kind = static_cast<StepKind>(*rc::gen::inRange(0, 16));
  step.text = *any_words();
  step.until = *any_words();
  step.place = *rc::gen::element<std::string>("", "warm", "cold");
  if (*rc::gen::arbitrary<bool>()) {
    step.minutes = Range{10.0, 12.5};
    step.celsius = Range{180.0, 180.0};
    step.pieces = Range{12.0, 14.0};
    step.piece_grams = 45.0;
    step.fan = true;
  }
  return step;
}

Recipe any_recipe() {
  Recipe recipe;
  recipe.title = *any_words();
  recipe.locale = "uk";
  recipe.locale_probability = 0.75;
  recipe.pieces = Range{12.0, 12.0};
  const int parts = *rc::gen::inRange(1, 5);
  for (int p = 0; p < parts; ++p) {
    Part part;
    part.kind = static_cast<PartKind>(*rc::gen::inRange(0, 8));
    part.name = "part " + std::to_string(p);
    for (int i = *rc::gen::inRange(0, 6); i > 0; --i) {
      part.lines.push_back(any_line());
    }
    for (int i = *rc::gen::inRange(0, 4); i > 0; --i) {
      part.steps.push_back(any_step());
    }
    recipe.parts.push_back(part);
  }
  recipe.doubts.push_back({*any_words(), *any_words()});
  recipe.remarks.push_back(*any_words());
  return recipe;
}

}  // namespace

TEST_CASE("a recipe comes back from JSON as it was") {
  rc::check([] {
    const Recipe recipe = any_recipe();
    const RecipeDocument back = recipe_from_json(recipe_to_json(recipe));
    RC_ASSERT(back.problems.empty());
    RC_ASSERT(back.recipe == recipe);
  });
}

TEST_CASE("a kitchen comes back from JSON as it was") {
  Kitchen kitchen;
  kitchen.name = "hill";
  kitchen.country = "us";
  kitchen.room_celsius = 17.5;
  kitchen.altitude_m = 2600;
  kitchen.oven = OvenKind::charcoal_drum;
  kitchen.oven_offset_celsius = -15;
  kitchen.tins.push_back({"loaf", 230, 130, 70, 0, "steel", "dark"});
  kitchen.scale = true;
  kitchen.measures.push_back({"mug", 280});
  kitchen.yeast_kind = "instant";
  kitchen.yeast_age_months = 3;
  kitchen.at_hand = {"lard"};
  kitchen.awake = daily_hours_from("6-22:30");
  kitchen.power_hours = 6.0;
  kitchen.power = {{18 * 60.0, 22 * 60.0}, {23 * 60.0, 60.0}};
  kitchen.prices.currency = "EUR";
  kitchen.prices.packs = {{"plain flour", 1.0, "kg", 0.89}, {"butter", 250.0, "g", 2.49}};
  kitchen.prices.energy_per_kwh = 0.31;
  const KitchenDocument back = kitchen_from_json(kitchen_to_json(kitchen));
  CHECK(back.problems.empty());
  CHECK(back.kitchen == kitchen);
}

TEST_CASE("prices typed a line a pack are those of the table") {
  const KitchenDocument typed = kitchen_from_json(
      R"({"prices": "plain flour 1 kg 0,89\nbutter 250g 2.49\ncurrency EUR\nenergy 1 kWh 0.3"})");
  CHECK(typed.problems.empty());
  const PriceList& list = typed.kitchen.prices;
  REQUIRE(list.packs.size() == 2);
  CHECK(list.packs[0] == PricedPack{"plain flour", 1.0, "kg", 0.89});
  CHECK(list.packs[1] == PricedPack{"butter", 250.0, "g", 2.49});
  CHECK(list.currency == "EUR");
  CHECK(list.energy_per_kwh == 0.3);
  CHECK(!kitchen_from_json(R"({"prices": "butter"})").problems.empty());
}

TEST_CASE("each bad document gets a sentence that says where") {
  struct Case {
    const char* text;
    const char* where;
  };
  for (const Case& one : std::vector<Case>{
           {"", "recipe"},
           {"[1,2]", "recipe"},
           {"{\"parts\":[]}", "parts"},
           {"{\"parts\":[{\"kind\":\"crust\"}]}", "parts[0].kind"},
           {"{\"parts\":[{\"kind\":\"dough\",\"lines\":[{\"grams\":-5}]}]}",
            "parts[0].lines[0].grams"},
           {"{\"parts\":[{\"kind\":\"dough\",\"lines\":[{\"grams\":\"two\"}]}]}",
            "parts[0].lines[0].grams"},
           {"{\"parts\":[{\"kind\":\"dough\",\"steps\":[{\"kind\":\"juggle\"}]}]}",
            "parts[0].steps[0].kind"},
           {"{\"parts\":[{\"kind\":\"dough\",\"name\":\"a\",\"lines\":[{\"part\":\"a\"}]}]}",
            "parts"}}) {
    const RecipeDocument document = recipe_from_json(one.text);
    REQUIRE(document.problems.size() >= 1);
    CHECK(document.problems.front().where == one.where);
    CHECK(!sentence(document.problems.front()).empty());
  }
  CHECK(!recipe_from_json(R"({"pieces": 1e12, "parts": [{"kind": "dough", "name": "d"}]})")
             .problems.empty());
  CHECK(!kitchen_from_json("{\"room_celsius\": 300}").problems.empty());
  CHECK(!kitchen_from_json("{\"oven\": {\"kind\": \"volcano\"}}").problems.empty());
  CHECK(!kitchen_from_json("{\"awake\": \"25-3\"}").problems.empty());
  CHECK(!kitchen_from_json("{\"power\": [\"evenings\"]}").problems.empty());
  CHECK(!kitchen_from_json("{\"prices\": {\"packs\": [{\"item\": \"salt\"}]}}").problems.empty());
}

TEST_CASE("deep nesting is refused and broken UTF-8 survives writing") {
  CHECK(!parse_json(std::string(100000, '[')).has_value());
  Recipe recipe;
  recipe.title = "bad \xff\xfe bytes";
  recipe.parts.emplace_back();
  CHECK(recipe_from_json(recipe_to_json(recipe)).problems.empty());
}

TEST_CASE("parts are ordered so that what is used comes first, and a ring is seen") {
  Recipe recipe;
  Part dough;
  dough.name = "dough";
  Line line;
  line.part = "syrup";
  dough.lines.push_back(line);
  Part syrup;
  syrup.name = "syrup";
  recipe.parts = {dough, syrup};
  CHECK(parts_in_order(recipe).value() == std::vector<std::size_t>{1, 0});
  line.part = "dough";
  recipe.parts[1].lines.push_back(line);
  CHECK(!parts_in_order(recipe).has_value());
}

TEST_CASE(
    "a kitchen file's field that nobody reads is named, and every field of the schema is read") {
  CHECK(strangers_in_kitchen(R"({"oven": "pot"})").size() == 1);
  CHECK(strangers_in_kitchen(R"({"has_scale": false, "room_celsius": "warm"})").size() == 2);
  CHECK(strangers_in_kitchen(R"({"oven": {"kind": "pot"}, "fridge": true})").empty());
  std::ifstream file(MASLIN_SOURCE_DIR "/docs/schema/kitchen.schema.json");
  const std::string text((std::istreambuf_iterator<char>(file)), {});
  const auto schema = parse_json(text);
  REQUIRE(schema);
  for (const auto& [key, value] : (*schema)["properties"].items()) {
    CHECK_MESSAGE(strangers_in_kitchen("{\"" + key + "\": null}").empty(), key);
  }
}

TEST_CASE("what a kitchen has learnt counts its trials within reason") {
  CHECK(lessons_from_json(R"({"trials": 7, "unknowns": [], "covariance": []})").trials == 7);
  CHECK(lessons_from_json(R"({"trials": 1e300, "unknowns": [], "covariance": []})").trials == 1e6);
  CHECK(lessons_from_json(R"({"trials": -3, "unknowns": [], "covariance": []})").trials == 0);
}
