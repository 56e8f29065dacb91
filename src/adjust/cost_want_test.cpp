// A wanted cost, with the prices a kitchen keeps.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "adjust/adjust.h"
#include "adjust/want_words.h"
#include "support/larder.h"

using namespace maslin;

namespace {

Recipe rich_buns() {
  Recipe out;
  out.title = "Buns";
  Part dough;
  dough.name = "dough";
  dough.lines = {weighed_line("plain_flour", 500.0), weighed_line("whole_milk", 270.0),
                 weighed_line("caster_sugar", 80.0), weighed_line("butter", 100.0),
                 weighed_line("salt", 8.0),          weighed_line("instant_yeast", 7.0)};
  Part glaze;
  glaze.kind = PartKind::glaze;
  glaze.name = "glaze";
  glaze.lines = {weighed_line("icing_sugar", 100.0), weighed_line("water", 20.0)};
  out.parts = {dough, glaze};
  out.pieces = Range{10.0, 10.0};
  return out;
}

/// A gram of flour 0.001, of milk 0.001, of sugar 0.002, of butter 0.01, of icing sugar 0.003;
/// nothing is left on the bowl. Together 0.5 + 0.27 + 0.16 + 1 + 0.3 = 2.23.
Kitchen kitchen_with_prices() {
  Kitchen out;
  out.prices.currency = "EUR";
  out.prices.packs = {{"plain_flour", 1.0, "kg", 1.0},   {"whole_milk", 1000.0, "g", 1.0},
                      {"caster_sugar", 500.0, "g", 1.0}, {"butter", 250.0, "g", 2.5},
                      {"butter", 100.0, "g", 2.0},       {"icing_sugar", 500.0, "g", 1.5}};
  out.prices.waste_pct = 0.0;
  return out;
}

Adjustment asked(const std::string& words, const Kitchen& kitchen, const Recipe& recipe) {
  AdjustRequest request;
  const SaidWants said = wants_from_words(words);
  REQUIRE_MESSAGE(said.problem.empty(), said.problem);
  request.wants = said.wants;
  request.kitchen = kitchen;
  return adjust_recipe(recipe, whole_pantry(), request);
}

double cost_of(const Recipe& recipe) {
  const std::vector<std::pair<std::string, double>> prices = {{"plain_flour", 0.001},
                                                              {"whole_milk", 0.001},
                                                              {"caster_sugar", 0.002},
                                                              {"butter", 0.01},
                                                              {"icing_sugar", 0.003}};
  double out = 0.0;
  for (const Part& part : recipe.parts) {
    for (const Line& line : part.lines) {
      for (const auto& [id, price] : prices) {
        out += line.ingredient_id == id ? price * line.grams.p50() : 0.0;
      }
    }
  }
  return out;
}

}  // namespace

TEST_CASE("a cost under a sum is met, the glaze counted, and what has no price is said") {
  const Recipe before = rich_buns();
  REQUIRE(cost_of(before) == doctest::Approx(2.23));
  const Adjustment out = asked("cost under 1.9", kitchen_with_prices(), before);
  REQUIRE(out.met);
  CHECK(cost_of(out.recipe) <= 1.9 * 1.005);
  // The least change is in what costs most by weight, and not in all of it.
  CHECK(grams_of(out.recipe, "butter") < 80.0);
  CHECK(grams_of(out.recipe, "plain_flour") > 480.0);
  REQUIRE(!out.notes.empty());
  CHECK(out.notes.front().find("no price is known of") != std::string::npos);
  CHECK(std::any_of(out.changes.begin(), out.changes.end(), [](const LineChange& one) {
    return one.why.find("cost from 2.23 to 1.9") != std::string::npos;
  }));
}

TEST_CASE("cheaper by a share, and a cost of one piece") {
  const Adjustment tenth = asked("cheaper by 10 %", kitchen_with_prices(), rich_buns());
  REQUIRE(tenth.met);
  CHECK(cost_of(tenth.recipe) == doctest::Approx(0.9 * 2.23).epsilon(0.006));
  const Adjustment each = asked("cost at most 0.2 each", kitchen_with_prices(), rich_buns());
  REQUIRE(each.met);
  CHECK(cost_of(each.recipe) <= 2.0 * 1.005);
}

TEST_CASE("what has no price is not used more to seem cheaper") {
  Recipe recipe = rich_buns();
  recipe.parts[0].lines.push_back(weighed_line("vegetable_oil", 20.0));
  const Adjustment out = asked("cost under 1.6", kitchen_with_prices(), recipe);
  CHECK(grams_of(out.recipe, "vegetable_oil") <= 20.0 + 1e-9);
}

TEST_CASE("without a price of anything in it a cost cannot be wanted, in one sentence") {
  CHECK(!asked("cheaper", {}, rich_buns()).problem.empty());
  Kitchen other;
  other.prices.packs = {{"rye_flour", 1.0, "kg", 2.0}};
  CHECK(asked("cheaper", other, rich_buns()).problem.find("--prices") != std::string::npos);
}

TEST_CASE("a cost that cannot be had beside the rest is named with the nearest") {
  const Adjustment out = asked("cost under 0.4; 1 kg", kitchen_with_prices(), rich_buns());
  CHECK(!out.met);
  REQUIRE(!out.conflict.empty());
  CHECK(std::any_of(out.conflict.begin(), out.conflict.end(), [](const Conflict& one) {
    return one.want == "cost under 0.4" && one.nearest.find("cost can be") != std::string::npos;
  }));
}

TEST_CASE("shares are shares and bounds are bounds") {
  const auto only = [](const char* words) {
    const SaidWants said = wants_from_words(words);
    REQUIRE_MESSAGE(said.wants.size() == 1, words);
    return said.wants.front();
  };
  CHECK(only("10 % less sugar").times == doctest::Approx(0.9));
  CHECK(only("cut the sugar by 25 %").times == doctest::Approx(0.75));
  CHECK(only("sugar less than 10 %").high == 10.0);
  CHECK(only("no more than 10 % sugar").high == 10.0);
  CHECK(only("cheaper by 10 %").times == doctest::Approx(0.9));
  CHECK(only("cost under 0.30 each").each);
  CHECK(!only("cost under 3").each);
}
