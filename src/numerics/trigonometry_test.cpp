#include "numerics/trigonometry.h"

#include <doctest/doctest.h>

#include <cmath>

using namespace maslin;

TEST_CASE("sine and cosine agree with the C library") {
  double worst = 0.0;
  for (double x = -60.0; x <= 60.0; x += 0.00137) {
    const SineCosine at = sine_cosine(x);
    worst = std::fmax(worst, std::fabs(at.sine[0] - std::sin(x)));
    worst = std::fmax(worst, std::fabs(at.cosine[3] - std::cos(x)));
  }
  CHECK(worst < 1e-15);
}
