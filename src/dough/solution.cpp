#include "dough/solution.h"

#include <algorithm>

namespace maslin {
namespace {

constexpr double k_molar_water_g = 18.015;

struct Sugar {
  Component component;
  double norrish_k;  // from memory (Chirife, Favetto, Ferro Fontan); maltose uncertain
  double molar_g;
};
constexpr std::array<Sugar, 5> k_sugars{{{Component::sucrose, 6.47, 342.3},
                                         {Component::glucose, 2.25, 180.16},
                                         {Component::fructose, 2.15, 180.16},
                                         {Component::lactose, 10.2, 342.3},
                                         {Component::maltose, 4.54, 342.3}}};

Lanes of(const std::array<Lanes, k_component_count>& grams, Component component) {
  return grams[static_cast<std::size_t>(component)];
}

/// Osmotic coefficient of sodium chloride at 25 C against molality, 0.5 to 6 mol/kg
/// within 0.005: a quadratic through the values of Robinson & Stokes (from memory).
Lanes sodium_chloride_activity(const Lanes& molality) {
  const Lanes osmotic = 0.8990 + molality * (0.0352 + 0.00456 * molality);
  return exp(-2.0 * osmotic * molality * (k_molar_water_g / 1000.0));
}

Lanes polymer_activity(const Lanes& water_per_solids) {
  constexpr double k_oswin_a = 0.113;
  constexpr double k_oswin_b = 0.33;
  const Lanes ratio = pow(max(water_per_solids, 1e-6) / k_oswin_a, 1.0 / k_oswin_b);
  return ratio / (1.0 + ratio);
}

}  // namespace

Lanes water_activity_of(const std::array<Lanes, k_component_count>& grams) {
  const Lanes water = max(of(grams, Component::water), 1e-9);
  const Lanes polymer = of(grams, Component::starch) + of(grams, Component::protein) +
                        of(grams, Component::fibre) + of(grams, Component::other_carbohydrate);
  Lanes activity = polymer_activity(water / max(polymer, 1e-9));
  const Lanes water_mol = water / k_molar_water_g;
  for (const Sugar& sugar : k_sugars) {
    const Lanes sugar_mol = of(grams, sugar.component) / sugar.molar_g;
    const Lanes x_sugar = sugar_mol / (sugar_mol + water_mol);
    activity *= (1.0 - x_sugar) * exp(-sugar.norrish_k * x_sugar * x_sugar);
  }
  constexpr double k_molar_salt_g = 58.44;
  const Lanes salt_molality = of(grams, Component::salt) / k_molar_salt_g / (water / 1000.0);
  return activity * sodium_chloride_activity(min(salt_molality, 6.1));
}

Lanes ph_of(const Portions& portions, const HydrationTable& table) {
  constexpr double k_flour_ph = 6.1;
  constexpr double k_sour_ph = 3.5;
  constexpr double k_titrated_ph = 8.1;
  constexpr double k_acid_g_per_mol = 67.0;
  Lanes buffered_ph = 0.0;
  Lanes buffer = 0.0;
  for (const Portions::Item& item : portions.items) {
    const double acid = item.ingredient->composition[Component::acid];
    double ph = item.ingredient->ph;
    if (ph <= 0.0) {
      ph = acid > 0.003 ? k_sour_ph : k_flour_ph;
    }
    double mmol_per_g_ph = table.of(*item.ingredient).buffer_mmol_per_kg_ph / 1000.0;
    if (ph < k_titrated_ph - 1.0) {
      mmol_per_g_ph += 1000.0 * acid / k_acid_g_per_mol / (k_titrated_ph - ph);
    }
    buffered_ph += item.grams * (mmol_per_g_ph * ph);
    buffer += item.grams * mmol_per_g_ph;
  }
  return select(buffer > 0.0, buffered_ph / max(buffer, 1e-12), Lanes(7.0));
}

}  // namespace maslin
