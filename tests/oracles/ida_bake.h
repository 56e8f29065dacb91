// One whole bake by SUNDIALS IDA at tight tolerance: the column's cells, the oven's course and
// the spring, with heat and water kept in the implicit form in which they are conserved.
#pragma once

#include <vector>

#include "bake/bake.h"
#include "bake/bake_setup.h"

namespace maslin {

struct IdaBake {
  bool failed = false;
  std::vector<BakeMoment> trace;  // every `sample_minutes` from loading on
  long steps = 0;
};

/// The bake of `setup` (first lane, one oven phase) through `end_minutes`. The piece's volume is
/// taken from the temperatures of the same instant, not of the last step.
IdaBake ida_bake(const BakeSetup& setup, double end_minutes, double sample_minutes,
                 double relative_tolerance);

}  // namespace maslin
