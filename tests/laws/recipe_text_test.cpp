// Law: a recipe written as text reads back to the same recipe, whatever it holds.
#include "recipe/recipe_text.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "laws/recipe_kit.h"
#include "pantry/pantry.h"
#include "reading/found.h"
#include "recipe/recipe_json.h"

using namespace maslin;
using recipe_kit::any_recipe;
using recipe_kit::pantry;

namespace {

const Words& words() {
  static const Words k_words(pantry());
  return k_words;
}

}  // namespace

TEST_CASE("a written recipe reads back with the same parts, amounts, weights and settings") {
  const bool held = rc::check([] {
    const Recipe recipe = any_recipe();
    const std::string text = write_text(recipe, pantry());
    const Reading reading = read_text(text, pantry(), words(), {});
    RC_LOG() << text;
    RC_ASSERT(!reading.problem.has_value());
    const Recipe& back = reading.recipe;
    RC_ASSERT(back.title == recipe.title);
    RC_ASSERT(back.locale == recipe.locale);
    RC_ASSERT(back.pieces == recipe.pieces);
    RC_ASSERT(back.parts.size() == recipe.parts.size());
    for (std::size_t p = 0; p < back.parts.size(); ++p) {
      RC_ASSERT(back.parts[p].kind == recipe.parts[p].kind);
      RC_ASSERT(back.parts[p].lines.size() == recipe.parts[p].lines.size());
      for (std::size_t i = 0; i < back.parts[p].lines.size(); ++i) {
        const Line& was = recipe.parts[p].lines[i];
        const Line& is = back.parts[p].lines[i];
        RC_LOG() << is.text << " -> " << is.ingredient_id << "\n";
        RC_ASSERT(is.ingredient_id == was.ingredient_id);
        RC_ASSERT(is.found.unit == was.found.unit);
        RC_ASSERT(is.found.number.has_value());
        RC_ASSERT(is.found.number->low == was.found.number->low);
        RC_ASSERT(is.found.number->high == was.found.number->high);
      }
      RC_ASSERT(back.parts[p].steps.size() == recipe.parts[p].steps.size());
      for (std::size_t i = 0; i < back.parts[p].steps.size(); ++i) {
        const Step& was = recipe.parts[p].steps[i];
        const Step& is = back.parts[p].steps[i];
        RC_ASSERT(is.kind == was.kind);
        RC_ASSERT(is.minutes == was.minutes);
        RC_ASSERT(is.celsius == was.celsius);
        RC_ASSERT(is.pieces == was.pieces);
        RC_ASSERT(is.place == was.place);
        RC_ASSERT(is.until == was.until);
      }
    }
    // Written and read once more: the weights too are the same.
    const Reading again = read_text(write_text(back, pantry()), pantry(), words(), {});
    RC_ASSERT(!again.problem.has_value());
    for (std::size_t p = 0; p < back.parts.size(); ++p) {
      for (std::size_t i = 0; i < back.parts[p].lines.size(); ++i) {
        RC_ASSERT(again.recipe.parts[p].lines[i].weighed == back.parts[p].lines[i].weighed);
        RC_ASSERT(again.recipe.parts[p].lines[i].grams == back.parts[p].lines[i].grams);
      }
      RC_ASSERT(again.recipe.parts[p].steps == back.parts[p].steps);
    }
  });
  CHECK(held);
}

TEST_CASE("every name in the pantry, British or American, is read as its own ingredient") {
  int off = 0;
  for (const Ingredient& one : pantry().ingredients()) {
    for (const std::string& name : {one.name, one.name_us}) {
      if (pantry().named(name) != &one) {
        continue;  // an American name that is another thing's British one
      }
      const Reading reading =
          read_text("Buns\n\nDough:\n100 g " + name + "\n8 g salt\n", pantry(), words(), {});
      REQUIRE(!reading.problem.has_value());
      const bool right = reading.recipe.parts.size() == 1 &&
                         reading.recipe.parts[0].lines.size() == 2 &&
                         reading.recipe.parts[0].lines[0].ingredient_id == one.id;
      CHECK_MESSAGE(right, name, " is not read as ", one.id);
      off += right ? 0 : 1;
    }
  }
  CHECK(off == 0);
}

TEST_CASE("whatever was found and read can be kept and opened again") {
  int texts = 0;
  for (const char* folder : {"tests/reading/found", "tests/bakeoff/recipes"}) {
    for (const auto& entry :
         std::filesystem::directory_iterator(std::string(MASLIN_SOURCE_DIR "/") + folder)) {
      if (entry.path().extension() != ".txt") {
        continue;
      }
      CAPTURE(entry.path().filename().string());
      std::ifstream in(entry.path(), std::ios::binary);
      const std::string text{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
      const Reading reading = read_found(text, pantry(), words(), {});
      if (reading.problem) {
        continue;
      }
      const RecipeDocument opened = recipe_from_json(recipe_to_json(reading.recipe));
      CHECK(opened.problems.empty());
      // Ranges are written with six figures; from then on it is the same, to the letter.
      const std::string kept = recipe_to_json(opened.recipe);
      const bool same = recipe_to_json(recipe_from_json(kept).recipe) == kept;
      CHECK(same);
      ++texts;
    }
  }
  CHECK(texts > 100);
}
