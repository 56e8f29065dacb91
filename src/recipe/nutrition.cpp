#include "recipe/nutrition.h"

#include <algorithm>
#include <vector>

namespace maslin {
namespace {

/// Salt in the pantry is sodium times this: molar masses of NaCl and Na, 58.44 / 22.99.
constexpr double k_salt_per_sodium = 2.54;

std::size_t index_of_part(const Recipe& recipe, std::string_view name) {
  for (std::size_t i = 0; i < recipe.parts.size(); ++i) {
    if (recipe.parts[i].name == name) {
      return i;
    }
  }
  return recipe.parts.size();
}

bool is_boiled(const Part& part) {
  return std::any_of(part.steps.begin(), part.steps.end(),
                     [](const Step& step) { return step.kind == StepKind::boil; });
}

/// What goes on of a part.
Nutrition yielded(const Part& part, const Nutrition& whole) {
  const double share = part.yield.mean();
  return is_boiled(part) ? whole.less_water(whole.grams * (1.0 - share)) : whole.scaled(share);
}

Nutrition left_out() {
  Nutrition out;
  out.lines_left_out = 1;
  return out;
}

Nutrition of_line(const Line& line, const Recipe& recipe, const Pantry& pantry,
                  const std::vector<Nutrition>& parts) {
  if (!line.part.empty()) {
    const std::size_t index = index_of_part(recipe, line.part);
    if (index == recipe.parts.size()) {
      return left_out();
    }
    const Nutrition all = yielded(recipe.parts[index], parts[index]);
    const bool some = line.weighed && all.grams > 0.0;
    return some ? all.scaled(line.grams.mean() / all.grams) : all;
  }
  const Ingredient* ingredient = pantry.find(line.ingredient_id);
  return ingredient != nullptr && line.weighed ? nutrition_of(*ingredient, line.grams.mean())
                                               : left_out();
}

bool is_used(const Recipe& recipe, const Part& wanted) {
  for (const Part& part : recipe.parts) {
    for (const Line& line : part.lines) {
      if (line.part == wanted.name && !line.part.empty()) {
        return true;
      }
    }
  }
  return false;
}

}  // namespace

double Nutrition::sugars_grams() const {
  const Nutrition& n = *this;
  return n[Component::sucrose] + n[Component::glucose] + n[Component::fructose] +
         n[Component::lactose] + n[Component::maltose];
}

double Nutrition::available_carbohydrate_grams() const {
  return sugars_grams() + (*this)[Component::starch] + (*this)[Component::other_carbohydrate];
}

double Nutrition::total_carbohydrate_grams() const {
  return available_carbohydrate_grams() + (*this)[Component::fibre] + (*this)[Component::acid];
}

double Nutrition::sodium_mg() const {
  return 1000.0 * (*this)[Component::salt] / k_salt_per_sodium;
}

double Nutrition::label_energy_kcal() const {
  // The factors are per gram of each component, so the grams may stand for fractions of 1 g.
  return Composition{component_grams}.energy_kcal_per_g();
}

Nutrition Nutrition::scaled(double factor) const {
  Nutrition out = *this;
  out.grams *= factor;
  out.stated_energy_kcal *= factor;
  for (double& grams_of : out.component_grams) {
    grams_of *= factor;
  }
  return out;
}

Nutrition Nutrition::less_water(double lost_grams) const {
  Nutrition out = *this;
  double& water = out.component_grams[static_cast<std::size_t>(Component::water)];
  const double lost = std::clamp(lost_grams, 0.0, water);
  water -= lost;
  out.grams -= lost;
  return out;
}

Nutrition operator+(const Nutrition& a, const Nutrition& b) {
  Nutrition out = a;
  out.grams += b.grams;
  out.stated_energy_kcal += b.stated_energy_kcal;
  out.lines_left_out += b.lines_left_out;
  for (std::size_t i = 0; i < k_component_count; ++i) {
    out.component_grams[i] += b.component_grams[i];
  }
  return out;
}

Nutrition nutrition_of(const Ingredient& ingredient, double grams) {
  Nutrition out;
  out.grams = grams;
  out.stated_energy_kcal = grams * ingredient.energy_kcal_per_100g / 100.0;
  for (std::size_t i = 0; i < k_component_count; ++i) {
    out.component_grams[i] = grams * ingredient.composition.fraction[i];
  }
  return out;
}

std::optional<std::vector<Nutrition>> nutrition_of_parts(const Recipe& recipe,
                                                         const Pantry& pantry) {
  const auto order = parts_in_order(recipe);
  if (!order) {
    return std::nullopt;
  }
  std::vector<Nutrition> parts(recipe.parts.size());
  for (const std::size_t index : *order) {
    for (const Line& line : recipe.parts[index].lines) {
      parts[index] = parts[index] + of_line(line, recipe, pantry, parts);
    }
  }
  return parts;
}

std::optional<Nutrition> nutrition_of(const Recipe& recipe, const Pantry& pantry) {
  const auto parts = nutrition_of_parts(recipe, pantry);
  if (!parts) {
    return std::nullopt;
  }
  Nutrition total;
  for (std::size_t i = 0; i < parts->size(); ++i) {
    if (!is_used(recipe, recipe.parts[i])) {
      total = total + yielded(recipe.parts[i], (*parts)[i]);
    }
  }
  return total;
}

}  // namespace maslin
