// How sour a dough is.
#pragma once

#include "dough/hydration.h"
#include "numerics/lanes.h"
#include "properties/portion.h"

namespace maslin {

/// pH of the mixture, every ingredient a linear buffer about its own pH: the mean of the
/// pH weighted by buffer (data/hydration.tsv) plus, where it holds acid, the acid's own
/// (67 g per mole of acid spread from its pH to 8.1, as it would be titrated).
/// An ingredient of unknown pH counts 6.1 (flour), 3.5 when it holds acid. Derived.
Lanes ph_of(const Portions& portions, const HydrationTable& table);

}  // namespace maslin
