// The entries of a finish forecast, one maker for each thing worked out; used by
// finish.cpp alone.
#pragma once

#include <vector>

#include "finish/finish.h"
#include "finish/glaze.h"
#include "finish/keeping.h"

namespace maslin {

/// What every maker may look at.
struct FinishScene {
  const FinishTables& tables;
  const std::vector<FinishPart>& parts;
  const BakedPiece& piece;
  const FinishUnknowns& unknowns;
  CoolingBody body;
  CoolingCurve cooling;
  Lanes dough_g = 0.0;
  Lanes flour_g = 0.0;
  bool has_dough = false;
  CrumbLayer crumb;
  Lanes water_boils_celsius = 100.0;
  Lanes crumb_water_fraction = 0.38;
};
FinishScene finish_scene(const FinishTables& tables, const std::vector<FinishPart>& parts,
                         const BakedPiece& piece, const FinishUnknowns& unknowns);

/// Water activity of a part as it is eaten: boiled, dissolved, or as mixed.
Lanes eaten_water_activity(const FinishScene& scene, const FinishPart& part);

/// What a part is worked out as; nothing: cautions and keeping alone. A boiled filling is
/// worked out as a syrup too.
enum class FinishWork { nothing, glaze, coating, wash, syrup, filling, soak };
FinishWork work_for(const FinishPart& part);
bool boils_to_syrup(const FinishPart& part);

bool holds_kind(const Portions& portions, IngredientKind kind);
bool holds_any(const Portions& portions, const std::vector<std::string>& ids);
/// Starch, protein and fibre, g.
Lanes polymer_g(const Portions& portions);
/// Water a boiled part loses on the stove, g.
Lanes boiled_off_g(const FinishPart& part);
/// Mean pH of a part by the water its things bring; 6.5 where unknown. Higher, so safer,
/// than mixing the acids truly would give.
Lanes part_ph(const Portions& portions);
/// Share of a temperature's way from the room up to the piece's start.
Lanes cooling_share(const FinishScene& scene, const Lanes& celsius);

FinishEntry glaze_entry(const FinishScene& scene, const FinishPart& part);
FinishEntry coating_entry(const FinishScene& scene, const FinishPart& part);
FinishEntry wash_entry(const FinishScene& scene, const FinishPart& part);
FinishEntry syrup_entry(const FinishScene& scene, const FinishPart& part);
FinishEntry filling_entry(const FinishScene& scene, const FinishPart& part);
FinishEntry soak_entry(const FinishScene& scene, const FinishPart& part);
FinishEntry fruit_entry(const FinishScene& scene, const FinishPart& part);
FinishEntry cooling_entry(const FinishScene& scene);

/// Keeping of every part and of the whole piece.
std::vector<FinishEntry> keeping_entries(const FinishScene& scene);
std::vector<FinishCaution> finish_cautions(const FinishScene& scene);
/// Where this recipe leaves what the models were made for.
std::vector<std::string> outside_sentences(const FinishScene& scene);

}  // namespace maslin
