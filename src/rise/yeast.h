// What helps, harms and kills yeast before and beside the rise itself.
#pragma once

#include "numerics/lanes.h"
#include "properties/portion.h"
#include "rise/constants.h"

namespace maslin {

/// Factor on the gas rate by the spices among the portions (data/yeast_effects.tsv), by
/// their share of the flour. 1 without any.
Lanes spice_factor(const Portions& portions, const Lanes& flour_g);

/// Share of yeast alive after standing in a liquid or roux of this temperature.
/// exp(-ln 10 t / D), D = 0.3 min at 60 C, ten times more for each 5.5 K below (from
/// memory; anchor: dies at 60 C, harmed above 50 C, unharmed below 43 C). 273-373 K.
Lanes yeast_surviving(const Lanes& temperature_k, double minutes,
                      const RiseConstants& constants = {});

enum class YeastComfort { comfortable, caution, damaging, deadly };
/// What to say of a liquid's temperature before the yeast goes in: comfortable below
/// 43 C, caution to 50, damaging to 55, deadly above.
YeastComfort yeast_comfort(double temperature_k);

}  // namespace maslin
