#include "numerics/gaussian_process.h"

#include <doctest/doctest.h>

#include <cmath>
#include <vector>

using namespace maslin;

namespace {

const std::vector<std::vector<double>> k_points{{18, 60}, {22, 62}, {15, 64}, {20, 58}, {25, 61}};
const std::vector<double> k_values{5.0, 7.0, 6.0, 4.0, 6.5};

}  // namespace

TEST_CASE("the process agrees with scikit-learn's") {
  // GaussianProcessRegressor of scikit-learn 1.2.1 (Debian 12), kernel 1.5^2 * Matern(nu=2.5),
  // alpha 0.25, no optimiser, values less their mean; run for these points.
  struct Row {
    std::vector<double> lengths;
    double log_likelihood;
    std::vector<double> means;
    std::vector<double> sds;
  };
  const std::vector<std::vector<double>> places{{21, 63}, {18, 60}, {30, 55}};
  for (const Row& row : {Row{{4, 3},
                             -7.669395010552813,
                             {6.767540280857758, 5.028782530913303, 5.668159746403877},
                             {0.7967997906849188, 0.45625992270087856, 1.4943570937541144}},
                         Row{{10, 2},
                             -7.324579622551814,
                             {6.664112769901875, 5.095745527820178, 5.4282265872494},
                             {0.7504906219613374, 0.45436664426909595, 1.4747417098486435}}}) {
    const GaussianProcess process = gaussian_process(k_points, k_values, {row.lengths, 1.5, 0.5});
    CHECK(process.log_marginal_likelihood == doctest::Approx(row.log_likelihood).epsilon(1e-10));
    for (std::size_t i = 0; i < places.size(); ++i) {
      const ProcessValue value = value_at(process, places[i]);
      CHECK(value.mean == doctest::Approx(row.means[i]).epsilon(1e-10));
      CHECK(value.sd == doctest::Approx(row.sds[i]).epsilon(1e-9));
    }
  }
}

TEST_CASE("expected improvement agrees with its closed form") {
  // (m - b) Phi(z) + s phi(z) by scipy.stats.norm 1.10.1 for m = 6.2, s = 0.8, b = 7.
  CHECK(expected_improvement({6.2, 0.8}, 7.0) ==
        doctest::Approx(0.0666523764701491).epsilon(1e-10));
  CHECK(expected_improvement({8.0, 0.0}, 7.0) == doctest::Approx(1.0));
  CHECK(expected_improvement({6.0, 0.0}, 7.0) == 0.0);
}

TEST_CASE("the lengths are those under which the values are likeliest") {
  // A function that turns fast along the first dimension and hardly along the second.
  std::vector<std::vector<double>> points;
  std::vector<double> values;
  for (int i = 0; i < 24; ++i) {
    points.push_back({0.37 * i - 2.0 * std::floor(0.185 * i), 0.23 * (i % 7)});
    values.push_back(2.0 * std::sin(5.0 * points.back()[0]) + 0.1 * points.back()[1]);
  }
  const GaussianProcess process = fitted_process(points, values, {1.0, 1.0}, {{}, 1.5, 0.05});
  CHECK(process.kernel.lengths[0] < 0.6);
  CHECK(process.kernel.lengths[1] > 1.5);
}
