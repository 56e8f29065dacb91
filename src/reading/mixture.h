#pragma once

#include <utility>
#include <vector>

#include "quantity/distribution.h"

namespace maslin::reading {

/// Several distributions of one amount with the share of belief in each.
using Mixture = std::vector<std::pair<double, Distribution>>;

/// The lognormal nearest to the mixture: its median is the mixture's (by the logistic
/// approximation of the normal integral, off by less than 0.01 in probability), its
/// spread that within each and between them. At most eight distributions.
Distribution mixed(const Mixture& mixture);

/// Standard deviation of the logarithm.
double log_spread(const Distribution& distribution);

/// Sum of two independent amounts as a lognormal; `sign` -1 for a difference.
Distribution summed(const Distribution& a, const Distribution& b, double sign);

}  // namespace maslin::reading
