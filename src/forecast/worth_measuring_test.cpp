#include "forecast/worth_measuring.h"

#include <doctest/doctest.h>

#include <cmath>

#include "numerics/draws.h"

using namespace maslin;

namespace {

constexpr std::uint32_t k_draws = 4096;

double score(const char* name, std::uint32_t i) {
  return standard_normal_quantile(Lanes(draw(name_key(name), 1, i)))[0];
}

/// outcome = 3 x + 4 y, both standard normal; the reading is x, give or take `sd`.
struct Plain {
  Ensemble ensemble;
  CheapMeasurement measurement;
};
Plain plain(double sd) {
  Plain out;
  Column outcome{"outcome", "", {}};
  for (std::uint32_t i = 0; i < k_draws; ++i) {
    out.ensemble.weight.push_back(1.0 / k_draws);
    out.measurement.reading.expected.push_back(score("x", i));
    outcome.values.push_back(3.0 * score("x", i) + 4.0 * score("y", i));
  }
  out.measurement.measure = "read x";
  out.measurement.reading.sd = sd;
  out.ensemble.outcomes.push_back(outcome);
  return out;
}

}  // namespace

TEST_CASE("the worth of a reading is what two normal distributions give in closed form") {
  // After x is read with variance v, the outcome's is 9 v / (1 + v) + 16 (textbook).
  constexpr double k_band = 2.5631;  // p10 to p90 of a standard normal
  for (const double sd : {0.2, 1.0, 3.0}) {
    CAPTURE(sd);
    const Plain one = plain(sd);
    const Narrowing worth =
        narrowings(one.ensemble, one.measurement, {one.ensemble.column("outcome")}).front();
    const double left = std::sqrt(9.0 * sd * sd / (1.0 + sd * sd) + 16.0);
    CHECK(worth.from == doctest::Approx(5.0 * k_band).epsilon(0.02));
    CHECK(worth.to == doctest::Approx(left * k_band).epsilon(0.03));
  }
}

TEST_CASE("a reading that has nothing to do with it is worth nothing") {
  Plain one = plain(0.3);
  for (std::uint32_t i = 0; i < k_draws; ++i) {
    one.measurement.reading.expected[i] = score("z", i);
  }
  const Narrowing worth =
      narrowings(one.ensemble, one.measurement, {one.ensemble.column("outcome")}).front();
  CHECK(worth.to == doctest::Approx(worth.from).epsilon(0.05));
}
