// Tins that steps and wants name; numbers without a measure.
#include <doctest/doctest.h>

#include <string>

#include "pantry/pantry.h"
#include "reading/reading.h"

using namespace maslin;

TEST_CASE("the tin that the steps name is read with its size") {
  const std::string dough = "Loaf\n500 g flour\n300 g water\n10 g salt\n7 g yeast\n\n";
  static const Pantry k_pantry(embedded_pantry_tables());
  static const Words k_words(k_pantry);
  const auto tin_of = [&](const std::string& step) {
    return read_text(dough + step, k_pantry, k_words, {}).recipe.tin;
  };
  REQUIRE(tin_of("Bake in a greased 9 x 5-inch loaf pan at 200C for 35 minutes."));
  CHECK(tin_of("Bake in a 9 x 5-inch loaf pan at 200C.")->length_mm == doctest::Approx(228.6));
  // A 2 lb tin is about 23 x 13 x 7 cm: common practice, no source.
  CHECK(tin_of("Put it into a 2lb loaf tin and bake at 200C.")->width_mm ==
        doctest::Approx(130.0).epsilon(0.02));
  CHECK(tin_of("Bake in a 20 cm square tin at 200C.")->kind == "tray");
  CHECK(!tin_of("Set them 4\" apart on half sheet pans and bake at 200C."));
  CHECK(!tin_of("Roll out to a 9 inch circle and bake at 200C."));
  CHECK(!tin_of("Boil the syrup in a 20 cm round pan."));
}

TEST_CASE("bare numbers beside a flour in cups are cups or spoons, and each is doubted") {
  static const Pantry k_pantry(embedded_pantry_tables());
  static const Words k_words(k_pantry);
  const Recipe recipe =
      read_text("Rolls\nFlour 4 1/2\nwater 1 3/4\nsugar 2\n1 packet yeast\nsalt 2\noil 1/3\n",
                k_pantry, k_words, {})
          .recipe;
  const auto unit_of = [&](std::size_t i) { return recipe.parts[0].lines[i].found.unit; };
  CHECK(unit_of(0) == "cup");
  CHECK(unit_of(1) == "cup");
  CHECK(unit_of(2) == "tbsp");
  CHECK(unit_of(4) == "tsp");
  CHECK(unit_of(5) == "cup");
  CHECK(recipe.doubts.size() >= 5);
}
