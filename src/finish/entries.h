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

/// What a part is worked out as; nothing: cautions and keeping alone.
enum class FinishWork { nothing, glaze, syrup, filling, soak, extract };
FinishWork work_for(const FinishPart& part);

bool holds_kind(const Portions& portions, IngredientKind kind);
/// Starch, protein and fibre, g.
Lanes polymer_g(const Portions& portions);

FinishEntry glaze_entry(const FinishScene& scene, const FinishPart& part);
FinishEntry syrup_entry(const FinishScene& scene, const FinishPart& part);
FinishEntry filling_entry(const FinishScene& scene, const FinishPart& part);
FinishEntry soak_entry(const FinishScene& scene, const FinishPart& part);
FinishEntry extract_entry(const FinishScene& scene, const FinishPart& part);
FinishEntry fruit_entry(const FinishScene& scene, const FinishPart& part);
FinishEntry cooling_entry(const FinishScene& scene);

/// Keeping of every part and of the whole piece.
std::vector<FinishEntry> keeping_entries(const FinishScene& scene);
std::vector<FinishCaution> finish_cautions(const FinishScene& scene);

}  // namespace maslin
