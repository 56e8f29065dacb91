#include "numerics/normal.h"

#include <cmath>

#include "numerics/lanes.h"

namespace maslin {

double standard_normal_density(double x) {
  constexpr double k_one_over_root_two_pi = 0.39894228040143267794;
  return k_one_over_root_two_pi * exp_same(-0.5 * x * x);
}

double standard_normal_share(double x) {
  const double size = std::fabs(x);
  if (size < 3.0) {
    double term = x;
    double sum = x;
    for (int i = 3; i < 200 && std::fabs(term) > 1e-17; i += 2) {
      term *= x * x / i;
      sum += term;
    }
    return 0.5 + standard_normal_density(x) * sum;
  }
  constexpr int k_terms = 60;
  double fraction = size;
  for (int i = k_terms; i > 0; --i) {
    fraction = size + i / fraction;
  }
  const double tail = standard_normal_density(x) / fraction;
  return x < 0 ? tail : 1.0 - tail;
}

}  // namespace maslin
