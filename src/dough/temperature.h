// The temperature of a mixed dough, and of the water that gives the one wanted.
#pragma once

#include <vector>

#include "numerics/lanes.h"
#include "pantry/ingredient.h"

namespace maslin {

/// One ingredient going into the bowl at its own temperature.
struct WarmPortion {
  const Ingredient* ingredient = nullptr;
  Lanes grams;
  Lanes celsius = 20.0;
};

enum class Mixing : std::uint8_t { none, hand, stand_mixer };
/// Heat put in by working the dough, W per kg of dough: hand 4 (2 to 8), stand mixer
/// 20 (15 to 25). From memory.
double mixing_watts_per_kg(Mixing mixing);

/// What else heats or cools the bowl.
struct MixingHeat {
  Lanes watts_per_kg = 4.0;
  Lanes minutes = 10.0;
  Lanes hydration_kj_per_kg_flour = 10.0;  // heat of wetting, 8 to 15; from memory
  Lanes room_celsius = 21.0;
  /// The bowl, at room temperature, that comes to the dough's: kJ/K. A steel bowl of
  /// 0.7 kg 0.35, an earthen one of 1.5 kg 1.2 (specific heats 0.5 and 0.8; from memory).
  Lanes bowl_kj_per_k = 0.35;
  Lanes ice_g = 0.0;  // from the freezer, at -18 C
};

/// Specific heat of an ingredient at 25 C, kJ/(kg K), from properties/thermal.h.
double specific_heat_kj_per_kg_k(const Ingredient& ingredient);

/// Temperature of the mixed dough, C: the point where the enthalpy of everything in the
/// bowl equals what went in plus work and wetting. Solid fat melts between 10 and 36 C
/// (80 kJ per kg of saturated-rich fat). Holds from -5 to 60 C.
Lanes dough_temperature_celsius(const std::vector<WarmPortion>& portions, const MixingHeat& heat);

/// A yeast dough is best mixed to 24 to 27 C: common practice, no source.
inline constexpr double k_wanted_dough_celsius = 26.0;

/// What the water must be for a wanted dough temperature.
struct WaterTemperature {
  Lanes celsius;      // may be out of any tap's reach
  Lanes ice_g;        // to replace so much of the water when colder than the tap
  Lanes tap_water_g;  // the rest of it
};
/// The named portion (an index into `portions`) is the liquid whose temperature is free.
WaterTemperature water_for_dough_temperature(const std::vector<WarmPortion>& portions,
                                             std::size_t water_index, const MixingHeat& heat,
                                             const Lanes& wanted_celsius,
                                             const Lanes& coldest_tap_celsius);

/// The trade's rule: water = n * wanted - room - flour - friction (- preferment), any one
/// unit throughout; n = 3, or 4 with a preferment.
struct RuleOfThree {
  double wanted = 0.0;
  double room = 0.0;
  double flour = 0.0;
  double friction = 0.0;
};
double water_by_rule(const RuleOfThree& rule);
double water_by_rule(const RuleOfThree& rule, double preferment);

}  // namespace maslin
