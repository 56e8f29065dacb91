// From a piece, an oven and the unknowns to the constants of a column.
#pragma once

#include <string_view>

#include "bake/bake.h"
#include "bake/column.h"
#include "bake/oven_course.h"

namespace maslin {

struct BakeSetup {
  std::string_view problem;  // empty when all is well
  CellColumn column;
  ColumnFigures figures;
  ColumnState start;
  OvenCourse course;
  Lanes mass_kg = 0.0;
  Lanes core_target_k = 366.15;
  Lanes loss_target_pct = 10.0;
};
BakeSetup bake_setup(const Piece& piece, const Oven& oven, const DoneRule& rule,
                     const BakeUnknowns& unknowns, const BakeOptions& options);

}  // namespace maslin
