#include "forecast/scores.h"

#include <cmath>

#include "numerics/draws.h"

namespace maslin {
namespace {

constexpr std::size_t k_prior_every = 8;

bool has_score(const Distribution& prior) {
  return prior.b > 0 && (prior.shape == Shape::normal || prior.shape == Shape::lognormal);
}

/// Row by row: factor * score.
std::vector<Lanes> sheared(const SquareMatrix& factor, const std::vector<Lanes>& scores) {
  std::vector<Lanes> out;
  for (std::size_t i = 0; i < scores.size(); ++i) {
    Lanes sum = 0.0;
    for (std::size_t j = 0; j <= i; ++j) {
      sum += factor.at(i, j) * scores[j];
    }
    out.push_back(sum);
  }
  return out;
}

/// Logarithm of the density of the aim over that of the whole distribution.
Lanes log_ratio(const Aim& aim, const std::vector<Lanes>& scores) {
  Lanes out = 0.0;
  std::vector<Lanes> plain;
  for (std::size_t i = 0; i < scores.size(); ++i) {
    Lanes one = scores[i] - aim.mean[i];
    for (std::size_t j = 0; j < i; ++j) {
      one -= aim.factor.at(i, j) * plain[j];
    }
    plain.push_back(one / aim.factor.at(i, i));
    out += 0.5 * (scores[i] * scores[i] - plain[i] * plain[i]) - log_same(aim.factor.at(i, i));
  }
  return out;
}

}  // namespace

Scores scores_of(const std::vector<Unknown>& unknowns) {
  Scores out;
  for (std::size_t i = 0; i < unknowns.size(); ++i) {
    if (has_score(unknowns[i].prior)) {
      out.unknown.push_back(i);
    }
  }
  out.factor = SquareMatrix(out.size());
  for (std::size_t i = 0; i < out.size(); ++i) {
    const Distribution& prior = unknowns[out.unknown[i]].prior;
    out.mean.push_back(prior.shape == Shape::lognormal ? log_same(prior.a) : prior.a);
    out.factor.at(i, i) = prior.b;
  }
  return out;
}

DrawnBatch draw_batch(const std::vector<Unknown>& unknowns, const Scores& scores,
                      const std::optional<Aim>& aim, const BatchPlace& place) {
  const auto first = static_cast<std::uint32_t>(place.batch * k_lane_count);
  DrawnBatch out;
  out.values = draw_batch(unknowns, place.seed, first);
  if (!scores.joint && !aim) {
    return out;
  }
  std::vector<Lanes> drawn;
  for (const std::size_t i : scores.unknown) {
    drawn.push_back(
        standard_normal_quantile(draw_lanes(name_key(unknowns[i].name), place.seed, first)));
  }
  const std::size_t whole = place.batches / k_prior_every;
  if (aim) {
    if (place.batch % k_prior_every != k_prior_every - 1) {
      drawn = sheared(aim->factor, drawn);
      for (std::size_t i = 0; i < drawn.size(); ++i) {
        drawn[i] += aim->mean[i];
      }
    }
    const double share = static_cast<double>(whole) / static_cast<double>(place.batches);
    out.log_weight = -log(share + (1.0 - share) * exp(log_ratio(*aim, drawn)));
  }
  const std::vector<Lanes> natural = sheared(scores.factor, drawn);
  for (std::size_t i = 0; i < natural.size(); ++i) {
    const std::size_t at = scores.unknown[i];
    const Lanes value = scores.mean[i] + natural[i];
    out.values[at] = unknowns[at].prior.shape == Shape::lognormal ? exp(value) : value;
  }
  return out;
}

std::vector<std::vector<double>> scores_in(const Ensemble& ensemble, const Scores& scores,
                                           const std::vector<Unknown>& unknowns) {
  std::vector<std::vector<double>> out(scores.size(), std::vector<double>(ensemble.draws(), 0.0));
  std::vector<const Column*> columns;
  for (const std::size_t at : scores.unknown) {
    columns.push_back(ensemble.column(unknowns[at].name));
  }
  for (std::size_t draw = 0; draw < ensemble.draws(); ++draw) {
    std::vector<double> natural;
    for (std::size_t i = 0; i < scores.size(); ++i) {
      const bool is_log = unknowns[scores.unknown[i]].prior.shape == Shape::lognormal;
      const double value = columns[i] == nullptr ? 0.0 : columns[i]->values[draw];
      const double here = columns[i] == nullptr ? scores.mean[i] : is_log ? log_same(value) : value;
      natural.push_back(here - scores.mean[i]);
    }
    const std::vector<double> score = solve_lower(scores.factor, std::move(natural));
    for (std::size_t i = 0; i < scores.size(); ++i) {
      out[i][draw] = score[i];
    }
  }
  return out;
}

}  // namespace maslin
