// The equations of one column of cells as reference solvers want them: one lane, unknowns in
// one row, temperature and water of a node side by side.
#pragma once

#include <vector>

#include "bake/column_rates.h"

namespace maslin {

class ColumnEquations {
 public:
  ColumnEquations(const CellColumn& column, const ColumnFigures& figures);

  /// Number of unknowns.
  std::size_t size() const { return 2 * column_.count; }
  /// Sets what does not lie in the unknowns: the oven, and by how much the piece has grown.
  void surround(const Surroundings& around, double volume_ratio);
  /// Heat, W, and water, kg/s, that every node gains; `nodes` holds size() values.
  const std::vector<Pair>& rates(const double* nodes);
  /// The lanes' own state of these unknowns, the same in all of them.
  const ColumnState& state_of(const double* nodes);
  /// Heat capacity, J/K, and what water brings of heat, J per kg/kg, of a node in these unknowns.
  struct Capacity {
    double heat, heat_of_water, water;
  };
  Capacity capacity(const double* nodes, std::size_t node) const;

  void start_from(const ColumnState& start, double* nodes) const;

 private:
  const CellColumn& column_;
  const ColumnFigures& figures_;
  Surroundings around_;
  Lanes reach_scale_ = 1.0, area_scale_ = 1.0;
  ColumnState state_;
  std::vector<CellLogs<Lanes>> logs_;
  std::vector<CellPhysics> physics_;
  std::vector<Pair> rate_;
};

}  // namespace maslin
