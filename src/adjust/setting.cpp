#include "adjust/setting.h"

#include <algorithm>
#include <cmath>

#include "adjust/substitution.h"
#include "forecast/bowl.h"
#include "recipe/price_list.h"

namespace maslin {
namespace {

/// How loath a baker is to change a line: liquids first, flour and the costly last.
double weight_of(const Ingredient* ingredient) {
  if (ingredient == nullptr) {
    return 6.0;
  }
  switch (ingredient->kind) {
    case IngredientKind::water:
      return 0.8;
    case IngredientKind::dairy:
    case IngredientKind::plant_milk:
    case IngredientKind::juice:
    case IngredientKind::yeast:
    case IngredientKind::salt:
      return 1.0;
    case IngredientKind::sugar:
    case IngredientKind::syrup:
    case IngredientKind::fat:
      return 1.5;
    case IngredientKind::egg:
      return 3.0;
    case IngredientKind::flour:
      return 4.0;
    default:
      return 5.0;
  }
}

bool is_pack(const std::string& unit) {
  return unit == "packet" || unit == "cube" || unit == "can" || unit == "tablet";
}

/// Grams of one whole item of the line, 0 when it can be cut or weighed: three eggs, two
/// oranges, a packet.
double unit_grams_of(const Line& line, const Ingredient* ingredient, double grams, double scale) {
  // Less than that of one is broken off it: no one leaves the yeast out of half a recipe.
  constexpr double k_least_whole = 0.75;
  if (ingredient == nullptr || !line.found.number ||
      line.found.number->low != line.found.number->high) {
    return 0.0;
  }
  const double count = line.found.number->low;
  const std::string& unit = line.found.unit;
  const bool whole_unit =
      unit == "piece" || is_pack(unit) || (unit.empty() && ingredient->kind == IngredientKind::egg);
  return whole_unit && count >= 1.0 && count == std::floor(count) && count * scale >= k_least_whole
             ? grams / count
             : 0.0;
}

BatchDraws medians_of(const Bowls& bowls) {
  BatchDraws out;
  for (const Unknown& unknown : bowls.unknowns) {
    out.push_back(unknown.prior.p50());
  }
  return out;
}

/// Grams of one piece or packet of the line: as it was counted, else as the pantry has it.
double one_piece_g(const BalanceLine& line, const Line& found, const Ingredient* ingredient,
                   const Pantry& pantry) {
  if (grams_in(found.found.unit) <= 0.0 && found.found.number &&
      found.found.number->middle() > 0.0) {
    return line.grams_before / found.found.number->middle();
  }
  if (ingredient != nullptr) {
    if (const auto piece = pantry.portion(*ingredient, "piece", found.found.size, "")) {
      return piece->grams;
    }
  }
  return line.grams_before;
}

void hold_line(BalanceLine& line, const Line& found, const Ingredient* ingredient,
               const Pantry& pantry, const AdjustRequest& request) {
  for (const Hold& hold : request.holds) {
    if (!is_meant(hold.what, found, ingredient)) {
      continue;
    }
    line.held = true;
    if (hold.grams) {
      line.grams = *hold.grams;
    } else if (hold.count) {
      line.grams = *hold.count * one_piece_g(line, found, ingredient, pantry);
    } else {
      line.grams = line.grams_before;
    }
  }
}

/// Three times as much yeast, salt or spice is beyond any change a baker would make.
double most_of(const Ingredient* ingredient, double grams) {
  if (ingredient == nullptr) {
    return 1e9;
  }
  switch (ingredient->kind) {
    case IngredientKind::yeast:
    case IngredientKind::salt:
    case IngredientKind::leavening:
    case IngredientKind::spice:
    case IngredientKind::herb:
    case IngredientKind::extract:
      return 3.0 * grams;
    default:
      return 1e9;
  }
}

/// What a gram costs by the kitchen's prices, with what is left on bowl and hands; nothing when
/// no price is known. Water is taken as free.
std::optional<double> price_of(const Ingredient& ingredient, const FoodPrices& prices,
                               double waste) {
  if (ingredient.kind == IngredientKind::water) {
    return 0.0;
  }
  const auto at = prices.by_id.find(ingredient.id);
  return at == prices.by_id.end() ? std::nullopt
                                  : std::optional(at->second.per_gram() / (1.0 - waste));
}

/// Prices the dough's lines, and what else the recipe has as a sum.
void price_lines(Setting& out, const Bowls& bowls, const std::vector<FilledBowl>& filled,
                 const Pantry& pantry, const Kitchen& kitchen, double scale) {
  const FoodPrices prices = food_prices(kitchen.prices, pantry, kitchen.country);
  const double waste = kitchen.prices.waste_share();
  double all = 0.0;
  for (std::size_t b = 0; b < bowls.bowls.size(); ++b) {
    for (std::size_t i = 0; i < bowls.bowls[b].lines.size(); ++i) {
      const Ingredient* food = bowls.bowls[b].lines[i].ingredient;
      if (food == nullptr) {
        continue;
      }
      const auto price = price_of(*food, prices, waste);
      all += price.value_or(0.0) * filled[b].line_grams[i][0];
      out.any_price = out.any_price || price.value_or(0.0) > 0.0;
      if (!price &&
          std::find(out.unpriced.begin(), out.unpriced.end(), food->name) == out.unpriced.end()) {
        out.unpriced.push_back(food->name);
      }
    }
  }
  double of_lines = 0.0;
  for (BalanceLine& line : out.balance.lines) {
    bool known = true;
    for (const Portions::Item& item : line.per_gram.items) {
      const auto price = price_of(*item.ingredient, prices, waste);
      known = known && price.has_value();
      line.forms.cost += price.value_or(0.0) * item.grams[0];
    }
    of_lines += line.forms.cost * line.grams_before;
    // What has no price is not used more to seem cheaper.
    line.most_grams = known ? line.most_grams : std::min(line.most_grams, line.grams);
  }
  out.balance.other_cost = scale * std::max(all - of_lines, 0.0);
}

}  // namespace

bool is_meant(std::string_view what, const Ingredient& ingredient) {
  const std::string folded = folded_name(what);
  return !folded.empty() &&
         (folded == folded_name(ingredient.id) || folded == folded_name(ingredient.name) ||
          folded == folded_name(kind_name(ingredient.kind)));
}

bool is_meant(std::string_view what, const Line& line, const Ingredient* ingredient) {
  const std::string folded = folded_name(what);
  return !folded.empty() && ((ingredient != nullptr && is_meant(what, *ingredient)) ||
                             folded_name(line.name).find(folded) != std::string::npos ||
                             folded_name(line.part) == folded);
}

bool has(const std::vector<Want>& wants, WantKind kind) {
  return std::any_of(wants.begin(), wants.end(), [&](const Want& w) { return w.kind == kind; });
}

std::unique_ptr<Setting> setting_of(const Recipe& recipe, const Pantry& pantry,
                                    const AdjustRequest& request, double scale) {
  auto out = std::make_unique<Setting>();
  const Bowls bowls = bowls_of(recipe, request.kitchen, pantry);
  if (recipe.parts.empty() || bowls.order.empty()) {
    out->problem = "The recipe has no part that can be weighed; read it again.";
    return out;
  }
  const std::vector<FilledBowl> filled = fill_bowls(bowls, medians_of(bowls));
  out->own_ingredients = bowls.own_ingredients;
  out->balance.model = &out->model;
  out->part = bowls.dough;
  const Part& part = recipe.parts[bowls.dough];
  const Bowls::Bowl& bowl = bowls.bowls[bowls.dough];
  for (std::size_t i = 0; i < bowl.lines.size(); ++i) {
    const LineAmount& amount = bowl.lines[i];
    BalanceLine line;
    line.grams_before = filled[bowls.dough].line_grams[i][0];
    line.grams = scale * line.grams_before;
    const bool own = amount.line < part.lines.size();
    if (amount.ingredient != nullptr) {
      line.per_gram.items.push_back({amount.ingredient, 1.0});
    } else {
      const Portions& source = filled[amount.part].portions;
      const Lanes total = max(source.total_grams(), 1e-9);
      for (const Portions::Item& item : source.items) {
        line.per_gram.items.push_back({item.ingredient, item.grams / total});
      }
    }
    set_forms(line, out->model);
    line.weight = weight_of(amount.ingredient);
    line.most_grams = most_of(amount.ingredient, line.grams);
    line.held = amount.ingredient == nullptr || !own;
    if (own) {
      const Line& found = part.lines[amount.line];
      line.pack = is_pack(found.found.unit);
      line.unit_grams = unit_grams_of(found, amount.ingredient, line.grams_before, scale);
      hold_line(line, found, amount.ingredient, pantry, request);
    }
    if (amount.ingredient != nullptr) {
      line.gone =
          !line.held &&
          ((has(request.wants, WantKind::no_egg) && bears_allergen(*amount.ingredient, "egg")) ||
           (has(request.wants, WantKind::no_dairy) && bears_allergen(*amount.ingredient, "milk")));
    }
    out->balance.lines.push_back(std::move(line));
    out->recipe_line.push_back(own ? std::optional(amount.line) : std::nullopt);
  }
  if (has(request.wants, WantKind::cost)) {
    price_lines(*out, bowls, filled, pantry, request.kitchen, scale);
  }
  double flour = 0.0;
  for (const BalanceLine& line : out->balance.lines) {
    flour += line.forms.flour * line.grams;
  }
  if (flour <= 0.0) {
    out->problem = "The dough has no weighed flour to balance against; give the flour an amount.";
  }
  return out;
}

void offer_water(Setting& setting, const Pantry& pantry) {
  const Ingredient* water = pantry.find("water");
  for (const BalanceLine& line : setting.balance.lines) {
    if (water == nullptr || (line.per_gram.items.size() == 1 &&
                             line.per_gram.items[0].ingredient == water && !line.held)) {
      return;
    }
  }
  BalanceLine line;
  line.per_gram.items.push_back({water, 1.0});
  line.weight = 1.2;
  set_forms(line, setting.model);
  setting.balance.lines.push_back(std::move(line));
  setting.recipe_line.push_back(std::nullopt);
}

}  // namespace maslin
