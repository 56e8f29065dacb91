// One bake of one piece by SUNDIALS CVODE at tight tolerance, on the column's own
// equations: the same cells, another way through time.
#pragma once

#include <vector>

#include "bake/column.h"

namespace maslin {

struct CvodeBake {
  std::vector<double> temperature_k;  // per node at the end
  std::vector<double> water;
  long steps = 0;
};

/// From `start` through `end_s` seconds in surroundings that do not change, volume held.
CvodeBake cvode_bake(const CellColumn& column, const ColumnFigures& figures,
                     const Surroundings& around, const ColumnState& start, double end_s,
                     double relative_tolerance);

}  // namespace maslin
