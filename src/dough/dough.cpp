#include "dough/dough.h"

#include <algorithm>

#include "dough/acidity.h"
#include "dough/flour.h"
#include "properties/thermal.h"
#include "properties/water.h"
#include "properties/water_activity.h"

namespace maslin {
namespace {

/// The warmth at which home bakers judge a dough; the words of recipes are taken to be about it.
constexpr double k_usual_celsius = 24.0;

double gluten_quality(Gluten gluten) {
  switch (gluten) {
    case Gluten::none:
      return 0.0;
    case Gluten::weak:
      return 0.7;
    case Gluten::medium:
      return 0.9;
    case Gluten::strong:
      return 1.0;
    case Gluten::very_strong:
      return 1.1;
  }
  return 0.0;
}

Lanes item_scale(const Ingredient& ingredient, const DoughUnknowns& unknowns) {
  switch (ingredient.kind) {
    case IngredientKind::egg:
      return unknowns.egg_scale;
    case IngredientKind::fruit:
    case IngredientKind::puree:
    case IngredientKind::vegetable:
    case IngredientKind::potato:
    case IngredientKind::juice:
    case IngredientKind::preserve:
      return unknowns.fruit_scale;
    default:
      return 1.0;
  }
}

void add_flour(DoughTerms& bowl, const Ingredient& flour, const Lanes& grams) {
  const Composition& c = flour.composition;
  bowl.bag_flour_g += grams;
  bowl.absorbed_g += grams * absorption_of(flour);
  bowl.flour_moisture_g += grams * c[Component::water];
  const double quality = gluten_quality(flour.flour.gluten);
  if (quality > 0.0) {
    bowl.wheat_protein_g += grams * c[Component::protein];
    bowl.gluten_quality_g += grams * (c[Component::protein] * quality);
  }
}

/// Fat that hardens slackens a dough less when it is cold: butter counts 0.28 at 18 C,
/// 0.40 at 24 C, more as it melts; oils the same at any temperature. Common practice.
Lanes softness_of_fat(const Composition& c, const Lanes& dough_celsius) {
  const bool hardens = c[Component::saturated] > 0.25 * c[Component::fat];
  return hardens ? clamp(1.0 + 0.08 * (dough_celsius - k_usual_celsius), 0.35, 1.4) : Lanes(1.0);
}

void add_item(DoughTerms& bowl, const Portions::Item& item, const HydrationTable& table,
              const DoughUnknowns& unknowns) {
  const Ingredient& ingredient = *item.ingredient;
  const Composition& c = ingredient.composition;
  const HydrationCoefficients& k = table.of(ingredient);
  const double share = flour_share(ingredient, k);
  bowl.flour_g += item.grams * share;
  if (k.flour == CountsAsFlour::yes) {
    add_flour(bowl, ingredient, item.grams);
  } else if (share > 0.0) {
    // Flour already wetted, in a starter or a paste: its own 14 % is not water added.
    bowl.flour_moisture_g += item.grams * (0.14 * share);
    bowl.effective_water_g -= item.grams * (0.14 * share * k.water);
  }
  const double plain = k.water * (c[Component::water] + c[Component::alcohol]);
  // What takes water up scales with one unknown, what slackens with its own.
  const double taken_up = k.fibre * c[Component::fibre] + k.protein * c[Component::protein] +
                          std::min(0.0, k.starch) * c[Component::starch] +
                          whole_equivalent(ingredient, k);
  const double syrup =
      std::max(0.0, k.starch) * (c[Component::starch] + c[Component::other_carbohydrate]);
  const Lanes scale = item_scale(ingredient, unknowns);
  const Lanes fat = unknowns.fat_scale * softness_of_fat(c, unknowns.dough_celsius);
  bowl.effective_water_g +=
      item.grams * scale *
      (plain + taken_up * unknowns.fibre_scale + k.fat * c[Component::fat] * fat);
  bowl.sugar_water_g +=
      item.grams * scale * ((k.sugar * c.sugars() + syrup) * unknowns.sugar_scale);
  if (ingredient.protease) {
    bowl.protease_g += item.grams;
  }
  if (ingredient.kind == IngredientKind::spice) {
    bowl.spice_g += item.grams;
  }
  if (ingredient.kind == IngredientKind::egg) {
    bowl.egg_g += item.grams;
  }
  // Activity of instant yeast, in fresh yeast: 1 / 0.35 (Gisslen, Professional Cooking).
  constexpr double k_instant_activity = 1.0 / 0.35;
  if (ingredient.yeast.kind != YeastKind::starter) {
    bowl.yeast_g += item.grams * (ingredient.yeast.activity / k_instant_activity);
  }
}

GlutenWeakening weakening_of(const DoughTerms& bowl, const DoughState& state) {
  GlutenWeakening out;
  const Lanes flour = max(bowl.flour_g, 1e-9);
  // 0.05 % of fresh pineapple relaxes a dough, a hundred times that destroys it: the
  // half-way dose 0.3 % is between; common practice, no source.
  const Lanes protease_pct = 100.0 * bowl.protease_g / flour;
  out.protease = protease_pct / (protease_pct + 0.3);
  // Below pH 4.5 dough weakens: 0.4 lost for one unit; common practice, no source.
  out.acid = clamp(0.4 * (4.5 - state.ph), 0.0, 0.8);
  // Fat to 5 % does no harm; brioche at 50 % keeps about two thirds; common practice.
  out.fat = clamp(0.007 * (state.fat_pct_flour - 5.0), 0.0, 0.5);
  // White flour has 2.7 % fibre, wholemeal 11 % and loses about a third of its volume
  // for it; common practice, no source.
  out.bran = clamp(0.04 * (state.fibre_pct_flour - 3.5), 0.0, 0.6);
  const Lanes quality_protein_pct = 100.0 * bowl.gluten_quality_g / flour;
  constexpr double k_enough_protein_pct = 11.5;
  out.low_protein = clamp(1.0 - quality_protein_pct / k_enough_protein_pct, 0.0, 1.0);
  return out;
}

void set_hydration(DoughState& state, const DoughTerms& bowl, const DoughUnknowns& unknowns) {
  const Lanes per_flour = 100.0 / max(bowl.flour_g, 1e-9);
  const Lanes sugar_water =
      bowl.sugar_water_g * stiffness_factor(bowl.effective_water_g * per_flour);
  state.effective_water_g = bowl.effective_water_g + sugar_water;
  state.effective_hydration_pct = state.effective_water_g * per_flour;
  constexpr double k_usual_absorption = 60.0;
  const Lanes bag = select(bowl.bag_flour_g > 0.0, bowl.absorbed_g / max(bowl.bag_flour_g, 1e-9),
                           Lanes(k_usual_absorption));
  const Lanes salt_points = unknowns.salt_points_per_pct * state.salt_pct_flour;
  state.absorption_pct = bag + unknowns.flour_absorption + salt_points;
  const Lanes over = state.effective_hydration_pct - state.absorption_pct;
  // 500 units at the absorption, halving for each 11 points: slope 31 units per point,
  // after the correction of ISO 5530-1 (0.032 points per unit; from memory).
  constexpr double k_units_per_point = 0.0625;
  state.consistency_fu = 500.0 * exp(-k_units_per_point * over);
  // Two points for ten degrees: common practice, no source.
  // Salt lowers the absorption but tightens the dough, so that hands do not find a salted
  // dough softer: the score is set against the unsalted absorption.
  state.feel_score =
      over + salt_points + unknowns.feel_shift + 0.2 * (unknowns.dough_celsius - k_usual_celsius);
}

void set_percentages(DoughState& state, const DoughTerms& bowl,
                     const std::array<Lanes, k_component_count>& grams) {
  const Lanes per_flour = 100.0 / max(bowl.flour_g, 1e-9);
  const auto pct = [&](Component c) { return grams[static_cast<std::size_t>(c)] * per_flour; };
  state.water_pct_flour = state.water_g * per_flour;
  state.sugar_pct_flour = pct(Component::sucrose) + pct(Component::glucose) +
                          pct(Component::fructose) + pct(Component::lactose) +
                          pct(Component::maltose);
  state.fat_pct_flour = pct(Component::fat);
  state.salt_pct_flour = pct(Component::salt);
  state.acid_pct_flour = pct(Component::acid);
  state.fibre_pct_flour = pct(Component::fibre);
  state.alcohol_pct_flour = pct(Component::alcohol);
  state.egg_pct_flour = bowl.egg_g * per_flour;
  state.spice_pct_flour = bowl.spice_g * per_flour;
  state.yeast_pct_flour = bowl.yeast_g * per_flour;
  state.protein_pct_flour = bowl.wheat_protein_g * per_flour;
}

}  // namespace

Lanes GlutenWeakening::strength() const {
  return (1.0 - protease) * (1.0 - acid) * (1.0 - fat) * (1.0 - bran) * (1.0 - low_protein);
}

DoughTerms dough_terms(const DoughModel& model, const Portions& portions,
                       const DoughUnknowns& unknowns) {
  DoughTerms out;
  for (const Portions::Item& item : portions.items) {
    add_item(out, item, model.hydration, unknowns);
  }
  return out;
}

Lanes stiffness_factor(const Lanes& hydration_pct) {
  return clamp(1.0 + 0.05 * (45.0 - hydration_pct), 1.0, 2.0);
}

DoughState assess_dough(const DoughModel& model, const Portions& portions,
                        const DoughUnknowns& unknowns) {
  const DoughTerms bowl = dough_terms(model, portions, unknowns);
  const Portions mixed = portions.mixed_in();
  const std::array<Lanes, k_component_count> grams = mixed.components();
  const Lanes& all_water_g = grams[static_cast<std::size_t>(Component::water)];
  DoughState state;
  state.has_flour = all(bowl.flour_g > 0.0);
  state.total_g = portions.total_grams();
  state.flour_g = bowl.flour_g;
  state.water_g = all_water_g - bowl.flour_moisture_g;
  const Lanes temperature_k = unknowns.dough_celsius + k_zero_celsius_k;
  state.water_activity = water_activity(binding(mixed), water_per_solids(mixed), temperature_k);
  state.ph = ph_of(portions, model.hydration);
  // Air beaten in while mixing: 8 % of the volume (4 to 12); from memory.
  constexpr double k_air_share = 0.08;
  const ThermalProperties dense = thermal_properties(food_fractions(portions), temperature_k);
  state.density_g_per_ml = dense.density_kg_per_m3 / 1000.0 * (1.0 - k_air_share);
  state.volume_ml = state.total_g / max(state.density_g_per_ml, 1e-9);
  if (!state.has_flour) {
    return state;
  }
  set_percentages(state, bowl, grams);
  set_hydration(state, bowl, unknowns);
  const Lanes sugar_g = state.sugar_pct_flour * state.flour_g / 100.0;
  state.sugar_per_water = sugar_g / max(state.water_g, 1e-9);
  state.weakening = weakening_of(bowl, state);
  for (const Portions::Item& item : portions.items) {
    const Lanes pct = 100.0 * item.grams / state.flour_g;
    const auto same =
        std::find_if(state.bakers_pct.begin(), state.bakers_pct.end(),
                     [&](const auto& row) { return row.first == item.ingredient->id; });
    if (same == state.bakers_pct.end()) {
      state.bakers_pct.emplace_back(item.ingredient->id, pct);
    } else {
      same->second += pct;
    }
  }
  return state;
}

Lanes flour_for_score(const DoughState& state, double score) {
  // score + rest = 100 E / F - A, so F = 100 E / (A + score + rest).
  const Lanes rest = state.feel_score - (state.effective_hydration_pct - state.absorption_pct);
  return 100.0 * state.effective_water_g / max(state.absorption_pct + score - rest, 1.0);
}

Lanes water_for_score(const DoughState& state, double score) {
  return (score - state.feel_score) * state.flour_g / 100.0;
}

}  // namespace maslin
