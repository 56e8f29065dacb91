// Fillings: will it run, boil out or dry the dough; how much of it, how thick; what it adds
// in sugar; and whether the roll keeps its swirl.
#pragma once

#include <optional>

#include "finish/tables.h"
#include "finish/unknowns.h"
#include "properties/portion.h"
#include "recipe/recipe.h"

namespace maslin {

/// Where a filling or topping sits.
enum class FillingPlace { rolled, folded, enclosed, open };

/// Where the steps of a recipe put its filling; nothing when they do not say.
std::optional<FillingPlace> filling_place(const FinishTables& tables, const Recipe& recipe);

/// A filling by itself.
struct FillingState {
  Lanes solids_fraction;  // g dissolved solids per g of them and the water (Brix / 100)
  Lanes water_fraction;   // g per g of filling
  Lanes fat_fraction;
  Lanes sugar_fraction;
  Lanes water_activity;
  Lanes kg_m3;
  Lanes hot_pa_s;       // at 95 C
  Lanes boils_celsius;  // at this height
  Lanes rise_k;         // that above water's boiling point
  Lanes sets;           // 0..1: egg, meat and the like set before it can run
};

/// What a filling goes through.
struct FillingSetting {
  Lanes water_boils_celsius = 100.0;  // at this height
  Lanes boiled_off_g = 0.0;           // water lost on the stove
};

/// Hot viscosity: the continuous phase (syrup, or melted fat where fat outweighs it) with
/// grains of undissolved sugar, nuts and spice, and fruit fibre and starch swollen with
/// water to 12 times their mass (fibre: as it drains, common practice; starch: from
/// memory), by Krieger-Dougherty; 1e5 Pa s, a paste, at most. A jam's pectin melts.
FillingState filling_state(const FinishTables& tables, const Portions& filling,
                           const FillingSetting& setting, const FinishUnknowns& unknowns);

/// How the filling lies in the dough.
struct FillingLayout {
  Lanes sheet_cm2;     // dough rolled out; for a ball its inner face
  Lanes kg_m2;         // filling on that
  Lanes thickness_mm;  // of the filling layer; enclosed: the radius of its ball
  Lanes wall_mm;       // dough: the sheet, or the wall about an enclosed filling
};
/// Whole masses for sheets; masses of one piece when enclosed.
FillingLayout filling_layout(const Lanes& dough_g, const Lanes& filling_g,
                             const FillingState& state, FillingPlace place,
                             const FinishUnknowns& unknowns);

/// Chances in a lane, 0 or 1; their mean over draws is the chance.
struct FillingRisks {
  Lanes runs_out;     // under about 1 Pa s at 95 C, nothing sets it, no wall of 4 mm holds it in
  Lanes boils_out;    // a watery filling reaches its boiling point where it lies
  Lanes steam_gap;    // more than a third of water under a lid of dough: steam lifts the lid
  Lanes dries_dough;  // drier (in water activity) than the crumb
};
FillingRisks filling_risks(const FillingState& state, const FillingLayout& layout,
                           FillingPlace place, const Lanes& crumb_activity,
                           const FinishUnknowns& unknowns);

/// What makes a roll part from its filling.
struct RollState {
  Lanes effective_hydration;  // % on flour; about 60 firm, 75 slack
  Lanes sheet_mm;
  Lanes filling_water_fraction;
  Lanes filling_kg_m2;
  Lanes proof_ratio = 1.8;  // volume after the last prove over before it
};
struct RollRisks {
  Lanes tunnel;      // chance of a gap between the turns
  Lanes lost_swirl;  // chance that the turns blur or slide apart
};
/// Logistic scores from common practice, no source: each of a slack dough, a sheet under
/// 5 mm, a wet or thick filling and over-proof raises them. They rank choices; as chances
/// they are uncalibrated.
RollRisks roll_risks(const RollState& state);

}  // namespace maslin
