// Melted chocolate as a coat: how it runs, what it leaves, what makes it seize, when it sets.
#pragma once

#include "finish/unknowns.h"
#include "properties/portion.h"

namespace maslin {

/// Whether it has the fat to melt to a coat; cocoa powder has not.
bool melts_to_a_coat(const Ingredient& one);

/// What a coat is made of, g of the batch.
struct CoatingMix {
  Lanes fat_g;
  Lanes other_fat_g;   // of that, from butter, cream and oil
  Lanes dry_g;         // sugar, cocoa and milk solids: the grains
  Lanes free_water_g;  // of milk, cream, juice; butter's own stays in its fat
  Lanes total_g;
};
CoatingMix coating_mix(const Portions& portions);

/// Melted at 40 C.
struct CoatingState {
  Lanes grains;          // volume fraction in the fat
  Lanes plastic_pa_s;    // Casson
  Lanes yield_pa;        // Casson
  Lanes viscosity_pa_s;  // at a shear rate of 5 per second, that of a drizzle
  Lanes kg_m3;
  Lanes film_mm;  // what its yield value holds on an upright side
  Lanes seizes;   // 0 or 1 in a lane: wet enough to clump, too dry for a ganache
  Lanes ganache;  // 0 or 1: so much water that the fat hangs in a syrup
  Lanes sets_below_celsius;
};

/// Krieger and Dougherty's suspension in cocoa butter (cocoa in fat follows it: Fang and
/// others 1996, abstract read), packing limit and exponent set on the Casson figures of dark
/// chocolates of 25 to 35 % fat (Afoakwa and others 2008; figures from memory). Fats other than
/// cocoa butter count as liquid fat and lower the temperature of setting.
CoatingState coating_state(const CoatingMix& mix, const FinishUnknowns& unknowns);

/// Oil (g) that brings the coat down to this viscosity at 5 per second; 0 where it is there.
Lanes oil_to_reach_g(const CoatingMix& mix, double target_pa_s, const FinishUnknowns& unknowns);

}  // namespace maslin
