// Recipes of any content, for laws of what is written and read back.
#pragma once

#include <rapidcheck.h>

#include <string>
#include <vector>

#include "pantry/pantry.h"
#include "recipe/recipe.h"

namespace recipe_kit {

using namespace maslin;

inline const Pantry& pantry() {
  static const Pantry k_pantry(embedded_pantry_tables());
  return k_pantry;
}

inline Line any_line(const std::string& locale) {
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

inline Step any_step() {
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

inline Recipe any_recipe() {
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

}  // namespace recipe_kit
