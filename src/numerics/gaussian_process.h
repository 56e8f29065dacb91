// A smooth unknown function through a few noisy points, and where to look next: Gaussian
// process regression with the Matern 5/2 kernel, as in Rasmussen and Williams, Gaussian
// Processes for Machine Learning, 2006, chapters 2, 4 and 5 (from memory).
#pragma once

#include <vector>

#include "numerics/dense.h"

namespace maslin {

/// k(x, x') = signal^2 (1 + s + s^2/3) exp(-s), s = sqrt(5) |(x - x') / lengths|.
struct GaussianKernel {
  std::vector<double> lengths;  // one for each dimension, in its unit
  double signal_sd = 1.0;       // of the function about its mean
  double noise_sd = 0.1;        // of one observation
};

struct GaussianProcess {
  GaussianKernel kernel;
  std::vector<std::vector<double>> points;
  double mean = 0.0;  // of the observations; the function is taken to vary about it
  SquareMatrix factor;
  std::vector<double> alpha;
  double log_marginal_likelihood = 0.0;
};

/// `points` at least one, each with a number for every length; `values` as many.
GaussianProcess gaussian_process(std::vector<std::vector<double>> points,
                                 const std::vector<double>& values, const GaussianKernel& kernel);

/// Lengths by the marginal likelihood on a grid: each of quarter, half, one, two and four
/// times its dimension's entry of `spans`, dimension by dimension, twice round. A logarithmic
/// normal prior about the span itself (factor 2 to one sd) keeps three points from saying
/// more than they can. `kernel` lends signal and noise.
GaussianProcess fitted_process(const std::vector<std::vector<double>>& points,
                               const std::vector<double>& values, const std::vector<double>& spans,
                               GaussianKernel kernel);

/// The function there, without an observation's noise.
struct ProcessValue {
  double mean = 0.0;
  double sd = 0.0;
};
ProcessValue value_at(const GaussianProcess& process, const std::vector<double>& point);

/// E[max(f - best, 0)] for a normal f.
double expected_improvement(const ProcessValue& value, double best);

}  // namespace maslin
