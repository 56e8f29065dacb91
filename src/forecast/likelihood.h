// How well each draw agrees with what was seen: the one rule behind live correction, learning,
// the judging of causes and the advice what to measure.
#pragma once

#include <vector>

#include "forecast/seen.h"

namespace maslin {

/// Where a misread sighting may lie: anywhere within four times the spread that was expected.
struct Anywhere {
  double centre = 0.0;
  double sd = 1.0;
};
Anywhere anywhere(const Sighting& one, const std::vector<double>& weight);

/// Chance (of an interval) or density (of a value) of the sighting, were `expected` the truth.
double chance_of(const Sighting& one, double expected, double sd);

/// Logarithm of it for every draw, a share of sightings being misread.
std::vector<double> log_likelihoods(const Sighting& one, const Anywhere& misread);

/// weight * likelihood^power, summing to 1.
std::vector<double> weighed(const std::vector<double>& weight,
                            const std::vector<double>& log_likelihood, double power);

/// The greatest power up to 1 that leaves so many draws, or up to a hundredth more.
double power_for(const std::vector<double>& weight, const std::vector<double>& log_likelihood,
                 double draws);

/// 1 / sum of squared weights.
double effective_draws(const std::vector<double>& weight);

}  // namespace maslin
