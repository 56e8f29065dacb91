#include "dough/temperature.h"

#include "properties/thermal.h"
#include "properties/water.h"

namespace maslin {
namespace {

constexpr double k_fusion_kj_per_kg = 334.0;  // ice, CRC value from memory
constexpr double k_water_kj_per_kg_k = 4.18;
constexpr double k_ice_kj_per_kg_k = 2.05;
constexpr double k_freezer_celsius = -18.0;
constexpr double k_fat_fusion_kj_per_kg = 80.0;
constexpr double k_melts_from_celsius = 10.0;
constexpr double k_melts_to_celsius = 36.0;

/// What of a portion decides its heat: mass, specific heat, and the fat that melts.
struct HeatTerm {
  Lanes kg;
  double kj_per_kg_k = 0.0;
  double solid_fat_share = 0.0;  // kg of fat in a kg that is solid in the cold: oils have none
};

HeatTerm heat_term(const WarmPortion& portion) {
  const Composition& c = portion.ingredient->composition;
  const double fat = c[Component::fat];
  const bool hardens = c[Component::saturated] > 0.3 * fat;
  return {portion.grams / 1000.0, specific_heat_kj_per_kg_k(*portion.ingredient),
          hardens ? fat : 0.0};
}

/// Enthalpy of the portion above 0 C, kJ.
Lanes enthalpy_kj(const HeatTerm& term, const Lanes& celsius) {
  const Lanes melted = clamp(
      (celsius - k_melts_from_celsius) / (k_melts_to_celsius - k_melts_from_celsius), 0.0, 1.0);
  return term.kg *
         (term.kj_per_kg_k * celsius + term.solid_fat_share * k_fat_fusion_kj_per_kg * melted);
}

/// The bowl with everything in it, its heat capacities looked up once.
struct Balance {
  std::vector<HeatTerm> terms;
  Lanes bowl_and_ice_kj_per_k = 0.0;
  Lanes brought_kj = 0.0;  // by every portion, the work, the wetting, the bowl and the ice

  Lanes held_kj(const Lanes& celsius) const {
    Lanes kj = bowl_and_ice_kj_per_k * celsius;
    for (const HeatTerm& term : terms) {
      kj += enthalpy_kj(term, celsius);
    }
    return kj;
  }
};

Balance balance_of(const std::vector<WarmPortion>& portions, const MixingHeat& heat) {
  Balance out;
  const Lanes ice_kg = heat.ice_g / 1000.0;
  Lanes dough_kg = ice_kg;
  Lanes flour_kg = 0.0;
  for (const WarmPortion& portion : portions) {
    out.terms.push_back(heat_term(portion));
    const HeatTerm& term = out.terms.back();
    dough_kg += term.kg;
    flour_kg += portion.ingredient->kind == IngredientKind::flour ? term.kg : Lanes(0.0);
    out.brought_kj += enthalpy_kj(term, portion.celsius);
  }
  // The melted ice counts from 0 C, so it brings its cold and its heat of fusion as a debt.
  out.brought_kj += ice_kg * (k_ice_kj_per_kg_k * k_freezer_celsius - k_fusion_kj_per_kg);
  out.brought_kj += heat.watts_per_kg * dough_kg * heat.minutes * 60.0 / 1000.0;
  out.brought_kj += heat.hydration_kj_per_kg_flour * flour_kg;
  out.brought_kj += heat.bowl_kj_per_k * heat.room_celsius;
  out.bowl_and_ice_kj_per_k = heat.bowl_kj_per_k + ice_kg * k_water_kj_per_kg_k;
  return out;
}

}  // namespace

double mixing_watts_per_kg(Mixing mixing) {
  switch (mixing) {
    case Mixing::none:
      return 0.0;
    case Mixing::hand:
      return 4.0;
    case Mixing::stand_mixer:
      return 20.0;
  }
  return 0.0;
}

double specific_heat_kj_per_kg_k(const Ingredient& ingredient) {
  const Portions kilogram{{{&ingredient, 1000.0}}};
  const Lanes k_25_celsius_k = 25.0 + k_zero_celsius_k;
  return thermal_properties(food_fractions(kilogram), k_25_celsius_k).heat_capacity_j_per_kg_k[0] /
         1000.0;
}

Lanes dough_temperature_celsius(const std::vector<WarmPortion>& portions, const MixingHeat& heat) {
  const Balance balance = balance_of(portions, heat);
  // Heat held grows with temperature without a break: halve the interval to 1e-10 K.
  Lanes low = -20.0;
  Lanes high = 110.0;
  for (int step = 0; step < 40; ++step) {
    const Lanes middle = 0.5 * (low + high);
    const Mask colder = balance.held_kj(middle) < balance.brought_kj;
    low = select(colder, middle, low);
    high = select(colder, high, middle);
  }
  return 0.5 * (low + high);
}

WaterTemperature water_for_dough_temperature(const std::vector<WarmPortion>& portions,
                                             std::size_t water_index, const MixingHeat& heat,
                                             const Lanes& wanted_celsius,
                                             const Lanes& coldest_tap_celsius) {
  std::vector<WarmPortion> others = portions;
  others[water_index].celsius = 0.0;
  const Balance balance = balance_of(others, heat);
  const Lanes missing_kj = balance.held_kj(wanted_celsius) - balance.brought_kj;
  const HeatTerm& water = balance.terms[water_index];
  const Lanes kj_per_k = max(water.kg * water.kj_per_kg_k, 1e-9);
  WaterTemperature out;
  out.celsius = missing_kj / kj_per_k;
  // Ice from the freezer in place of tap water: it takes up its warming, its melting and
  // the tap water's own warmth.
  const Lanes per_g_ice = (k_fusion_kj_per_kg - k_ice_kj_per_kg_k * k_freezer_celsius +
                           k_water_kj_per_kg_k * coldest_tap_celsius) /
                          1000.0;
  const Lanes all_g = portions[water_index].grams;
  out.ice_g = clamp(kj_per_k * (coldest_tap_celsius - out.celsius) / per_g_ice, 0.0, all_g);
  out.tap_water_g = all_g - out.ice_g;
  return out;
}

double water_by_rule(const RuleOfThree& rule) {
  return 3.0 * rule.wanted - rule.room - rule.flour - rule.friction;
}

double water_by_rule(const RuleOfThree& rule, double preferment) {
  return 4.0 * rule.wanted - rule.room - rule.flour - rule.friction - preferment;
}

}  // namespace maslin
