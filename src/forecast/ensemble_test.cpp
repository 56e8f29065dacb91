#include "forecast/ensemble.h"

#include <doctest/doctest.h>

#include <limits>
#include <vector>

using namespace maslin;

TEST_CASE("a quantile lies among the draws that weigh something") {
  // Three draws at 10, 11 and 12 alone weigh; those far off on both sides are ruled out.
  const std::vector<double> values{-500, 10, 11, 12, 900, 1000};
  const std::vector<double> weight{0, 1, 1, 1, 0, 0};
  for (const double level : {0.01, 0.1, 0.5, 0.9, 0.99}) {
    CAPTURE(level);
    const double found = quantile_of(values, weight, level);
    CHECK(found >= 10);
    CHECK(found <= 12);
    CHECK(found == doctest::Approx(quantile_of({10, 11, 12}, {1, 1, 1}, level)));
  }
  // Between two that weigh, what stands between them without weight says nothing.
  CHECK(quantile_of({10, 10.001, 20}, {1, 0, 1}, 0.5) == doctest::Approx(15));
}

TEST_CASE("a quantile of nothing and of never") {
  CHECK(quantile_of({1, 2}, {0, 0}, 0.5) == 0.0);
  CHECK(quantile_of({}, {}, 0.5) == 0.0);
  const double never = std::numeric_limits<double>::infinity();
  CHECK(quantile_of({1, 2, never}, {1, 1, 2}, 0.9) == never);
  CHECK(quantile_of({1, 2, never}, {1, 1, 0}, 0.9) == doctest::Approx(2));
}
