#include "dough/temperature.h"

namespace maslin {
namespace {

constexpr double k_fusion_kj_per_kg = 334.0;  // ice, CRC value from memory
constexpr double k_water_kj_per_kg_k = 4.18;
constexpr double k_ice_kj_per_kg_k = 2.05;
constexpr double k_freezer_celsius = -18.0;
constexpr double k_fat_fusion_kj_per_kg = 80.0;
constexpr double k_melts_from_celsius = 10.0;
constexpr double k_melts_to_celsius = 36.0;

/// kg of fat in a kg of the ingredient that is solid in the cold: oils have none.
double solid_fat_share(const Ingredient& ingredient) {
  const Composition& c = ingredient.composition;
  const double fat = c[Component::fat];
  const double saturated = c[Component::saturated];
  return fat > 0.0 && saturated > 0.3 * fat ? fat : 0.0;
}

/// Enthalpy of a kg of the ingredient above 0 C, kJ.
Lanes enthalpy_kj_per_kg(const Ingredient& ingredient, const Lanes& celsius) {
  const Lanes melted = clamp(
      (celsius - k_melts_from_celsius) / (k_melts_to_celsius - k_melts_from_celsius), 0.0, 1.0);
  return specific_heat_kj_per_kg_k(ingredient) * celsius +
         solid_fat_share(ingredient) * k_fat_fusion_kj_per_kg * melted;
}

Lanes total_kg(const std::vector<WarmPortion>& portions) {
  Lanes kg = 0.0;
  for (const WarmPortion& portion : portions) {
    kg += portion.grams / 1000.0;
  }
  return kg;
}

Lanes flour_kg(const std::vector<WarmPortion>& portions) {
  Lanes kg = 0.0;
  for (const WarmPortion& portion : portions) {
    if (portion.ingredient->kind == IngredientKind::flour) {
      kg += portion.grams / 1000.0;
    }
  }
  return kg;
}

/// kJ that the work, the wetting, the bowl and the ice bring, ice as water at 0 C.
Lanes heat_beside_kj(const std::vector<WarmPortion>& portions, const MixingHeat& heat) {
  const Lanes work =
      heat.watts_per_kg * (total_kg(portions) + heat.ice_g / 1000.0) * heat.minutes * 60.0 / 1000.0;
  const Lanes wetting = heat.hydration_kj_per_kg_flour * flour_kg(portions);
  const Lanes ice =
      heat.ice_g / 1000.0 * (k_ice_kj_per_kg_k * k_freezer_celsius - k_fusion_kj_per_kg);
  return work + wetting + heat.bowl_kj_per_k * heat.room_celsius + ice;
}

/// kJ held at one temperature by everything, the bowl and the melted ice with it.
Lanes heat_held_kj(const std::vector<WarmPortion>& portions, const MixingHeat& heat,
                   const Lanes& celsius) {
  Lanes kj = (heat.bowl_kj_per_k + heat.ice_g / 1000.0 * k_water_kj_per_kg_k) * celsius;
  for (const WarmPortion& portion : portions) {
    kj += portion.grams / 1000.0 * enthalpy_kj_per_kg(*portion.ingredient, celsius);
  }
  return kj;
}

Lanes heat_brought_kj(const std::vector<WarmPortion>& portions, const MixingHeat& heat) {
  Lanes kj = heat_beside_kj(portions, heat);
  for (const WarmPortion& portion : portions) {
    kj += portion.grams / 1000.0 * enthalpy_kj_per_kg(*portion.ingredient, portion.celsius);
  }
  return kj;
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
  // Choi & Okos 1986 at 25 C; alcohol 2.44 (CRC, from memory), acid as carbohydrate.
  const Composition& c = ingredient.composition;
  const double carbohydrate =
      c.sugars() + c[Component::starch] + c[Component::other_carbohydrate] + c[Component::acid];
  return 4.177 * c[Component::water] + 2.038 * c[Component::protein] + 2.021 * c[Component::fat] +
         1.598 * carbohydrate + 1.892 * c[Component::fibre] + 1.140 * c[Component::minerals] +
         2.44 * c[Component::alcohol];
}

Lanes dough_temperature_celsius(const std::vector<WarmPortion>& portions, const MixingHeat& heat) {
  const Lanes brought = heat_brought_kj(portions, heat);
  // Heat held grows with temperature without a break: halve the interval to 1e-9 K.
  Lanes low = -20.0;
  Lanes high = 110.0;
  for (int step = 0; step < 40; ++step) {
    const Lanes middle = 0.5 * (low + high);
    const Mask colder = heat_held_kj(portions, heat, middle) < brought;
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
  const Lanes missing =
      heat_held_kj(portions, heat, wanted_celsius) - heat_brought_kj(others, heat);
  const WarmPortion& water = portions[water_index];
  const Lanes kj_per_k =
      max(water.grams / 1000.0 * specific_heat_kj_per_kg_k(*water.ingredient), 1e-9);
  WaterTemperature out;
  out.celsius = missing / kj_per_k;
  // Ice from the freezer in place of tap water: it takes up its warming, its melting and
  // the tap water's own warmth.
  const Lanes per_g_ice = (k_fusion_kj_per_kg - k_ice_kj_per_kg_k * k_freezer_celsius +
                           k_water_kj_per_kg_k * coldest_tap_celsius) /
                          1000.0;
  out.ice_g = clamp(kj_per_k * (coldest_tap_celsius - out.celsius) / per_g_ice, 0.0, water.grams);
  out.tap_water_g = water.grams - out.ice_g;
  return out;
}

double water_by_rule(const RuleOfThree& rule) {
  return 3.0 * rule.wanted - rule.room - rule.flour - rule.friction;
}

double water_by_rule(const RuleOfThree& rule, double preferment) {
  return 4.0 * rule.wanted - rule.room - rule.flour - rule.friction - preferment;
}

}  // namespace maslin
