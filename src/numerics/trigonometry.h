// Sine and cosine over lanes, with the same bits on every machine.
#pragma once

#include <bit>
#include <cstdint>

#include "numerics/lanes.h"

namespace maslin {

struct SineCosine {
  Lanes sine;
  Lanes cosine;
};

/// Sine and cosine of an angle in radians, |x| < 1e5; absolute error below 1e-15.
inline SineCosine sine_cosine(const Lanes& x) {
  constexpr double k_two_over_pi = 0.63661977236758134308;
  constexpr double k_half_pi_high = 1.57079632673412561417e+00;  // 33 bits: n times it is exact
  constexpr double k_half_pi_low = 6.07710050650619224932e-11;
  constexpr double k_round = 6755399441055744.0;  // 1.5 * 2^52: adding it rounds to an integer
  const Lanes shifted = x * k_two_over_pi + k_round;
  const Lanes n = shifted - k_round;
  const Lanes r = (x - n * k_half_pi_high) - n * k_half_pi_low;
  const Lanes z = r * r;
  // Taylor on |r| <= pi/4: remainders below 3e-17.
  Lanes s = 1.0 / 355687428096000.0;
  s = s * z - 1.0 / 1307674368000.0;
  s = s * z + 1.0 / 6227020800.0;
  s = s * z - 1.0 / 39916800.0;
  s = s * z + 1.0 / 362880.0;
  s = s * z - 1.0 / 5040.0;
  s = s * z + 1.0 / 120.0;
  s = s * z - 1.0 / 6.0;
  s = r + r * z * s;
  Lanes c = 1.0 / 20922789888000.0;
  c = c * z - 1.0 / 87178291200.0;
  c = c * z + 1.0 / 479001600.0;
  c = c * z - 1.0 / 3628800.0;
  c = c * z + 1.0 / 40320.0;
  c = c * z - 1.0 / 720.0;
  c = c * z + 1.0 / 24.0;
  c = c * z - 0.5;
  c = c * z + 1.0;
  const auto quadrant = std::bit_cast<WordVector>(shifted.v) & 3;
  const Mask swapped{(quadrant & 1) != 0};
  const Mask sine_negative{(quadrant & 2) != 0};
  const Mask cosine_negative{((quadrant + 1) & 2) != 0};
  const Lanes sine = select(swapped, c, s);
  const Lanes cosine = select(swapped, s, c);
  return {select(sine_negative, -sine, sine), select(cosine_negative, -cosine, cosine)};
}

}  // namespace maslin
