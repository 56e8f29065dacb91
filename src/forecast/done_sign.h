// When a recipe calls its pieces baked: by its words, else by what they are.
#pragma once

#include <string_view>

#include "bake/bake.h"
#include "forecast/schedule.h"

namespace maslin {

/// The rule of a recipe's "until" (data/done_words.tsv; "core 94 C" gives that core). Without
/// words a loaf is done by core, colour all round and weight, a flat bread that is not wanted soft
/// when it is golden, anything else by its core; an `enriched` loaf is wanted soft and need not
/// have lost a tenth: core and a golden top. What is small sounds hollow when core, top and base
/// are golden, whatever it has lost. `covered`: a topping hides the top of a flat bread, so that
/// its base must be golden instead. `core_k` is the usual core of such a dough.
DoneRule done_rule_of(const PlannedBake& bake, const Lanes& core_k, bool enriched,
                      bool covered = false);

}  // namespace maslin
