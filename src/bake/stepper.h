// Time stepping of a column: third order, L-stable, one matrix a step, all eight lanes
// together.
#pragma once

#include <vector>

#include "bake/cell_physics.h"
#include "bake/column.h"
#include "numerics/block_tridiagonal.h"
#include "numerics/clones.h"
#include "numerics/register_lanes.h"

namespace maslin {

/// What the column gained through its surfaces so far.
struct Exchanged {
  Lanes heat_j = 0.0;  // enthalpy over 0 degrees Celsius of solids and liquid water
  Lanes water_kg = 0.0;
};

/// Totals of a column, for the balances.
Exchanged column_totals(const CellColumn& column, const ColumnFigures& figures,
                        const ColumnState& state);

/// Room that the stepper works in, in lanes of one kind.
template <typename Real>
struct StepperRoomOf {
  std::vector<CellLogs<Real>> logs;
  std::vector<CellPhysicsOf<Real>> physics, trial_physics;
  std::vector<BlockOf<Real>> lower, diagonal, upper;
  std::vector<PairOf<Real>> stage[4];  // increments of temperature and water, by stage
  std::vector<PairOf<Real>> inner;     // rates by what passes between nodes
  /// Heat by temperature, J/K, and by water, J per kg/kg, of a node.
  std::vector<PairOf<Real>> mass;
  std::vector<Real> temperature, water;              // as the step begins
  std::vector<Real> trial_temperature, trial_water;  // of a stage
};

/// Made once for a column; of the kinds, that is filled which the machine works in.
struct StepperRoom {
  StepperRoomOf<NarrowLanes> narrow;
  StepperRoomOf<WideLanes> wide;
  ColumnState after;  // of all lanes
};
/// `wide`: for a machine that holds eight lanes in a register, with the same bits.
StepperRoom stepper_room(const CellColumn& column, bool wide = has_wide_registers());

struct StepResult {
  double error = 0.0;  // worst lane and cell, in units of the tolerance
};

/// One trial step; `state` and `exchanged` advance only when `error` <= 1.
StepResult try_step(const CellColumn& column, const ColumnFigures& figures,
                    const Surroundings& before, const Surroundings& after,
                    const Lanes& volume_ratio, double step_s, double tolerance, ColumnState& state,
                    Exchanged& exchanged, StepperRoom& room);

}  // namespace maslin
