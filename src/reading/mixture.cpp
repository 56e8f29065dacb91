#include "reading/mixture.h"

#include <algorithm>
#include <cmath>

#include "numerics/lanes.h"

namespace maslin::reading {
namespace {

constexpr double k_z80 = 2.5631031310892007;  // p10 to p90 of a normal, in its deviations

struct Logs {
  double mean = 0.0;
  double variance = 0.0;
};

Logs logs_of(const Distribution& d) {
  if (d.shape == Shape::lognormal) {
    return {log_same(std::max(d.a, 1e-9)), d.b * d.b};
  }
  const double width = d.shape == Shape::point
                           ? 0.0
                           : log_same(std::max(d.p90(), 1e-9) / std::max(d.p10(), 1e-9)) / k_z80;
  return {log_same(std::max(d.p50(), 1e-9)), width * width};
}

/// The logarithm that half of the mixture lies below, by halving between the extremes.
double middle_log(const std::vector<Logs>& logs, const Mixture& mixture) {
  const std::size_t count = std::min(mixture.size(), k_lane_count);
  Lanes share = 0.0;
  Lanes mean = 0.0;
  Lanes steep = 1.0;
  double low = 1e9;
  double high = -1e9;
  for (std::size_t i = 0; i < count; ++i) {
    share.set(i, mixture[i].first);
    mean.set(i, logs[i].mean);
    steep.set(i, 1.702 / std::sqrt(std::max(logs[i].variance, 1e-8)));
    low = std::min(low, logs[i].mean);
    high = std::max(high, logs[i].mean);
  }
  const double half = 0.5 * sum(share);
  for (int step = 0; step < 30; ++step) {
    const double middle = 0.5 * (low + high);
    const Lanes below = share / (1.0 + exp((mean - middle) * steep));
    (sum(below) < half ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

}  // namespace

Distribution mixed(const Mixture& mixture) {
  const auto same = [&](const auto& one) { return one.second == mixture.front().second; };
  if (std::all_of(mixture.begin(), mixture.end(), same)) {
    return mixture.front().second;
  }
  std::vector<Logs> logs;
  double total = 0.0;
  for (const auto& [share, d] : mixture) {
    logs.push_back(logs_of(d));
    total += share;
  }
  const double middle = middle_log(logs, mixture);
  double variance = 0.0;
  for (std::size_t i = 0; i < mixture.size(); ++i) {
    const double apart = logs[i].mean - middle;
    variance += mixture[i].first / total * (logs[i].variance + apart * apart);
  }
  return {Shape::lognormal, exp_same(middle), std::sqrt(variance), 0.0};
}

double log_spread(const Distribution& distribution) {
  return std::sqrt(logs_of(distribution).variance);
}

Distribution summed(const Distribution& a, const Distribution& b, double sign) {
  const double middle = a.p50() + sign * b.p50();
  if (a.shape == Shape::point && b.shape == Shape::point) {
    return point(std::max(middle, 0.0));
  }
  const double sd_a = a.standard_deviation();
  const double sd_b = b.standard_deviation();
  const double sd = std::sqrt(sd_a * sd_a + sd_b * sd_b);
  return middle > 0.0 ? lognormal(middle, sd / middle) : point(0.0);
}

}  // namespace maslin::reading
