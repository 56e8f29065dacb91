// Measures that several things fill together. What is right is common practice, no source; the
// weights are those of the pantry.
#include <doctest/doctest.h>

#include <string>

#include "support/reader.h"

using namespace maslin;
using reader::read;

namespace {

double grams(const Recipe& recipe, const std::string& id) {
  for (const Part& part : recipe.parts) {
    for (const Line& line : part.lines) {
      if (line.ingredient_id == id && line.weighed) {
        return line.grams.p50();
      }
    }
  }
  return -1.0;
}

const std::string k_rest = "500 g flour\n7 g instant yeast\n8 g salt\n";

}  // namespace

TEST_CASE("what fills a measure is what the eggs leave of it") {
  for (const char* eggs : {"110 g egg and whole milk to make 300 ml",
                           "110 g egg + whole milk to make 300 ml altogether",
                           "110 g egg, made up to 300 ml with whole milk",
                           "110 g egg\nwhole milk to make up to 300 ml"}) {
    CAPTURE(eggs);
    const Recipe recipe = read(k_rest + eggs + "\n");
    CHECK(grams(recipe, "egg") == doctest::Approx(110.0));
    CHECK(grams(recipe, "whole_milk") == doctest::Approx(199.0).epsilon(0.03));
  }
}

TEST_CASE("what is left of a measure is never less than nothing") {
  for (const char* filled :
       {"110 g egg and whole milk to make 100 ml", "2 eggs and whole milk to make 110 ml",
        "1 cup whole milk and hot water to make 1 cup"}) {
    CAPTURE(filled);
    const Recipe recipe = read(k_rest + filled + "\n");
    for (const Line& line : recipe.parts.at(0).lines) {
      CAPTURE(line.text);
      CHECK(line.grams.quantile(0.001) >= 0.0);
    }
  }
}

TEST_CASE("an amount of its own, or what is made of it all, is no measure to fill") {
  const Recipe recipe = read(k_rest + "100 g butter\n200 ml whole milk to make 12 buns\n");
  CHECK(grams(recipe, "whole_milk") == doctest::Approx(206.0).epsilon(0.03));
  const Recipe own = read(k_rest + "110 g egg\n250 ml whole milk\n");
  CHECK(grams(own, "whole_milk") == doctest::Approx(258.0).epsilon(0.03));
}

TEST_CASE("a fruit's juice is a juice, not the fruit, though the pantry knows none of it") {
  const Recipe recipe = read(k_rest + "200 ml guava juice\n");
  CHECK(grams(recipe, "apple_juice") == doctest::Approx(208.0).epsilon(0.03));
  CHECK(recipe.doubts.size() >= 1);
  CHECK(grams(read(k_rest + "200 ml orange juice\n"), "orange_juice") > 0.0);
}

TEST_CASE("shape 12, fill: the bare number is of pieces") {
  const Recipe recipe =
      read(k_rest +
           "300 ml water\n\nKnead. Prove 1 hour. Shape 12, brush with water. Prove "
           "30 minutes. Bake at 190 C for 15 minutes.\n");
  bool twelve = false;
  for (const Step& step : recipe.parts.at(0).steps) {
    twelve = twelve || (step.pieces && step.pieces->low == 12.0);
  }
  CHECK(twelve);
}
