// The oven as a piece meets it: air, radiation, steam, and what it stands on.
#pragma once

#include <string_view>
#include <vector>

#include "numerics/lanes.h"
#include "properties/water.h"
#include "recipe/kitchen.h"

namespace maslin {

/// What a kind of oven does to a piece. Source: data/oven_kinds.tsv, row by row.
struct OvenFigures {
  double convection_w_per_m2_k = 7.0;  // at sea level, still or fanned air
  double radiation = 0.85;             // emissivity times view factor, top and sides
  double top_above_set_k = 0.0;        // roof and walls over the set-point
  double base_above_set_k = 10.0;      // floor or element over the set-point
  double vapour_pa = 1500.0;           // water vapour in the air of the oven
  double drop_k = 20.0;                // what opening the door and loading cost
  double recovery_minutes = 4.0;       // 1/e time of coming back
  double warm_up_minutes = 12.0;       // 1/e time from cold to the set-point
  double fall_minutes = 0.0;           // 1/e time of a fire dying; 0 = held
  double trapped_share = 0.0;          // of the air pressure that steam reaches under a lid
};

/// What the base and sides stand against. Source: data/bakeware.tsv, row by row.
struct BakewareFigures {
  double emissivity = 0.6;            // of the outside, toward the oven
  double heat_j_per_m2_k = 3500.0;    // of tin, tray or stone under the piece
  double contact_w_per_m2_k = 150.0;  // between it and the dough
  double vent = 0.1;                  // share of an open surface's film past its edges
  bool preheated = false;             // in the oven before the piece
};

/// The set-point changes, or steam is let in or out, from a minute on.
struct OvenPhase {
  double from_minute = 0.0;
  Lanes set_point_k = 453.15;
  /// Vapour pressure of the oven air that this phase adds, Pa, dying away with 3 min
  /// (steam thrown in; 60 000 is a good burst); no source for the 3 minutes.
  double steam_pa = 0.0;
  bool covered = false;  // a lid traps the piece's own steam and stops air movement
  /// Share of the radiation that reaches the open surface: 1, or about 0.15 under foil (its
  /// own emissivity 0.04 to 0.1 outside; emissivity tables, read).
  double shade = 1.0;
  /// Out of the oven, in the air of the room; the next phase that is not puts it in again.
  bool outside = false;
};

enum class Preheat { hot, cold };

struct Oven {
  OvenKind kind = OvenKind::conventional;
  OvenFigures figures;
  BakewareFigures bakeware;
  /// At least one; the first begins at minute 0. Later ones in order of time.
  std::vector<OvenPhase> phases{OvenPhase{}};
  Preheat preheat = Preheat::hot;
  Lanes room_k = 294.15;
  Lanes pressure_pa = k_standard_pressure_pa;
};

/// The oven of a kind with what `bakeware` names ("dark tin", "tray", "stone", ...);
/// an unknown name gives the plain tray.
Oven oven_of(OvenKind kind, const Lanes& set_point_k, std::string_view bakeware = "tray");

/// A sentence when the oven is beyond the model, else empty.
std::string_view oven_problem(const Oven& oven);

}  // namespace maslin
