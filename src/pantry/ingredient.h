// pantry: ingredients as a baker meets them: composition, density, portions,
// allergens, and the names people give them. Figures live in data/ with a source
// for each row; this folder reads those tables and answers from them.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace maslin {

/// What food is made of. `saturated` is part of `fat`, `salt` (sodium chloride) is
/// part of `minerals`; the others are disjoint and sum to the whole.
enum class Component : std::uint8_t {
  water,
  protein,
  fat,
  saturated,
  sucrose,
  glucose,
  fructose,
  lactose,
  maltose,
  starch,
  fibre,
  other_carbohydrate,
  alcohol,
  acid,
  minerals,
  salt
};
inline constexpr std::size_t k_component_count = 16;
std::string_view component_name(Component component);

/// Mass fractions (g per g of the edible part), indexed by Component.
struct Composition {
  std::array<double, k_component_count> fraction{};

  double operator[](Component c) const { return fraction[static_cast<std::size_t>(c)]; }
  double& operator[](Component c) { return fraction[static_cast<std::size_t>(c)]; }
  double sugars() const;
  /// Sum of the disjoint components; 1 when the row closes.
  double closure() const;
  /// Energy by the general factors 4, 9, 4, 2, 7, 3 kcal per g of protein, fat,
  /// available carbohydrate, fibre, alcohol, organic acid; kcal per g of food.
  /// Source: Regulation (EU) 1169/2011 Annex XIV.
  double energy_kcal_per_g() const;
};

enum class IngredientKind : std::uint8_t {
  flour,
  bran_germ,
  starch,
  sugar,
  syrup,
  fat,
  dairy,
  cheese,
  egg,
  yeast,
  salt,
  leavening,
  water,
  juice,
  plant_milk,
  alcohol,
  fruit,
  dried_fruit,
  puree,
  vegetable,
  potato,
  spice,
  herb,
  nut,
  nut_paste,
  seed,
  chocolate,
  meat,
  fish,
  preserve,
  cooked,
  acid,
  gum,
  extract,
  drink,
  topping,
  legume,
  grain,
  other
};
std::string_view kind_name(IngredientKind kind);
IngredientKind kind_from(std::string_view name);

enum class Gluten : std::uint8_t { none, weak, medium, strong, very_strong };

/// Bread-making figures of a flour or meal.
struct FlourFigures {
  double absorption_pct = 0.0;  // farinograph, 500 units, 14 % moisture basis
  double absorption_sd = 0.0;   // between bags sold under this name
  Gluten gluten = Gluten::none;
  double ash_pct_dry = 0.0;
};

enum class YeastKind : std::uint8_t {
  none,
  fresh,
  active_dry,
  instant,
  osmotolerant_instant,
  starter
};
std::string_view yeast_kind_name(YeastKind kind);

struct YeastFigures {
  YeastKind kind = YeastKind::none;
  double activity = 0.0;             // g of fresh yeast that do the work of 1 g
  double loss_per_month_cool = 0.0;  // share of the activity
};

struct Ingredient {
  std::string id;
  std::string name;     // British
  std::string name_us;  // American
  std::vector<std::string> aliases;
  IngredientKind kind = IngredientKind::other;
  Composition composition;
  double energy_kcal_per_100g = 0.0;  // as the source states it
  std::vector<std::string> allergens;
  double ph = 0.0;  // 0 = unknown
  bool protease = false;
  /// Share of its sugars, water, fat and minerals that a dough feels; the rest stays in pieces.
  double mixes_in = 1.0;
  FlourFigures flour;  // zero unless a flour or meal
  YeastFigures yeast;  // none unless a yeast
  std::string source;
  std::string note;
};

/// The key of an ingredient's kind in the tables: "kind:flour".
std::string kind_key(const Ingredient& ingredient);

}  // namespace maslin
