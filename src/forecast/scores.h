// The unknowns as standard scores: one independent standard normal number for each unknown
// that is normal, or normal in its logarithm. Here what a kitchen has learnt of several
// unknowns at once, and drawing where observations point, are both a shift and a shear.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "forecast/bowl.h"
#include "forecast/ensemble.h"
#include "numerics/dense.h"

namespace maslin {

/// natural = mean + factor * score, where natural is the value of a normal unknown and the
/// logarithm of a lognormal one. Unknowns of other shapes have no score.
struct Scores {
  std::vector<std::size_t> unknown;  // place among the unknowns, one for each score
  std::vector<double> mean;
  SquareMatrix factor;  // lower triangle; diagonal unless several were learnt together
  bool joint = false;   // not diagonal

  std::size_t size() const { return unknown.size(); }
};
Scores scores_of(const std::vector<Unknown>& unknowns);

/// Where to draw instead of everywhere: scores about `mean` with the spread of `factor`, and
/// what is seldom so (a uniform unknown that reaches a little below 0) in one draw of ten.
/// Every eighth batch still comes from the whole distribution, so that no draw can weigh
/// more than eight times what it should when the aim is off.
struct Aim {
  std::vector<double> mean;
  SquareMatrix factor;
};

/// Which batch of how many, and which draws are in it.
struct BatchPlace {
  std::uint64_t seed = 1;
  DrawIndices draws{};
  std::size_t batch = 0;
  std::size_t batches = 1;
};

/// Eight values of every unknown, and the logarithm of how much each draw counts: 0 without
/// an aim, else density of the whole distribution over that of where it was drawn.
struct DrawnBatch {
  BatchDraws values;
  Lanes log_weight = 0.0;
};
DrawnBatch draw_batch(const std::vector<Unknown>& unknowns, const Scores& scores,
                      const std::optional<Aim>& aim, const BatchPlace& place);

/// The scores of every draw of an ensemble, [score][draw], from its columns.
std::vector<std::vector<double>> scores_in(const Ensemble& ensemble, const Scores& scores,
                                           const std::vector<Unknown>& unknowns);

}  // namespace maslin
