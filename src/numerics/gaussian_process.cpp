#include "numerics/gaussian_process.h"

#include <cmath>
#include <utility>

#include "numerics/lanes.h"
#include "numerics/normal.h"

namespace maslin {
namespace {

constexpr double k_two_pi = 6.283185307179586;

double covariance(const GaussianKernel& kernel, const std::vector<double>& one,
                  const std::vector<double>& other) {
  double squares = 0.0;
  for (std::size_t i = 0; i < one.size(); ++i) {
    const double away = (one[i] - other[i]) / kernel.lengths[i];
    squares += away * away;
  }
  const double s = std::sqrt(5.0 * squares);
  return kernel.signal_sd * kernel.signal_sd * (1.0 + s + s * s / 3.0) * exp_same(-s);
}

/// What the prior of fitted_process takes off a length so far from the span.
double prior_of(const std::vector<double>& lengths, const std::vector<double>& spans) {
  double out = 0.0;
  for (std::size_t i = 0; i < lengths.size(); ++i) {
    const double doublings = log_same(lengths[i] / spans[i]) / log_same(2.0);
    out -= 0.5 * doublings * doublings;
  }
  return out;
}

}  // namespace

GaussianProcess gaussian_process(std::vector<std::vector<double>> points,
                                 const std::vector<double>& values, const GaussianKernel& kernel) {
  GaussianProcess out;
  out.kernel = kernel;
  out.points = std::move(points);
  const std::size_t count = out.points.size();
  for (const double one : values) {
    out.mean += one / static_cast<double>(count);
  }
  std::vector<double> about(count);
  SquareMatrix matrix(count, kernel.noise_sd * kernel.noise_sd);
  for (std::size_t i = 0; i < count; ++i) {
    about[i] = values[i] - out.mean;
    for (std::size_t j = 0; j <= i; ++j) {
      const double here = covariance(kernel, out.points[i], out.points[j]);
      matrix.at(i, j) += here;
      if (i != j) {
        matrix.at(j, i) += here;
      }
    }
  }
  out.factor = lower_factor(matrix);
  out.alpha = solve_factored(out.factor, about);
  out.log_marginal_likelihood =
      -0.5 * dot(about, out.alpha) - 0.5 * static_cast<double>(count) * log_same(k_two_pi);
  for (std::size_t i = 0; i < count; ++i) {
    out.log_marginal_likelihood -= log_same(out.factor.at(i, i));
  }
  return out;
}

GaussianProcess fitted_process(const std::vector<std::vector<double>>& points,
                               const std::vector<double>& values, const std::vector<double>& spans,
                               GaussianKernel kernel) {
  kernel.lengths = spans;
  GaussianProcess best = gaussian_process(points, values, kernel);
  double most = best.log_marginal_likelihood;
  for (int round = 0; round < 2; ++round) {
    for (std::size_t i = 0; i < spans.size(); ++i) {
      for (const double times : {0.25, 0.5, 1.0, 2.0, 4.0}) {
        kernel.lengths = best.kernel.lengths;
        kernel.lengths[i] = times * spans[i];
        GaussianProcess one = gaussian_process(points, values, kernel);
        const double here = one.log_marginal_likelihood + prior_of(kernel.lengths, spans);
        if (here > most + 1e-12) {
          most = here;
          best = std::move(one);
        }
      }
    }
  }
  return best;
}

ProcessValue value_at(const GaussianProcess& process, const std::vector<double>& point) {
  std::vector<double> to;
  for (const std::vector<double>& one : process.points) {
    to.push_back(covariance(process.kernel, point, one));
  }
  const double mean = process.mean + dot(to, process.alpha);
  const std::vector<double> told = solve_lower(process.factor, to);
  const double whole = process.kernel.signal_sd * process.kernel.signal_sd;
  return {mean, std::sqrt(std::max(whole - dot(told, told), 0.0))};
}

double expected_improvement(const ProcessValue& value, double best) {
  if (!(value.sd > 0.0)) {
    return std::max(value.mean - best, 0.0);
  }
  const double z = (value.mean - best) / value.sd;
  return (value.mean - best) * standard_normal_share(z) + value.sd * standard_normal_density(z);
}

}  // namespace maslin
