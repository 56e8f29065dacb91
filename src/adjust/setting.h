// From a recipe to the balance of its dough.
#pragma once

#include <deque>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "adjust/adjust.h"
#include "adjust/balance.h"
#include "pantry/pantry.h"
#include "recipe/recipe.h"

namespace maslin {

bool has(const std::vector<Want>& wants, WantKind kind);

/// Whether a word said of a recipe ("flour", "whole milk", "sponge") means this food, by its name
/// or its kind; or this line, also by what the recipe calls it.
bool is_meant(std::string_view what, const Ingredient& ingredient);
bool is_meant(std::string_view what, const Line& line, const Ingredient* ingredient);

/// The dough of a recipe as a balance, and which recipe line each of its lines is.
struct Setting {
  DoughModel model = dough_model();
  Balance balance;
  std::size_t part = 0;
  std::vector<std::optional<std::size_t>> recipe_line;  // none: a part poured in whole
  /// The kitchen's own flours, which lines point at.
  std::shared_ptr<const std::deque<Ingredient>> own_ingredients;
  std::vector<std::string> unpriced;  // foods of the recipe that have no price
  bool any_price = false;
  std::string problem;
};

/// The recipe's dough, every line `scale` times as heavy as its starting point; holds and
/// what must not be in it are marked. A problem when there is no flour to balance against.
std::unique_ptr<Setting> setting_of(const Recipe& recipe, const Pantry& pantry,
                                    const AdjustRequest& request, double scale);

/// Water joins as a line of nothing, so that it can be added where there is none.
void offer_water(Setting& setting, const Pantry& pantry);

}  // namespace maslin
