// Questions put to the bake backwards.
#pragma once

#include <string>

#include "bake/bake.h"

namespace maslin {

struct OvenSetting {
  std::string problem;       // one sentence where there is none, else empty
  double set_point_k = 0.0;  // of the oven's first phase
  double minutes = 0.0;      // when core and colour are both there
  double core_k = 0.0;
  double lightness = 0.0;
  double weight_loss_pct = 0.0;
  int bakes = 0;  // tried
};

/// The setting at which the open crust has this lightness just when the core is done by
/// the rule's temperature: hotter it would be darker by then, cooler paler. Between 120
/// and 300 degrees Celsius, by halving; the first lane counts, all phases move together.
/// Where even an end of that span is too pale or too dark, that end comes back with the
/// sentence that says so.
OvenSetting setting_for(const Piece& piece, const Oven& oven, const Lanes& core_k, double lightness,
                        const BakeUnknowns& unknowns);

/// The last minute of a run's trace at which a lane has lost no more than this, per cent of
/// the dough (12 to 15 is overbaked: bakery page, read); the trace's end where it never
/// does.
Lanes last_minute_before_dry(const BakeRun& run, double weight_loss_pct);

}  // namespace maslin
