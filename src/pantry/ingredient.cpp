#include "pantry/ingredient.h"

namespace maslin {
namespace {

constexpr std::array<std::string_view, k_component_count> k_component_names{
    "water",   "protein", "fat",   "saturated",  "sucrose", "glucose", "fructose", "lactose",
    "maltose", "starch",  "fibre", "other_carb", "alcohol", "acid",    "minerals", "salt"};

constexpr std::array<std::string_view, 39> k_kind_names{
    "flour",      "bran_germ", "starch", "sugar",       "syrup",     "fat",       "dairy",
    "cheese",     "egg",       "yeast",  "salt",        "leavening", "water",     "juice",
    "plant_milk", "alcohol",   "fruit",  "dried_fruit", "puree",     "vegetable", "potato",
    "spice",      "herb",      "nut",    "nut_paste",   "seed",      "chocolate", "meat",
    "fish",       "preserve",  "cooked", "acid",        "gum",       "extract",   "drink",
    "topping",    "legume",    "grain",  "other"};

}  // namespace

std::string_view component_name(Component component) {
  return k_component_names[static_cast<std::size_t>(component)];
}

std::string_view kind_name(IngredientKind kind) {
  return k_kind_names[static_cast<std::size_t>(kind)];
}

IngredientKind kind_from(std::string_view name) {
  for (std::size_t i = 0; i < k_kind_names.size(); ++i) {
    if (k_kind_names[i] == name) {
      return static_cast<IngredientKind>(i);
    }
  }
  return IngredientKind::other;
}

std::string_view yeast_kind_name(YeastKind kind) {
  switch (kind) {
    case YeastKind::none:
      return "none";
    case YeastKind::fresh:
      return "fresh";
    case YeastKind::active_dry:
      return "active_dry";
    case YeastKind::instant:
      return "instant";
    case YeastKind::osmotolerant_instant:
      return "osmotolerant_instant";
    case YeastKind::starter:
      return "starter";
  }
  return "none";
}

std::string kind_key(const Ingredient& ingredient) {
  return "kind:" + std::string(kind_name(ingredient.kind));
}

double Composition::sugars() const {
  const Composition& c = *this;
  return c[Component::sucrose] + c[Component::glucose] + c[Component::fructose] +
         c[Component::lactose] + c[Component::maltose];
}

double Composition::closure() const {
  double total = 0.0;
  for (std::size_t i = 0; i < k_component_count; ++i) {
    const auto component = static_cast<Component>(i);
    if (component != Component::saturated && component != Component::salt) {
      total += fraction[i];
    }
  }
  return total;
}

double Composition::energy_kcal_per_g() const {
  const Composition& c = *this;
  const double carbohydrate = c.sugars() + c[Component::starch] + c[Component::other_carbohydrate];
  return 4.0 * (c[Component::protein] + carbohydrate) + 9.0 * c[Component::fat] +
         2.0 * c[Component::fibre] + 7.0 * c[Component::alcohol] + 3.0 * c[Component::acid];
}

}  // namespace maslin
