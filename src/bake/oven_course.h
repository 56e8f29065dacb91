// The oven through time: what the piece meets at every moment.
#pragma once

#include <cstddef>
#include <vector>

#include "bake/column.h"

namespace maslin {

/// The oven's set-points as the stepper follows them.
struct OvenCourse {
  struct Phase {
    double from_s = 0.0;
    Lanes set_point_k;  // with the offset in it
    Lanes steam_pa;
    bool covered = false;
    double shade = 1.0;
    bool outside = false;
  };
  std::vector<Phase> phases;
  Lanes room_k = 294.15;
  Lanes top_above_k = 0.0;
  Lanes floor_above_k = 0.0;
  Lanes vapour_pa = 1500.0;
  Lanes pressure_pa = 101325.0;
  Lanes first_air_k = 473.15;
  double drop_k = 0.0;  // what the door costs when a piece comes back
  double recovery_s = 180.0;
  double fall_s = 0.0;
  double trapped_share = 0.0;
};

/// Air temperature and steam as they stand; advanced with the column.
struct OvenState {
  Lanes air_k = 473.15;
  Lanes steam_pa = 0.0;
  std::size_t phase = 0;
};
OvenState oven_at_start(const OvenCourse& course);
/// The oven after `step_s` from `now_s`.
OvenState oven_after(const OvenCourse& course, const OvenState& state, double now_s, double step_s);
Surroundings surroundings(const OvenCourse& course, const OvenState& state);

}  // namespace maslin
