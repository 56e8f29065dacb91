// Roots of rising functions, lane by lane.
#pragma once

#include "numerics/lanes.h"

namespace maslin {

struct RootSearch {
  double x_tolerance = 1e-12;  // stop when the bracket is this narrow
  double f_tolerance = 1e-12;  // or the function this near nought
  int most_steps = 100;
};

/// Where a rising `f` (Lanes to Lanes) crosses nought between `low` and `high`; the nearer
/// end where it does not cross. False position with the Illinois weight, every third step a
/// bisection, so that flat stretches and kinks cost little.
template <typename Function>
Lanes rising_root(const Function& f, Lanes low, Lanes high, const RootSearch& search = {}) {
  Lanes f_low = f(low);
  Lanes f_high = f(high);
  const Lanes low_end = low;
  const Lanes high_end = high;
  const Mask above = f_low >= 0.0;
  const Mask below = f_high <= 0.0;
  Lanes x = 0.5 * (low + high);
  Lanes last_side = 0.0;
  for (int step = 0; step < search.most_steps; ++step) {
    const Lanes secant = (low * f_high - high * f_low) / (f_high - f_low);
    const Mask sound = (secant > low) & (secant < high);
    x = step % 3 == 2 ? 0.5 * (low + high) : select(sound, secant, 0.5 * (low + high));
    const Lanes fx = f(x);
    const Mask under = fx < 0.0;
    const Lanes side = select(under, -1.0, 1.0);
    const Lanes weight = select(abs(side - last_side) < 0.5, 0.5, 1.0);
    f_high = select(under, f_high * weight, fx);
    f_low = select(under, fx, f_low * weight);
    low = select(under, x, low);
    high = select(under, high, x);
    last_side = side;
    const Mask found = (abs(fx) < search.f_tolerance) | (high - low < search.x_tolerance);
    if (all(found | above | below)) {
      break;
    }
    // A lane that is done stays where it is.
    low = select(abs(fx) < search.f_tolerance, x, low);
    high = select(abs(fx) < search.f_tolerance, x, high);
  }
  return select(above, low_end, select(below, high_end, x));
}

}  // namespace maslin
