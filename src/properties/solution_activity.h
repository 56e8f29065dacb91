// Water activity over solutions: sugars, acids and salt in water, over lanes. What starch
// and protein hold is the business of water_activity.h.
#pragma once

#include <array>

#include "numerics/lanes.h"
#include "pantry/ingredient.h"

namespace maslin {

/// Water activity over a solution of one solute by Norrish 1966: a = x_w exp(-K x_s^2),
/// x the mole fractions. Holds for 0.3 < a < 0.99 (Baeza et al. 2010).
Lanes norrish_water_activity(const Lanes& moles_solute_per_g_water, const Lanes& k);

/// Pitzer's coefficients of a salt at 25 C.
struct PitzerSalt {
  double ions = 2.0;            // ions a formula unit gives
  double charges = 1.0;         // |z+ z-|
  double stoichiometry = 1;     // 2 v+ v- / v
  double ionic_strength = 1.0;  // mol/kg of ionic strength for each molal
  double beta_0 = 0.0;
  double beta_1 = 0.0;
  double c_phi = 0.0;
};
/// Pitzer and Mayorga 1973, J. Phys. Chem. 77:2300 (coefficients from memory).
inline constexpr PitzerSalt k_sodium_chloride{2.0, 1.0, 1.0, 1.0, 0.0765, 0.2664, 0.00127};
inline constexpr PitzerSalt k_potassium_chloride{2.0, 1.0, 1.0, 1.0, 0.04835, 0.2122, -0.00084};
inline constexpr PitzerSalt k_potassium_sulphate{3.0, 2.0, 4.0 / 3.0, 3.0, 0.04995, 0.7793, 0.0};

/// Water activity over a salt solution at 25 C, `molality` mol per kg of water, to 6.
Lanes salt_water_activity(const PitzerSalt& salt, const Lanes& molality);

/// Water activity lent by what is dissolved alone (sugars, acids, alcohol, salt), from
/// grams of each component: the product of the solutes' activities, each in all the
/// water (Ross 1975, Food Technology 29(3):26). Usual error 0.02 above 0.8, 0.03 below
/// 0.7 (from memory). Norrish constants from memory (Chirife and others): sucrose and
/// other disaccharides 6.47 (lactose 10.2), glucose 2.25, fructose 2.15, acid 6.2.
Lanes dissolved_water_activity(const std::array<Lanes, k_component_count>& grams);

}  // namespace maslin
