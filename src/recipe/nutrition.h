// nutrition: what a recipe and its parts contain, from the pantry's composition. Expected amounts
// only: each line counts with the mean of its weight.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "pantry/pantry.h"
#include "recipe/recipe.h"

namespace maslin {

/// Contents of a mass of food.
struct Nutrition {
  double grams = 0.0;
  std::array<double, k_component_count> component_grams{};
  /// By the energy each food's source states: for USDA's foods that is by factors of their own.
  double stated_energy_kcal = 0.0;
  std::size_t lines_left_out = 0;  // without a weight or a known ingredient

  double operator[](Component c) const { return component_grams[static_cast<std::size_t>(c)]; }
  double sugars_grams() const;
  /// Without fibre and organic acids: what European labels call carbohydrate.
  double available_carbohydrate_grams() const;
  /// By difference, fibre and organic acids counted: what North American labels call carbohydrate.
  double total_carbohydrate_grams() const;
  double sodium_mg() const;
  /// By the general factors of Regulation (EU) 1169/2011 Annex XIV; polyols count as sugars.
  double label_energy_kcal() const;

  Nutrition scaled(double factor) const;
  Nutrition per_100_grams() const { return grams > 0.0 ? scaled(100.0 / grams) : *this; }
  /// After so many grams of water have gone (baked, boiled, dried), at most all of it.
  Nutrition less_water(double lost_grams) const;
};
Nutrition operator+(const Nutrition& a, const Nutrition& b);

/// The contents of so much of an ingredient.
Nutrition nutrition_of(const Ingredient& ingredient, double grams);

/// Each part before baking, in the order of the recipe, with the parts its lines use; what goes
/// on of a part (its yield) is of the part's own composition, but of a boiled part only water is
/// lost. Nothing when the parts go round in a ring.
std::optional<std::vector<Nutrition>> nutrition_of_parts(const Recipe& recipe,
                                                         const Pantry& pantry);

/// All that is eaten: the parts that no other part uses, before baking. Nothing when the parts
/// go round in a ring. Per piece is this scaled by 1 / recipe.pieces.
std::optional<Nutrition> nutrition_of(const Recipe& recipe, const Pantry& pantry);

}  // namespace maslin
