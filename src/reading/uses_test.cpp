// Where the method puts what one list names. The texts are in the manner of found ones; what is
// right for them is common practice, no source.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>

#include "pantry/pantry.h"
#include "reading/reading.h"

using namespace maslin;

namespace {

/// The kind of part in which a food stands, "" where it stands in none.
std::string place_of(const std::string& text, const std::string& id) {
  static const Pantry k_pantry(embedded_pantry_tables());
  static const Words k_words(k_pantry);
  const Reading reading = read_text(text, k_pantry, k_words, {});
  for (const Part& part : reading.recipe.parts) {
    for (const Line& line : part.lines) {
      if (line.ingredient_id == id) {
        return std::string(part_kind_name(part.kind));
      }
    }
  }
  return "";
}

const std::string k_list =
    "500 g flour\n250 ml milk\n80 g caster sugar\n60 g margarine\n7 g instant yeast\n8 g salt\n"
    "90 g butter\n120 g brown sugar\n10 g ground cinnamon\n\n";

}  // namespace

TEST_CASE("what is spread on the rolled dough or strewn before the rolling up goes inside") {
  const std::string text =
      k_list +
      "Mix the flour, milk, sugar, margarine, yeast and salt. Knead 10 minutes. Leave to rise for "
      "1 "
      "hour. Roll out to a rectangle and spread with the butter. Scatter the sugar and cinnamon "
      "over. Roll up and cut into 12 slices. Bake at 190 C for 20 minutes.";
  CHECK(place_of(text, "brown_sugar") + place_of(text, "light_brown_sugar") +
            place_of(text, "brown_sugar_light") ==
        "filling");
  CHECK(place_of(text, "cinnamon") == "filling");
  CHECK(place_of(text, "butter") + place_of(text, "unsalted_butter") == "filling");
  CHECK(place_of(text, "margarine") == "dough");
  CHECK(place_of(text, "caster_sugar") == "dough");
}

TEST_CASE("jam in a list is the filling where the method fills and names nothing else") {
  const std::string text =
      "500 g flour\n300 ml milk\n7 g instant yeast\n8 g salt\n150 g raspberry jam\n\n"
      "Mix the flour, milk, yeast and salt. Knead 10 minutes. Leave to rise for 1 hour. Shape 12, "
      "fill, prove again 30 minutes. Bake at 190 C for 15 minutes.";
  CHECK(place_of(text, "jam") + place_of(text, "raspberry_jam") == "filling");
}

TEST_CASE("what is kept once it is baked does not prove") {
  static const Pantry k_pantry(embedded_pantry_tables());
  static const Words k_words(k_pantry);
  const Reading reading = read_text(
      "500 g flour\n300 ml water\n7 g instant yeast\n8 g salt\n\nKnead. Prove 45 min. Bake 170 C "
      "for "
      "45 min. Brush with butter, wrap, and keep two weeks.",
      k_pantry, k_words, {});
  bool baked = false;
  int proves = 0;
  for (const Step& step : reading.recipe.parts.at(0).steps) {
    baked = baked || step.kind == StepKind::bake;
    CHECK_FALSE((baked && step.kind == StepKind::prove));
    proves += step.kind == StepKind::prove ? 1 : 0;
  }
  CHECK(baked);
  CHECK(proves == 1);
}

TEST_CASE("a method that takes the other things all together leaves the list as it is") {
  const std::string text =
      k_list +
      "Mix the flour, milk, yeast and salt with all the other ingredients. Knead 10 minutes. Leave "
      "to rise for 1 hour. Shape into 12 balls. Brush with butter and bake at 190 C for 20 "
      "minutes.";
  CHECK(place_of(text, "cinnamon") == "dough");
  CHECK(place_of(text, "margarine") == "dough");
}

TEST_CASE("the only fat of a list is the dough's, though the tops are brushed with it") {
  const std::string text =
      "500 g flour\n300 ml water\n7 g instant yeast\n8 g salt\n40 g butter\n\n"
      "Mix the flour, water, yeast and salt. Knead 10 minutes. Leave to rise for 1 hour. Shape "
      "into "
      "a loaf. Brush with butter. Bake at 200 C for 35 minutes.";
  CHECK(place_of(text, "butter") + place_of(text, "unsalted_butter") == "dough");
}
