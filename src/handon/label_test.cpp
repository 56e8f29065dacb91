#include "handon/label.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <string>

#include "handon/embedded_table.h"
#include "handon/label_list.h"
#include "handon/label_tables.h"
#include "quantity/table.h"
#include "support/larder.h"

using namespace maslin;
using namespace maslin::handon;

namespace {

Part part(PartKind kind, const char* name, std::vector<Line> lines) {
  return {kind, name, std::move(lines), {}, point(1.0)};
}

Recipe recipe_of(const char* title, std::vector<Part> parts) {
  Recipe out;
  out.title = title;
  out.pieces = Range{10, 10};
  out.parts = std::move(parts);
  return out;
}

Label label(const Recipe& recipe, LabelRules rules, double loss_pct = 10.0) {
  LabelRequest request;
  request.rules = rules;
  request.draws.draws = 8;
  request.bake_loss_pct = {loss_pct};
  return label_of(recipe, whole_pantry(), request);
}

bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

Recipe raisin_loaf() {
  return recipe_of("Raisin bread",
                   {part(PartKind::dough, "dough",
                         {weighed_line("plain_flour", 500), weighed_line("water", 250),
                          weighed_line("raisins", 200), weighed_line("butter", 30),
                          weighed_line("salt", 10), weighed_line("instant_yeast", 5)})});
}

}  // namespace

TEST_CASE("ingredients stand by weight, water by what of it is left") {
  // 995 g mixed; 10 % lost leaves 895.5 g, so 150.5 g of the 250 g of water: behind the raisins.
  const Label eu = label(raisin_loaf(), LabelRules::eu);
  REQUIRE(eu.problem.empty());
  CHECK(eu.list.find("raisins") < eu.list.find("water"));
  CHECK(eu.ingredients.front().mixed_grams == doctest::Approx(500));
  CHECK(eu.finished_grams.p50 == doctest::Approx(895.5));
  // By American rules as put in, small amounts gathered.
  const Label us = label(raisin_loaf(), LabelRules::us);
  CHECK(us.list.find("water") < us.list.find("raisins"));
  CHECK(holds(us.list, "Contains 2% or less of: salt"));
  CHECK(us.contains == "Contains: wheat, milk.");
}

TEST_CASE("an ingredient in the name bears its share of the finished product") {
  CHECK(holds(label(raisin_loaf(), LabelRules::eu).list, "raisins (22 %)"));
  CHECK(holds(label(raisin_loaf(), LabelRules::codex).list, "raisins (22 %)"));
  CHECK_FALSE(holds(label(raisin_loaf(), LabelRules::us).list, "%)"));
}

TEST_CASE("added water up to 5 % of the product is left out") {
  const Label dry = label(raisin_loaf(), LabelRules::eu, 22.0);
  CHECK_FALSE(holds(dry.list, "water"));
}

TEST_CASE("a filling is a compound ingredient with its own list") {
  const Recipe recipe = recipe_of(
      "Date knots", {part(PartKind::dough, "dough",
                          {weighed_line("plain_flour", 500), weighed_line("whole_milk", 300)}),
                     part(PartKind::filling, "filling",
                          {weighed_line("dates", 150), weighed_line("butter", 20)})});
  const Label out = label(recipe, LabelRules::eu);
  CHECK(holds(out.list, "filling [dates (17 %), butter (MILK)]"));
  CHECK(out.allergens == std::vector<std::string>{"wheat", "milk"});
}

TEST_CASE("allergens are emphasised where the name holds them, else said") {
  CHECK(emphasised("wheat flour", "wheat") == "WHEAT flour");
  CHECK(emphasised("butter", "milk") == "butter (MILK)");
  CHECK(emphasised("peanut butter", "peanuts") == "PEANUT butter");
  CHECK(emphasised("walnuts", "walnut") == "WALNUTS");
  CHECK(emphasised("eggplant", "egg") == "eggplant (EGG)");
}

TEST_CASE("each set of rules has its own allergens") {
  const Recipe recipe =
      recipe_of("Loaf", {part(PartKind::dough, "dough",
                              {weighed_line("rye_flour_dark", 500), weighed_line("water", 300),
                               weighed_line("celery_seed", 5), weighed_line("lupin_flour", 20),
                               weighed_line("sesame_seeds", 20), weighed_line("anchovies", 20)})});
  const std::vector<std::string> eu = label(recipe, LabelRules::eu).allergens;
  const auto has = [](const std::vector<std::string>& list, const char* word) {
    return std::find(list.begin(), list.end(), word) != list.end();
  };
  for (const char* word : {"rye", "celery", "lupin", "sesame", "fish"}) {
    CHECK_MESSAGE(has(eu, word), word);
  }
  const std::vector<std::string> us = label(recipe, LabelRules::us).allergens;
  CHECK(has(us, "sesame"));
  CHECK(has(us, "anchovy"));
  for (const char* word : {"rye", "celery", "lupin"}) {
    CHECK_MESSAGE(!has(us, word), word);
  }
}

TEST_CASE("sulphites are named only when there can be more than 10 mg/kg") {
  const auto with = [](double sultanas) {
    return recipe_of("Loaf", {part(PartKind::dough, "dough",
                                   {weighed_line("plain_flour", 500), weighed_line("water", 300),
                                    weighed_line("sultanas", sultanas)})});
  };
  CHECK(holds(label(with(100), LabelRules::eu).list, "SULPHITES"));
  CHECK(holds(label(with(100), LabelRules::us).list, "SULFITES"));
  CHECK_FALSE(holds(label(with(2), LabelRules::eu).list, "SULPHITES"));
}

TEST_CASE("British flour lists what the law adds, European and American flour does not") {
  CHECK(holds(label(raisin_loaf(), LabelRules::uk).list, "thiamin"));
  CHECK_FALSE(holds(label(raisin_loaf(), LabelRules::eu).list, "thiamin"));
  CHECK_FALSE(holds(label(raisin_loaf(), LabelRules::us).list, "thiamin"));
}

TEST_CASE("a range goes with every figure before it is rounded") {
  Recipe recipe = raisin_loaf();
  recipe.parts[0].lines[0].grams = lognormal(500, 0.15);
  LabelRequest request;
  request.draws.draws = 256;
  request.bake_loss_pct = {10.0};
  const Label out = label_of(recipe, whole_pantry(), request);
  for (const LabelNutrient& one : out.nutrients) {
    CHECK_MESSAGE(one.per_100_grams_range.p10 < one.per_100_grams_range.p90, one.nutrient);
    CHECK_MESSAGE(one.per_100_grams > one.per_100_grams_range.p10, one.nutrient);
    CHECK_MESSAGE(one.per_100_grams < one.per_100_grams_range.p90, one.nutrient);
  }
}

TEST_CASE("what has no weight is asked for, and nothing at all is a sentence") {
  Recipe recipe = raisin_loaf();
  recipe.parts[0].lines[2].weighed = false;
  const Label out = label(recipe, LabelRules::eu);
  CHECK(holds(label_text(out), "\"raisins\" has no weight"));
  CHECK_FALSE(label(recipe_of("Nothing", {}), LabelRules::eu).problem.empty());
}

TEST_CASE("every cereal, nut, fish and shellfish of the pantry has its name on labels") {
  const LabelTables tables;
  for (const Ingredient& one : whole_pantry().ingredients()) {
    for (const std::string& allergen : one.allergens) {
      CHECK_MESSAGE(!tables.allergens_of(one, LabelRules::eu).empty(), one.id, " ", allergen);
    }
  }
  for (const char* name : {"label_names.tsv", "label_foods.tsv"}) {
    const Table table(handon_data::embedded_table(name));
    REQUIRE(table.size() > 0);
    for (std::size_t i = 0; i < table.size(); ++i) {
      const std::string id(table.cell(i, "id"));
      CHECK_MESSAGE((id.starts_with("kind:") || whole_pantry().find(id) != nullptr), name, " ", id);
      CHECK_MESSAGE(!table.cell(i, "source").empty(), name, " ", id);
    }
  }
}
