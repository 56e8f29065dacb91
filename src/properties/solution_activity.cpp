#include "properties/solution_activity.h"

#include "numerics/clones.h"
#include "properties/sucrose.h"

namespace maslin {
namespace {

struct Solute {
  Component component;
  double g_per_mol;
  double norrish_k;
};
// Sources: see the header. Maltose and the higher carbohydrates of glucose syrup are
// given sucrose's constant, for want of their own; alcohol is taken as ideal.
constexpr std::array<Solute, 8> k_solutes = {{
    {Component::sucrose, k_sucrose_g_per_mol, 6.47},
    {Component::glucose, 180.16, 2.25},
    {Component::fructose, 180.16, 2.15},
    {Component::lactose, 342.30, 10.2},
    {Component::maltose, 342.30, 6.47},
    {Component::other_carbohydrate, 504.4, 6.47},
    {Component::alcohol, 46.07, 0.0},
    {Component::acid, 192.1, 6.2},
}};
constexpr double k_salt_g_per_mol = 58.44;
constexpr double k_driest_g = 1e-9;

}  // namespace

Lanes norrish_water_activity(const Lanes& moles_solute_per_g_water, const Lanes& k) {
  const Lanes ratio = moles_solute_per_g_water * k_water_g_per_mol;
  const Lanes water = 1.0 / (1.0 + ratio);
  const Lanes solute = ratio * water;
  return water * exp(-k * solute * solute);
}

Lanes salt_water_activity(const PitzerSalt& salt, const Lanes& molality) {
  // phi - 1 = -A |z+z-| sqrt(I)/(1 + 1.2 sqrt(I)) + m s (b0 + b1 exp(-2 sqrt(I)))
  //           + m^2 C; A = 0.391 at 25 C. For 2:1 salts b and C are taken with
  // s = 2 v+ v-/v.
  constexpr double k_debye_hueckel = 0.3915;
  const Lanes root = sqrt(max(salt.ionic_strength * molality, 0.0));
  const Lanes osmotic =
      1.0 - k_debye_hueckel * salt.charges * root / (1.0 + 1.2 * root) +
      molality * salt.stoichiometry * (salt.beta_0 + salt.beta_1 * exp(-2.0 * root)) +
      molality * molality * salt.c_phi;
  return exp(-salt.ions * (1e-3 * k_water_g_per_mol) * molality * osmotic);
}

MASLIN_ALL_WIDTHS
Lanes dissolved_water_activity(const std::array<Lanes, k_component_count>& grams) {
  const auto of = [&grams](Component c) { return grams[static_cast<std::size_t>(c)]; };
  const Lanes water_g = max(of(Component::water), k_driest_g);
  Lanes activity = 1.0;
  for (const Solute& solute : k_solutes) {
    const Lanes g = of(solute.component);
    if (any(g > 0.0)) {
      activity =
          activity * norrish_water_activity(g / (solute.g_per_mol * water_g), solute.norrish_k);
    }
  }
  if (!any(of(Component::salt) > 0.0)) {
    return activity;
  }
  // Beyond saturation (6.15 molal) salt lies as crystals.
  const Lanes molality = min(of(Component::salt) * (1000.0 / k_salt_g_per_mol) / water_g, 6.15);
  return activity * salt_water_activity(k_sodium_chloride, molality);
}

}  // namespace maslin
