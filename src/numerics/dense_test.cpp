#include "numerics/dense.h"

#include <doctest/doctest.h>

#include <cmath>

#include "numerics/normal.h"

using namespace maslin;

TEST_CASE("a symmetric matrix comes back from its factor, and a system is solved by it") {
  SquareMatrix m(3);
  const double rows[3][3] = {{4, 2, -1}, {2, 5, 0.5}, {-1, 0.5, 3}};
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j) {
      m.at(i, j) = rows[i][j];
    }
  }
  const SquareMatrix lower = lower_factor(m);
  const SquareMatrix again = from_factor(lower);
  for (std::size_t i = 0; i < 9; ++i) {
    CHECK(again.values[i] == doctest::Approx(m.values[i]).epsilon(1e-14));
  }
  const std::vector<double> x = solve_factored(lower, times(m, {1.0, -2.0, 0.5}));
  CHECK(x[0] == doctest::Approx(1.0));
  CHECK(x[1] == doctest::Approx(-2.0));
  CHECK(x[2] == doctest::Approx(0.5));
}

TEST_CASE("the share below a normal score agrees with the C library's error function") {
  for (double x = -8.0; x <= 8.0; x += 0.125) {
    const double share = 0.5 * std::erfc(-x / std::sqrt(2.0));
    CAPTURE(x);
    CHECK(std::fabs(standard_normal_share(x) - share) < 1e-14);
    CHECK(standard_normal_share(x) == doctest::Approx(share).epsilon(1e-9));
  }
}
