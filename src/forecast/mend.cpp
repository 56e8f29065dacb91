#include "forecast/mend.h"

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "quantity/number_text.h"
#include "quantity/table.h"

namespace maslin {
namespace {

/// "name=value" pieces of a change.
std::vector<std::pair<std::string, double>> terms_of(std::string_view change) {
  std::vector<std::pair<std::string, double>> out;
  for (const std::string_view term : split(change, ' ')) {
    const std::size_t equals = term.find('=');
    if (equals != std::string_view::npos) {
      if (const auto value = number_from(std::string(term.substr(equals + 1)))) {
        out.emplace_back(std::string(term.substr(0, equals)), *value);
      }
    }
  }
  return out;
}

bool is_liquid(const Ingredient& one) {
  constexpr double k_mostly_water = 0.8;
  return one.kind != IngredientKind::egg && one.composition[Component::water] > k_mostly_water;
}

/// Whether a line of this part is what the word changes.
bool is_meant(const std::string& word, PartKind part, const Ingredient& one) {
  const bool topping = part == PartKind::glaze || part == PartKind::topping;
  if (word == "glaze_liquid") {
    return topping && is_liquid(one);
  }
  if (topping || part == PartKind::filling || part == PartKind::wash) {
    return false;
  }
  return (word == "yeast" && one.kind == IngredientKind::yeast) ||
         (word == "liquid" && is_liquid(one)) ||
         (word == "sugar" &&
          (one.kind == IngredientKind::sugar || one.kind == IngredientKind::syrup)) ||
         (word == "salt" && one.kind == IngredientKind::salt);
}

void change_bake(Recipe& recipe, const std::string& word, double value) {
  for (Part& part : recipe.parts) {
    for (Step& step : part.steps) {
      if (step.kind != StepKind::bake) {
        continue;
      }
      if (word == "oven_celsius" && step.celsius) {
        step.celsius = Range{step.celsius->low + value, step.celsius->high + value};
      }
      if (word == "bake_minutes" && step.minutes) {
        step.minutes = Range{std::max(1.0, step.minutes->low + value),
                             std::max(1.0, step.minutes->high + value)};
      }
    }
  }
}

void change_pieces(Recipe& recipe, double times) {
  if (recipe.pieces) {
    recipe.pieces = Range{recipe.pieces->low / times, recipe.pieces->high / times};
  }
  for (Part& part : recipe.parts) {
    for (Step& step : part.steps) {
      if (step.pieces) {
        step.pieces = Range{step.pieces->low / times, step.pieces->high / times};
      }
      if (step.piece_grams) {
        step.piece_grams = *step.piece_grams * times;
      }
    }
  }
}

}  // namespace

Recipe mended(Recipe recipe, const Pantry& pantry, std::string_view change) {
  for (const auto& [word, value] : terms_of(change)) {
    change_bake(recipe, word, value);
    if (word == "piece") {
      change_pieces(recipe, value);
    }
    for (Part& part : recipe.parts) {
      for (Line& line : part.lines) {
        const Ingredient* one = pantry.find(line.ingredient_id);
        if (one != nullptr && line.weighed && is_meant(word, part.kind, *one)) {
          line.grams = line.grams.scaled(value);
        }
      }
    }
  }
  return recipe;
}

void mend_schedule(ForecastSetup& setup, std::string_view change) {
  for (const auto& [word, value] : terms_of(change)) {
    if (word == "prove" && !setup.schedule.proves.empty()) {
      double& ratio = setup.schedule.proves.back().volume_ratio;
      ratio = 1.0 + (ratio - 1.0) * value;
    }
  }
}

}  // namespace maslin
