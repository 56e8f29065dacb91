// What stands in for what, where it does, and what the swap brings and takes away.
#include "adjust/substitution.h"

#include <doctest/doctest.h>

#include <set>
#include <string>

#include "support/larder.h"

using namespace maslin;

namespace {

Recipe with_glaze() {
  Recipe out;
  Part dough;
  dough.name = "dough";
  dough.lines = {weighed_line("plain_flour", 500.0), weighed_line("icing_sugar", 50.0),
                 weighed_line("butter", 100.0), weighed_line("whole_milk", 250.0)};
  Part glaze;
  glaze.kind = PartKind::glaze;
  glaze.name = "glaze";
  glaze.lines = {weighed_line("icing_sugar", 120.0), weighed_line("water", 20.0)};
  out.parts = {dough, glaze};
  return out;
}

}  // namespace

TEST_CASE("caster sugar does in a dough and not in a glaze of icing sugar") {
  const Swapped out =
      swap_ingredient(with_glaze(), whole_pantry(), "icing_sugar", "caster_sugar", {});
  CHECK(out.problem.empty());
  CHECK(out.recipe.parts[0].lines[1].ingredient_id == "caster_sugar");
  CHECK(out.recipe.parts[1].lines[0].ingredient_id == "icing_sugar");
  REQUIRE(out.notes.size() == 2);
  CHECK(out.notes[1].find("stays in the glaze") != std::string::npos);
  Recipe only_glaze = with_glaze();
  only_glaze.parts[0].lines.erase(only_glaze.parts[0].lines.begin() + 1);
  CHECK(swap_ingredient(only_glaze, whole_pantry(), "icing_sugar", "caster_sugar", {})
            .problem.find("stays in the glaze") != std::string::npos);
}

TEST_CASE("a swap says in grams what it brings and takes away") {
  // Butter of 81 % fat and 16 % water by oil: 100 g for 80 g.
  const Swapped out = swap_ingredient(with_glaze(), whole_pantry(), "butter", "vegetable_oil", {});
  REQUIRE(out.notes.size() == 1);
  CHECK(out.notes[0].find("keeps the fat") != std::string::npos);
  CHECK(out.notes[0].find("g less water") != std::string::npos);
}

TEST_CASE("what the table does not know is swapped by what it is put in for") {
  const Swapped fats = swap_ingredient(with_glaze(), whole_pantry(), "butter", "shortening", {});
  const double of_butter = whole_pantry().find("butter")->composition[Component::fat];
  const double of_other = whole_pantry().find("shortening")->composition[Component::fat];
  CHECK(fats.recipe.parts[0].lines[2].grams.p50() == doctest::Approx(100.0 * of_butter / of_other));
  CHECK(fats.notes.at(0).find("as much fat as before") != std::string::npos);
  const Swapped odd = swap_ingredient(with_glaze(), whole_pantry(), "butter", "plain_flour", {});
  CHECK(odd.notes.at(0).find("nothing is known of this swap") != std::string::npos);
}

TEST_CASE("the table names foods of the pantry, functions and kinds of part that there are") {
  const std::set<std::string> functions = {"structure", "water", "fat",
                                           "sweetness", "lift",  "colour"};
  for (const Substitution& row : substitutions()) {
    CHECK_MESSAGE(whole_pantry().find(row.from) != nullptr, row.from);
    CHECK_MESSAGE(whole_pantry().find(row.to) != nullptr, row.to);
    CHECK(row.ratio > 0.0);
    CHECK(!row.changes.empty());
    CHECK(!row.keeps.empty());
    std::string word;
    for (const char c : row.keeps + " ") {
      if (c != ' ') {
        word += c;
        continue;
      }
      CHECK_MESSAGE(functions.contains(word), word);
      word.clear();
    }
    CHECK((row.not_in.empty() || row.not_in == "glaze"));
  }
}
