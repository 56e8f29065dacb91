// What goes on a piece under one heading often does several jobs: a wash before the oven,
// nuts strewn on, chocolate and icing after it. Each is worked out by itself.
#pragma once

#include <vector>

#include "finish/finish.h"

namespace maslin {

/// The jobs of a glaze, wash or topping, in the order of its lines; the part itself where it
/// does one job. A job is named after its part and what leads it. Things without a job of
/// their own (water, milk, butter, spice) go with what stands before them, else after.
std::vector<FinishPart> jobs_of(const FinishPart& part);

}  // namespace maslin
