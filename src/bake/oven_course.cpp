#include "bake/oven_course.h"

#include <algorithm>

#include "properties/water.h"

namespace maslin {
namespace {

constexpr double k_steam_fade_s = 180.0;
constexpr double k_lid_fill_s = 180.0;
constexpr double k_trapped_under_a_lid = 0.6;

Lanes target_k(const OvenCourse& course, const OvenCourse::Phase& phase, double now_s) {
  if (phase.outside) {
    return course.room_k;
  }
  if (course.fall_s <= 0.0) {
    return phase.set_point_k;
  }
  const double left = exp_same(-(now_s - phase.from_s) / course.fall_s);
  return course.room_k + (phase.set_point_k - course.room_k) * left;
}

Lanes ceiling_pa(const OvenCourse& course) {
  return 0.95 * course.pressure_pa;
}

}  // namespace

OvenState oven_at_start(const OvenCourse& course) {
  OvenState state;
  state.air_k = course.first_air_k;
  state.steam_pa = course.phases.front().steam_pa;
  return state;
}

OvenState oven_after(const OvenCourse& course, const OvenState& state, double now_s,
                     double step_s) {
  OvenState out = state;
  const double then_s = now_s + step_s;
  const OvenCourse::Phase& phase = course.phases[state.phase];
  const Lanes target = target_k(course, phase, then_s);
  const double left = exp_same(-step_s / course.recovery_s);
  out.air_k = target + (state.air_k - target) * left;
  out.steam_pa = state.steam_pa * exp_same(-step_s / k_steam_fade_s);
  const double trapped =
      phase.covered ? std::max(course.trapped_share, k_trapped_under_a_lid) : course.trapped_share;
  if (trapped > 0.0) {
    const Lanes full = trapped * course.pressure_pa;
    out.steam_pa = full + (state.steam_pa - full) * exp_same(-step_s / k_lid_fill_s);
  }
  // Steps end where phases begin, so a phase is entered exactly.
  const std::size_t next = state.phase + 1;
  if (next < course.phases.size() && then_s >= course.phases[next].from_s - 1e-9) {
    out.phase = next;
    const OvenCourse::Phase& entered = course.phases[next];
    out.steam_pa = entered.outside ? Lanes(0.0) : out.steam_pa + entered.steam_pa;
    if (entered.outside) {
      out.air_k = course.room_k;
    } else if (phase.outside) {
      out.air_k = max(entered.set_point_k - course.drop_k, min(entered.set_point_k, course.room_k));
    }
  }
  return out;
}

Surroundings surroundings(const OvenCourse& course, const OvenState& state) {
  Surroundings out;
  const OvenCourse::Phase& phase = course.phases[state.phase];
  out.air_k = state.air_k;
  out.top_k = max(state.air_k + (phase.outside ? Lanes(0.0) : course.top_above_k), 250.0);
  out.floor_k = max(state.air_k + (phase.outside ? Lanes(0.0) : course.floor_above_k), 250.0);
  // Air cannot hold more than saturation.
  const Lanes most = min(ceiling_pa(course), 0.98 * saturation_pressure_pa(state.air_k));
  out.vapour_pa = min(course.vapour_pa + state.steam_pa, most);
  out.shade = phase.shade;
  return out;
}

}  // namespace maslin
