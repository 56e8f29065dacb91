#include "numerics/lanes.h"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <string>
#include <type_traits>
#include <vector>

#include "numerics/draws.h"
#include "numerics/float_lanes.h"

using namespace maslin;

// g++ returns what is trivially copyable through a place that need not be aligned as the type
// asks; functions compiled for wider vectors rely on it.
static_assert(!std::is_trivially_copyable_v<Lanes>);
static_assert(!std::is_trivially_copyable_v<Mask>);
static_assert(!std::is_trivially_copyable_v<FloatLanes>);

TEST_CASE("exp agrees with the C library over its whole range") {
  for (double x = -700.0; x <= 700.0; x += 0.37) {
    CHECK(std::fabs(exp_same(x) / std::exp(x) - 1.0) < 5e-16);
  }
  CHECK(exp_same(0.0) == 1.0);
}

TEST_CASE("log agrees with the C library from the smallest to the largest double") {
  for (double x = 1e-307; x < 1e307; x *= 1.37) {
    CHECK(std::fabs(log_same(x) - std::log(x)) <= 4e-16 * std::fmax(1.0, std::fabs(std::log(x))));
  }
  for (double x = 0.5; x < 2.0; x += 0.00137) {
    CHECK(std::fabs(log_same(x) - std::log(x)) <= 3e-16);
  }
  CHECK(log_same(1.0) == 0.0);
}

TEST_CASE("log is right at the very largest doubles and finite where there is no number left") {
  for (const double x : {1e308, 1.5e308, std::numeric_limits<double>::max()}) {
    CHECK(std::fabs(log_same(x) - std::log(x)) <= 4e-16 * std::log(x));
  }
  CHECK(log_same(std::numeric_limits<double>::infinity()) >= 709.0);
}

TEST_CASE("pow inverts itself") {
  for (double x = 0.01; x < 100.0; x *= 1.7) {
    CHECK(pow_same(pow_same(x, 1.9), 1.0 / 1.9) == doctest::Approx(x).epsilon(1e-13));
  }
}

TEST_CASE("the normal quantile inverts the error function of the C library") {
  for (double u = 1e-9; u < 1.0; u += 0.00317) {
    const double z = standard_normal_quantile(Lanes(u))[0];
    CHECK(0.5 * std::erfc(-z / std::sqrt(2.0)) == doctest::Approx(u).epsilon(1e-13));
  }
}

TEST_CASE("every first power of two of draws is stratified, for any key and seed") {
  for (const std::uint64_t seed : {0ULL, 1ULL, 42ULL}) {
    for (const char* name : {"flour", "oven", "egg 3"}) {
      for (const std::uint32_t count : {16U, 256U, 1024U}) {
        std::vector<int> in_stratum(count, 0);
        for (std::uint32_t i = 0; i < count; ++i) {
          const double u = draw(name_key(name), seed, i);
          CHECK(u > 0.0);
          CHECK(u < 1.0);
          ++in_stratum[static_cast<std::size_t>(u * count)];
        }
        int worst = 0;
        for (const int n : in_stratum) {
          worst = std::max(worst, std::abs(n - 1));
        }
        CHECK(worst == 0);
      }
    }
  }
}

TEST_CASE("draws of two unknowns are not correlated") {
  // 1024 independent pairs would have a correlation with standard deviation 1/32.
  double largest = 0.0;
  for (int pair = 0; pair < 40; ++pair) {
    const auto a = name_key("a" + std::to_string(pair));
    const auto b = name_key("b" + std::to_string(pair));
    double sum_ab = 0.0;
    for (std::uint32_t i = 0; i < 1024; ++i) {
      sum_ab += (draw(a, 7, i) - 0.5) * (draw(b, 7, i) - 0.5);
    }
    largest = std::max(largest, std::fabs(12.0 * sum_ab / 1024.0));
  }
  CHECK(largest < 4.0 / 32.0);
}

TEST_CASE("select, min, max and masks work lane by lane") {
  Lanes x;
  for (std::size_t i = 0; i < k_lane_count; ++i) {
    x.set(i, static_cast<double>(i) - 3.5);
  }
  CHECK(sum(max(x, 0.0)) == doctest::Approx(0.5 + 1.5 + 2.5 + 3.5));
  CHECK(any(x < -3.0));
  CHECK(!any(x < -4.0));
  CHECK(all(abs(x) >= 0.5));
}
