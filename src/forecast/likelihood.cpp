#include "forecast/likelihood.h"

#include <algorithm>
#include <cmath>
#include <cstring>

#include "numerics/clones.h"
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
  std::vector<Lanes> out((values.size() + k_lane_count - 1) / k_lane_count);
  const std::size_t whole = values.size() / k_lane_count;
  for (std::size_t i = 0; i < whole; ++i) {
    std::memcpy(&out[i].v, &values[i * k_lane_count], sizeof(out[i].v));
  }
  if (whole < out.size()) {
    out.back() = filling;
    for (std::size_t i = whole * k_lane_count; i < values.size(); ++i) {
      out.back().set(i % k_lane_count, values[i]);
    }
  }
  return out;
}

std::vector<double> in_a_row(const std::vector<Lanes>& eights, std::size_t count) {
  std::vector<double> out(eights.size() * k_lane_count);
  for (std::size_t i = 0; i < eights.size(); ++i) {
    std::memcpy(&out[i * k_lane_count], &eights[i].v, sizeof(eights[i].v));
  }
  out.resize(count);
  return out;
}

inline Lanes chances_of(const Sighting& one, const Lanes& expected) {
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

/// What a power leaves of a draw's weight.
inline Lanes left_of(const Lanes& prior, const Lanes& log_share, double power) {
  return prior * exp(min(power * log_share, 0.0));
}

MASLIN_ALL_WIDTHS
void leave(const std::vector<Lanes>& prior, const std::vector<Lanes>& log_share, double power,
           std::vector<Lanes>& left) {
  for (std::size_t i = 0; i < prior.size(); ++i) {
    left[i] = left_of(prior[i], log_share[i], power);
  }
}

MASLIN_ALL_WIDTHS
void add_left(const std::vector<Lanes>& prior, const std::vector<Lanes>& log_share, double power,
              Lanes& total, Lanes& squares) {
  for (std::size_t i = 0; i < prior.size(); ++i) {
    const Lanes some = left_of(prior[i], log_share[i], power);
    total += some;
    squares += some * some;
  }
}

/// Each expected value becomes the logarithm of how likely the sighting is with it; `pace` may
/// be empty.
MASLIN_ALL_WIDTHS
void to_log_likelihoods(const Sighting& one, double wrong, const std::vector<Lanes>& pace,
                        std::vector<Lanes>& eights) {
  for (std::size_t i = 0; i < eights.size(); ++i) {
    const Lanes right = (1.0 - one.misread) * chances_of(one, eights[i]);
    eights[i] = log(max((pace.empty() ? right : right * pace[i]) + wrong, 1e-300));
  }
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
  double effective(double power) const {
    Lanes total = 0.0;
    Lanes squares = 0.0;
    add_left(prior, log_share, power, total, squares);
    const double whole = sum(total);
    return whole * whole / sum(squares);
  }
};

}  // namespace

std::vector<double> log_likelihoods(const Sighting& one, const Anywhere& misread) {
  const double wrong = one.misread * chance_of(one, misread.centre, misread.sd);
  std::vector<Lanes> eights = by_eights(one.expected, 0.0);
  to_log_likelihoods(one, wrong, by_eights(one.pace, 1.0), eights);
  return in_a_row(eights, one.expected.size());
}

std::vector<double> weighed(const std::vector<double>& weight,
                            const std::vector<double>& log_likelihood, double power) {
  const Weights weights(weight, log_likelihood);
  std::vector<Lanes> eights(weights.prior.size());
  leave(weights.prior, weights.log_share, power, eights);
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
