// Law: a recipe written as text reads back to the same recipe, whatever it holds.
#include "recipe/recipe_text.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <cmath>
#include <string>
#include <vector>

#include "pantry/pantry.h"
#include "reading/reading.h"

using namespace maslin;

namespace {

const Pantry& pantry() {
  static const Pantry k_pantry(embedded_pantry_tables());
  return k_pantry;
}
const Words& words() {
  static const Words k_words(pantry());
  return k_words;
}

Line any_line(const std::string& locale) {
  const auto& all = pantry().ingredients();
  const Ingredient& ingredient = all[*rc::gen::inRange<std::size_t>(0, all.size())];
  Line line;
  line.ingredient_id = ingredient.id;
  line.name = ingredient.name;
  switch (*rc::gen::inRange(0, 4)) {
    case 0: {
      const double grams = *rc::gen::inRange(1, 4000) / 4.0;
      line.found = {Range{grams, grams}, "g", "", ""};
      break;
    }
    case 1: {
      const double cups = *rc::gen::inRange(1, 24) / 4.0;
      line.found = {Range{cups, cups}, "cup", "", ""};
      break;
    }
    case 2: {
      const double spoons = *rc::gen::inRange(1, 12) / 2.0;
      line.found = {Range{spoons, spoons + 0.5}, "tbsp", "", ""};
      break;
    }
    default: {
      const double ml = *rc::gen::inRange(1, 100) * 5.0;
      line.found = {Range{ml, ml}, "ml", "", ""};
      break;
    }
  }
  const Range number = *line.found.number;
  const auto weight =
      pantry().weigh(ingredient, uniform(number.low, number.high), line.found.unit, "", "", locale);
  line.weighed = weight.has_value();
  line.grams = weight.value_or(point(0));
  return line;
}

Step any_step() {
  Step step;
  step.kind = *rc::gen::element(StepKind::knead, StepKind::prove, StepKind::divide, StepKind::bake);
  const double minutes = *rc::gen::inRange(1, 20) * 5.0;
  switch (step.kind) {
    case StepKind::divide:
      step.pieces = Range{1.0 * *rc::gen::inRange(2, 30), 0};
      step.pieces->high = step.pieces->low;
      break;
    case StepKind::bake:
      step.celsius = Range{*rc::gen::inRange(15, 25) * 10.0, 0};
      step.celsius->high = step.celsius->low;
      step.minutes = Range{minutes, minutes + *rc::gen::inRange(0, 2) * 5.0};
      step.until = "golden";
      break;
    case StepKind::prove:
      step.minutes = Range{minutes, minutes};
      step.until = "doubled";
      step.place = *rc::gen::element<std::string>("", "warm", "cold");
      break;
    default:
      step.minutes = Range{minutes, minutes};
      break;
  }
  return step;
}

Recipe any_recipe() {
  Recipe recipe;
  recipe.title = "Saturday buns";
  recipe.locale = *rc::gen::element<std::string>("us", "uk", "au");
  const double pieces = *rc::gen::inRange(2, 40);
  recipe.pieces = Range{pieces, pieces};
  for (const PartKind kind : {PartKind::dough, PartKind::filling, PartKind::glaze}) {
    Part part;
    part.kind = kind;
    part.name = std::string(part_kind_name(kind));
    for (int i = *rc::gen::inRange(1, 7); i > 0; --i) {
      part.lines.push_back(any_line(recipe.locale));
    }
    recipe.parts.push_back(part);
  }
  // A method under one heading alone is taken as the whole recipe's, and goes to the
  // dough: each part's own steps are told apart when the dough has its own.
  for (int i = *rc::gen::inRange(0, 5); i > 0; --i) {
    recipe.parts.front().steps.push_back(any_step());
  }
  return recipe;
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
