// How much water a flour takes up to a dough of standard consistency.
#pragma once

#include "numerics/lanes.h"
#include "pantry/ingredient.h"

namespace maslin {

/// What a mill's sheet says of a flour. Percentages of the flour at 14 % moisture,
/// ash of dry matter. Zero damaged starch = 7, the middle of roller-milled white flour.
struct FlourAnalysis {
  Lanes protein_pct = 11.5;
  Lanes damaged_starch_pct = 0.0;
  Lanes ash_pct_dry = 0.55;
  Lanes fibre_pct = 2.7;
};

/// Farinograph absorption to 500 units, g of water per 100 g of flour of 14 % moisture:
///   A = 59.3 + 1.6 (P - 11.5) + 0.9 (D - 7) + 6 (a - 0.55)
/// P protein, D damaged starch, a ash; the ash term is held at +6 beyond ash 1.55,
/// where bran no longer adds in proportion. Wheat flours of protein 8 to 16.
/// Slope between the trade's 1 to 2 points for 1 % of protein and the 1.8 of Sedlacek and
/// Svec 2023 (abstract); damaged starch and ash from memory; the level between European
/// and American white flours. Met against both in tests/published/dough_test.cpp.
Lanes absorption_from_analysis(const FlourAnalysis& analysis);

/// The absorption moved from 14 % to another flour moisture (% of the flour): the same
/// dry matter takes water to the same total. Derived: about 1.9 points for 1 point.
Lanes absorption_at_moisture(const Lanes& absorption_pct_14, const Lanes& moisture_pct);

/// Absorption of an ingredient as it comes from the bag, g of water per 100 g: its
/// own figure when the pantry has one, else from its composition. Not moved to the
/// moisture of its composition: tables of foods hold flour that dried on its way to the
/// laboratory (11.9 %), and with that correction published formulas come out 4 points
/// too stiff. For a flour whose moisture was measured use absorption_at_moisture.
double absorption_of(const Ingredient& flour);

/// The flour with another protein content: starch makes room, absorption follows.
Ingredient flour_with_protein(const Ingredient& flour, double protein_pct);

}  // namespace maslin
