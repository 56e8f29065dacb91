#include "recipe/nutrition.h"

#include <doctest/doctest.h>

#include <string>

#include "support/larder.h"

using namespace maslin;

namespace {

Line part_line(const char* part, double grams) {
  Line out = weighed_line("", grams);
  out.part = part;
  return out;
}

Part part(const char* name, std::vector<Line> lines) {
  Part out;
  out.name = name;
  out.lines = std::move(lines);
  return out;
}

Recipe of_parts(std::vector<Part> parts) {
  Recipe out;
  out.parts = std::move(parts);
  return out;
}

}  // namespace

TEST_CASE("a food's contents are its composition by its weight") {
  const Nutrition sugar = nutrition_of(*whole_pantry().find("granulated_sugar"), 50.0);
  CHECK(sugar.grams == 50.0);
  CHECK(sugar.sugars_grams() == doctest::Approx(50).epsilon(0.01));
  CHECK(sugar.label_energy_kcal() == doctest::Approx(200).epsilon(0.01));
  const Nutrition salt = nutrition_of(*whole_pantry().find("salt"), 10.0);
  CHECK(salt.sodium_mg() == doctest::Approx(3876).epsilon(0.005));  // USDA SR28 02047: 38758 mg
}

TEST_CASE("the components of a recipe weigh what the recipe weighs") {
  const Recipe recipe =
      of_parts({part("dough", {weighed_line("plain_flour", 500), weighed_line("water", 300),
                               weighed_line("salt", 10), weighed_line("butter", 40)})});
  const Nutrition all = nutrition_of(recipe, whole_pantry()).value();
  CHECK(all.grams == doctest::Approx(850));
  double sum = 0.0;
  for (std::size_t i = 0; i < k_component_count; ++i) {
    const auto component = static_cast<Component>(i);
    if (component != Component::saturated && component != Component::salt) {
      sum += all[component];
    }
  }
  CHECK(sum == doctest::Approx(850).epsilon(0.005));
  CHECK(all.per_100_grams().grams == doctest::Approx(100));
  CHECK(all.lines_left_out == 0);
}

TEST_CASE("a part used in another is counted once, and as much of it as the line takes") {
  const Recipe recipe =
      of_parts({part("syrup", {weighed_line("granulated_sugar", 100), weighed_line("water", 100)}),
                part("dough", {weighed_line("plain_flour", 200), part_line("syrup", 50)})});
  const auto parts = nutrition_of_parts(recipe, whole_pantry());
  REQUIRE(parts.has_value());
  CHECK((*parts)[1].grams == doctest::Approx(250));
  CHECK((*parts)[1][Component::sucrose] == doctest::Approx(25).epsilon(0.03));
  CHECK(nutrition_of(recipe, whole_pantry())->grams == doctest::Approx(250));
}

TEST_CASE("straining leaves some of everything behind, boiling only drives off water") {
  Part juice = part("liquid", {weighed_line("granulated_sugar", 50), weighed_line("water", 150)});
  juice.yield = point(0.5);
  Part boiled = juice;
  boiled.steps.push_back({});
  boiled.steps.back().kind = StepKind::boil;
  const Nutrition strained = nutrition_of(of_parts({juice}), whole_pantry()).value();
  const Nutrition reduced = nutrition_of(of_parts({boiled}), whole_pantry()).value();
  CHECK(strained.grams == doctest::Approx(100));
  CHECK(reduced.grams == doctest::Approx(100));
  CHECK(strained.sugars_grams() == doctest::Approx(25).epsilon(0.01));
  CHECK(reduced.sugars_grams() == doctest::Approx(50).epsilon(0.01));
}

TEST_CASE("baking takes water and nothing else, and never more than there is") {
  const Nutrition dough = nutrition_of(*whole_pantry().find("plain_flour"), 100.0) +
                          nutrition_of(*whole_pantry().find("water"), 60.0);
  const Nutrition baked = dough.less_water(20.0);
  CHECK(baked.grams == doctest::Approx(140));
  CHECK(baked[Component::protein] == dough[Component::protein]);
  CHECK(baked.label_energy_kcal() == doctest::Approx(dough.label_energy_kcal()));
  const Nutrition dry = dough.less_water(1000.0);
  CHECK(dry[Component::water] == 0.0);
  CHECK(dry.grams == doctest::Approx(160 - dough[Component::water]));
}

TEST_CASE("lines without a weight or a known ingredient are counted, not guessed") {
  Line unknown = weighed_line("unobtainium", 10);
  Line unweighed = weighed_line("salt", 0);
  unweighed.weighed = false;
  const Recipe recipe = of_parts({part("dough", {weighed_line("plain_flour", 100), unknown,
                                                 unweighed, part_line("no such part", 5)})});
  CHECK(nutrition_of(recipe, whole_pantry())->lines_left_out == 3);
}

TEST_CASE("parts in a ring have no nutrition, an empty recipe none to speak of") {
  const Recipe ring = of_parts({part("a", {part_line("b", 1)}), part("b", {part_line("a", 1)})});
  CHECK(!nutrition_of(ring, whole_pantry()).has_value());
  CHECK(nutrition_of(Recipe{}, whole_pantry())->grams == 0.0);
}
