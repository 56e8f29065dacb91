// Glazes of icing sugar and a liquid: how much dissolves, how thick it is at a
// temperature, what a baker would call that, how it runs and sets, and how much of
// either to add.
//
// Sugar dissolves in the glaze's water until it is saturated; the rest, with the
// starch, hangs in that syrup as grains. The grains thicken the syrup by
// Krieger-Dougherty: eta = eta_syrup (1 - phi/phi_m)^(-[eta] phi_m).
#pragma once

#include <cstddef>

#include "finish/tables.h"
#include "finish/unknowns.h"
#include "properties/portion.h"

namespace maslin {

/// A glaze by what its matter does, g in each lane. Linear: bowls add.
struct GlazeMix {
  Lanes crystals_g = 0.0;  // sucrose that comes in as grains
  Lanes starch_g = 0.0;    // with icing sugar, against caking
  Lanes grit_g = 0.0;      // cocoa, ground nuts: grains that never dissolve
  Lanes fat_g = 0.0;
  Lanes saturated_g = 0.0;      // of that, for how it sets
  Lanes water_g = 0.0;          // with alcohol
  Lanes sucrose_g = 0.0;        // dissolved already, with other solids that act like it
  Lanes simple_sugars_g = 0.0;  // glucose and fructose
  Lanes pulpy_g = 0.0;          // juice and puree, for their pulp

  Lanes total_g() const;
};
GlazeMix operator+(const GlazeMix& a, const GlazeMix& b);
GlazeMix operator*(const GlazeMix& mix, const Lanes& factor);

/// The bowl split into what thickens (sugar, cocoa, nuts) and what thins (the rest).
struct GlazeHalves {
  GlazeMix dry;
  GlazeMix wet;
};
GlazeHalves glaze_halves(const Portions& portions, const FinishUnknowns& unknowns);

struct GlazeState {
  Lanes viscosity_pa_s;
  Lanes yield_pa;        // stress under which it does not move
  Lanes set_fat_pa;      // the part of that which butter or cheese fat lends when it sets
  Lanes grains;          // volume fraction of grains and drops
  Lanes dissolved;       // share of the crystals that dissolved, 0..1
  Lanes syrup_fraction;  // g solids per g of the syrup between the grains
  Lanes water_fraction;  // g water per g of glaze
  Lanes water_activity;
  Lanes kg_m3;
  Mask jammed;  // more grains than can move past one another: a paste, no glaze
};

/// The glaze when all that can has dissolved, 0-80 C, at least a trace of water.
/// Grains: sucrose 1588, starch 1500, grit 1450, fat drops 920 kg/m3.
/// Yield: 5 (phi/0.55 - 1)/(1 - phi/phi_m) Pa above phi = 0.55 (guess, no source), and
/// 9e4 Pa times the squared share of solid fat: 0.29 of the saturated fat at 20 C, none at
/// 33 C (guess: a spread holds 50-500 Pa, common practice). The viscosity is that of the
/// glaze with its fat soft.
GlazeState glaze_state(const GlazeMix& mix, const Lanes& celsius, const FinishUnknowns& unknowns);

/// Index in the tables' terms of the word for this viscosity.
Lanes thickness_term(const FinishTables& tables, const Lanes& viscosity_pa_s);

/// Logarithm of the chance that a baker calls this viscosity by that word: the bands'
/// edges are blurred by a third each way (common practice, no source). The likelihood
/// of a note such as "100 g with 15 g just holds a line".
Lanes term_log_likelihood(const ThicknessTerm& term, const Lanes& viscosity_pa_s);

/// How much of the dry half goes with the wet half as it stands (or the reverse:
/// 1/dry_factor of the wet with the dry) so that the glaze has this viscosity.
struct GlazeBalance {
  Lanes dry_factor;
  Mask met;  // false: no amount does it (the liquid alone is thicker, or the target too stiff)
};
/// `at_least` is a factor known to be too small, such as that of a thinner glaze.
GlazeBalance balance_glaze(const GlazeHalves& halves, const Lanes& target_pa_s,
                           const Lanes& celsius, const FinishUnknowns& unknowns,
                           const Lanes& at_least = 0.0);

/// Water that leaves a surface of this activity into the room, kg/m2 s; negative when the
/// air is the damper. drying_m_s p_sat (a - humidity)/(R_water T).
Lanes drying_flux_kg_m2_s(const Lanes& water_activity, const FinishUnknowns& unknowns);

/// The side it is put on, and how it is looked at.
struct GlazeSide {
  Lanes slope_degrees = 45.0;  // from level to upright: 1-90
  double length_mm = 30.0;
  double layer_mm = 2.0;  // as poured
  double wait_s = 60.0;   // until the film is looked at
};

/// What a glaze does on a piece.
struct GlazeFlow {
  Lanes film_mm;       // left on the side after the wait; 4 mm at most, as it is laid on
  Lanes speed_mm_s;    // of the layer as poured, down the side
  Lanes line_mm;       // width after the wait of a thread piped 3 mm thick
  Lanes skin_minutes;  // until it has a skin, in the room; infinite if the air is too damp
};
GlazeFlow glaze_flow(const GlazeState& state, const FinishUnknowns& unknowns,
                     const GlazeSide& side = {});

}  // namespace maslin
