#include "forecast/likelihood.h"

#include <algorithm>
#include <cmath>

#include "numerics/dense.h"
#include "numerics/lanes.h"
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

namespace {

/// A row of numbers by eights; what is beyond its end is `filling`.
std::vector<Lanes> by_eights(const std::vector<double>& values, double filling) {
  std::vector<Lanes> out((values.size() + k_lane_count - 1) / k_lane_count, Lanes(filling));
  for (std::size_t i = 0; i < values.size(); ++i) {
    out[i / k_lane_count].set(i % k_lane_count, values[i]);
  }
  return out;
}

std::vector<double> in_a_row(const std::vector<Lanes>& eights, std::size_t count) {
  std::vector<double> out(count);
  for (std::size_t i = 0; i < count; ++i) {
    out[i] = eights[i / k_lane_count][i % k_lane_count];
  }
  return out;
}

Lanes chances_of(const Sighting& one, const Lanes& expected) {
  if (!one.interval()) {
    constexpr double k_one_over_root_two_pi = 0.39894228040143267794;
    const Lanes z = (one.low - expected) / one.sd;
    return k_one_over_root_two_pi * exp(-0.5 * z * z) / one.sd;
  }
  Lanes out = 0.0;
  for (std::size_t lane = 0; lane < k_lane_count; ++lane) {
    out.set(lane, chance_of(one, expected[lane], one.sd));
  }
  return out;
}

double most_of(const std::vector<double>& log_likelihood) {
  return *std::max_element(log_likelihood.begin(), log_likelihood.end());
}

/// The draws' weights by eights, and how much less likely than the likeliest each is.
struct Weights {
  std::vector<Lanes> prior;
  std::vector<Lanes> log_share;

  Weights(const std::vector<double>& weight, const std::vector<double>& log_likelihood)
      : prior(by_eights(weight, 0.0)), log_share(by_eights(log_likelihood, 0.0)) {
    const double most = most_of(log_likelihood);
    for (Lanes& one : log_share) {
      one -= most;
    }
  }
  Lanes at(std::size_t eight, double power) const {
    return prior[eight] * exp(min(power * log_share[eight], 0.0));
  }
  double effective(double power) const {
    Lanes total = 0.0;
    Lanes squares = 0.0;
    for (std::size_t i = 0; i < prior.size(); ++i) {
      const Lanes some = at(i, power);
      total += some;
      squares += some * some;
    }
    const double whole = sum(total);
    return whole * whole / sum(squares);
  }
};

}  // namespace

std::vector<double> log_likelihoods(const Sighting& one, const Anywhere& misread) {
  const double wrong = one.misread * chance_of(one, misread.centre, misread.sd);
  std::vector<Lanes> eights = by_eights(one.expected, 0.0);
  for (Lanes& expected : eights) {
    expected = log(max((1.0 - one.misread) * chances_of(one, expected) + wrong, 1e-300));
  }
  return in_a_row(eights, one.expected.size());
}

std::vector<double> weighed(const std::vector<double>& weight,
                            const std::vector<double>& log_likelihood, double power) {
  const Weights weights(weight, log_likelihood);
  std::vector<Lanes> eights(weights.prior.size());
  for (std::size_t i = 0; i < eights.size(); ++i) {
    eights[i] = weights.at(i, power);
  }
  std::vector<double> out = in_a_row(eights, weight.size());
  double total = 0.0;
  for (const double one : out) {
    total += one;
  }
  for (double& one : out) {
    one /= total;
  }
  return out;
}

double power_for(const std::vector<double>& weight, const std::vector<double>& log_likelihood,
                 double draws) {
  constexpr double k_near_enough = 1.01;
  const Weights weights(weight, log_likelihood);
  if (weights.effective(1.0) >= draws) {
    return 1.0;
  }
  double low = 0.0;
  double high = 1.0;
  for (int i = 0; i < 30; ++i) {
    const double middle = 0.5 * (low + high);
    const double left = weights.effective(middle);
    (left >= draws ? low : high) = middle;
    if (left >= draws && left <= k_near_enough * draws) {
      break;
    }
  }
  return low;
}

double effective_draws(const std::vector<double>& weight) {
  const double squares = dot(weight, weight);
  return squares > 0 ? 1.0 / squares : 0.0;
}

}  // namespace maslin
