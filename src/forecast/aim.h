// Where to draw when what was seen is unlikely: the draws that agree with it lie in a
// corner, and few of a thousand drawn everywhere fall there.
#pragma once

#include <span>
#include <vector>

#include "forecast/scores.h"
#include "forecast/seen.h"

namespace maslin {

/// What observations say of the scores, in the few directions in which they say anything:
/// elsewhere the scores stay as they were. Directions are rows, orthonormal.
struct Inkling {
  std::vector<std::vector<double>> directions;
  std::vector<double> mean;  // of the scores along each direction
  SquareMatrix covariance;
};

/// By a straight line through each sighting's expected values over the scores, and the
/// usual update of a normal distribution. Good for aiming, not for answers.
/// `scores` is [score][draw]; `weight` one per draw.
Inkling inkling_of(std::span<const Sighting> sightings,
                   const std::vector<std::vector<double>>& scores,
                   const std::vector<double>& weight);

/// The weighted mean and covariance of the draws along the directions of `before`.
Inkling moments_along(const Inkling& before, const std::vector<std::vector<double>>& scores,
                      const std::vector<double>& weight);

/// To draw from there, a little wider.
Aim aim_at(const Inkling& inkling, std::size_t scores);

}  // namespace maslin
