// Keeping: water activity of each part, days without mould, staling, freezing, water
// moving between filling and crumb, and glazes weeping under film.
#pragma once

#include "finish/tables.h"
#include "finish/unknowns.h"
#include "properties/portion.h"

namespace maslin {

/// Water activity of a part by its components at 25 C: what starch, protein and fibre
/// hold (Oswin) times what is dissolved (Norrish, Ross, Pitzer); sucrose beyond saturation
/// does not count. 1 for plain water.
Lanes part_water_activity(const Portions& portions, const Lanes& water_g);

/// Days without visible mould at this water activity and temperature, sealed:
/// log10 d = 7.91 - 0.081 ERH at 21 C and 6.42 - 0.065 ERH at 27 C, between them linear
/// in log d. Cakes, 0.74-0.90; ends of that range and 15-30 C are held beyond. Infinite
/// below 0.60, where nothing grows. Source: Cauvain and Seiler 1992 (read quoted).
Lanes mould_free_days(const KeepingModel& model, const Lanes& water_activity, const Lanes& celsius);

/// What a recipe does to staling, % on flour.
struct CrumbMakeUp {
  Lanes fat_pct = 0.0;
  Lanes sugar_pct = 0.0;
  Lanes egg_pct = 0.0;
  Lanes scalded_share = 0.0;  // of the flour
};

/// How far an enriched crumb firms in the end, against lean bread (0..1).
Lanes firming_share(const KeepingModel& model, const CrumbMakeUp& make_up);

/// Days of the firming's time constant: 1.5 + 0.105 T, -2 to 40 C (from memory).
Lanes staling_time_constant_days(const KeepingModel& model, const Lanes& celsius);

/// Firmness after so many days against fresh: 1 + (5.5 - 1) share (1 - exp(-t/tau)).
Lanes firmness_ratio(const KeepingModel& model, const Lanes& share, const Lanes& days,
                     const Lanes& celsius);

/// Days until it eats stale: firming reaches `fresh_limit` of lean bread's whole
/// firming; infinite when it never does.
Lanes fresh_days(const KeepingModel& model, const Lanes& share, const Lanes& celsius,
                 const FinishUnknowns& unknowns);

/// Days until it is stale again after it was refreshed when stale: reheating the core to
/// 60-70 C undoes 0.8 of the firming, which then goes 1.75 times as fast (from memory).
Lanes refreshed_days(const KeepingModel& model, const Lanes& share, const Lanes& celsius,
                     const FinishUnknowns& unknowns);
/// Days it stays fresh after freezing on the day and thawing: passing through the cold
/// costs as much as a day at 20 C (from memory, Pence and Standridge).
Lanes thawed_days(const KeepingModel& model, const Lanes& share, const Lanes& celsius,
                  const FinishUnknowns& unknowns);

/// Water that crosses a face between two parts over a time, kg/m2, into the crumb when
/// positive; and how deep it is felt, mm. Half-space diffusion in the crumb:
/// 2 dX rho sqrt(D t/pi), 2 sqrt(D t), at most the whole layer evened out; D doubles for
/// each 10 K above 20.
struct WaterMove {
  Lanes kg_m2;
  Lanes depth_mm;
};
struct CrumbLayer {
  Lanes water_activity;
  Lanes polymer_kg_m3;      // starch, protein and fibre per volume of crumb
  Lanes thickness_m = 1.0;  // as far as one face has to supply
};
WaterMove water_into_crumb(const Lanes& from_activity, const CrumbLayer& crumb, const Lanes& days,
                           const FinishUnknowns& unknowns);

/// Days until a glaze on moist crumb, wrapped, has drawn a share of its own water and is
/// tacky; infinite when the crumb is no wetter than the glaze.
Lanes weeping_days(const KeepingModel& model, const Lanes& glaze_activity,
                   const Lanes& glaze_water_kg_m2, const CrumbLayer& crumb,
                   const FinishUnknowns& unknowns);

/// g of water that a gram of starch, protein and fibre holds at that activity: the
/// isotherm of polymer_water_activity read backwards.
Lanes polymer_water_at(const Lanes& activity);

}  // namespace maslin
