#include "dough/flour.h"

#include <algorithm>

namespace maslin {
namespace {

constexpr double k_points_per_protein = 1.6;
constexpr double k_usual_damaged_starch_pct = 7.0;
// Raw starch wets only on its surface: Bushuk's 0.44 g/g and what it takes to let the
// paste flow; common practice, no source.
constexpr double k_raw_starch_absorption_pct = 45.0;
constexpr double k_starch_counts_above = 0.8;

}  // namespace

Lanes absorption_from_analysis(const FlourAnalysis& analysis) {
  const Lanes damaged = select(analysis.damaged_starch_pct > 0.0, analysis.damaged_starch_pct,
                               Lanes(k_usual_damaged_starch_pct));
  const Lanes ash_points = min(6.0 * (analysis.ash_pct_dry - 0.55), 6.0);
  return 59.3 + k_points_per_protein * (analysis.protein_pct - 11.5) +
         0.9 * (damaged - k_usual_damaged_starch_pct) + ash_points;
}

Lanes absorption_at_moisture(const Lanes& absorption_pct_14, const Lanes& moisture_pct) {
  return (100.0 + absorption_pct_14) * (100.0 - moisture_pct) / 86.0 - 100.0;
}

double absorption_of(const Ingredient& flour) {
  const Composition& c = flour.composition;
  if (c[Component::starch] > k_starch_counts_above && c[Component::protein] < 0.02) {
    return k_raw_starch_absorption_pct;
  }
  if (flour.flour.absorption_pct > 0.0) {
    return flour.flour.absorption_pct;
  }
  const double dry = std::max(0.5, 1.0 - c[Component::water]);
  FlourAnalysis analysis;
  analysis.protein_pct = 100.0 * c[Component::protein] * 0.86 / dry;
  analysis.ash_pct_dry = flour.flour.ash_pct_dry > 0.0 ? flour.flour.ash_pct_dry
                                                       : 100.0 * c[Component::minerals] / dry;
  return absorption_from_analysis(analysis)[0];
}

Ingredient flour_with_protein(const Ingredient& flour, double protein_pct) {
  Ingredient out = flour;
  const double rise = protein_pct / 100.0 - flour.composition[Component::protein];
  out.composition[Component::protein] += rise;
  out.composition[Component::starch] = std::max(0.0, flour.composition[Component::starch] - rise);
  if (out.flour.absorption_pct > 0.0) {
    out.flour.absorption_pct += k_points_per_protein * 100.0 * rise;
  }
  return out;
}

}  // namespace maslin
