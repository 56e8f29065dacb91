#include "forecast/likelihood.h"

#include <algorithm>
#include <cmath>

#include "numerics/dense.h"
#include "numerics/normal.h"

namespace maslin {

double chance_of(const Sighting& one, double expected, double sd) {
  if (one.interval()) {
    return std::max(0.0, standard_normal_share((one.high - expected) / sd) -
                             standard_normal_share((one.low - expected) / sd));
  }
  return standard_normal_density((one.low - expected) / sd) / sd;
}

Anywhere anywhere(const Sighting& one, const std::vector<double>& weight) {
  constexpr double k_sds_in_band = 2.563;
  constexpr double k_wider = 4.0;
  const Band band = band_of(one.expected, weight);
  return {band.p50, k_wider * std::hypot(band.width() / k_sds_in_band, one.sd)};
}

double log_likelihood(const Sighting& one, const Anywhere& misread, double expected) {
  const double wrong = one.misread * chance_of(one, misread.centre, misread.sd);
  return log_same(std::max((1.0 - one.misread) * chance_of(one, expected, one.sd) + wrong, 1e-300));
}

std::vector<double> weighed(const std::vector<double>& weight,
                            const std::vector<double>& log_likelihood, double power) {
  const double most = *std::max_element(log_likelihood.begin(), log_likelihood.end());
  std::vector<double> out(weight.size());
  double total = 0.0;
  for (std::size_t i = 0; i < weight.size(); ++i) {
    out[i] = weight[i] * exp_same(power * (log_likelihood[i] - most));
    total += out[i];
  }
  for (double& one : out) {
    one /= total;
  }
  return out;
}

double power_for(const std::vector<double>& weight, const std::vector<double>& log_likelihood,
                 double draws) {
  double low = 0.0;
  double high = 1.0;
  if (effective_draws(weighed(weight, log_likelihood, 1.0)) >= draws) {
    return 1.0;
  }
  for (int i = 0; i < 30; ++i) {
    const double middle = 0.5 * (low + high);
    const bool enough = effective_draws(weighed(weight, log_likelihood, middle)) >= draws;
    (enough ? low : high) = middle;
  }
  return low;
}

double effective_draws(const std::vector<double>& weight) {
  const double squares = dot(weight, weight);
  return squares > 0 ? 1.0 / squares : 0.0;
}

}  // namespace maslin
