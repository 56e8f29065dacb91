#include "forecast/scores.h"

#include <cmath>

#include "numerics/draws.h"

namespace maslin {
namespace {

constexpr std::size_t k_prior_every = 8;
constexpr double k_often = 0.1;  // of aimed draws, for what is seldom so

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

/// The share below 0 of a uniform unknown: what is seldom so; 0 for every other.
double rare_share(const Distribution& prior) {
  const bool rare = prior.shape == Shape::uniform && prior.a < 0.0 && prior.b > 0.0;
  return rare ? -prior.a / (prior.b - prior.a) : 0.0;
}

/// Draws what is seldom so in one draw of ten; and the logarithm of the density of such draws
/// over that of the plain ones.
Lanes drawn_often(const Distribution& prior, const Lanes& u) {
  return select(u < k_often, prior.a * (1.0 - u / k_often),
                prior.b * (u - k_often) / (1.0 - k_often));
}
Lanes often_log_ratio(const Distribution& prior, const Lanes& value) {
  const double share = rare_share(prior);
  return select(value < 0.0, log_same(k_often / share), log_same((1.0 - k_often) / (1.0 - share)));
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
  DrawnBatch out;
  out.values = draw_batch(unknowns, place.seed, place.draws);
  if (!scores.joint && !aim) {
    return out;
  }
  std::vector<Lanes> drawn;
  for (const std::size_t i : scores.unknown) {
    drawn.push_back(
        standard_normal_quantile(draw_lanes(name_key(unknowns[i].name), place.seed, place.draws)));
  }
  const std::size_t whole = place.batches / k_prior_every;
  if (aim) {
    const bool aimed = place.batch % k_prior_every != k_prior_every - 1;
    Lanes often = 0.0;
    for (std::size_t i = 0; i < unknowns.size(); ++i) {
      const Distribution& prior = unknowns[i].prior;
      if (rare_share(prior) > 0.0) {
        if (aimed) {
          out.values[i] =
              drawn_often(prior, draw_lanes(name_key(unknowns[i].name), place.seed, place.draws));
        }
        often += often_log_ratio(prior, out.values[i]);
      }
    }
    if (aimed) {
      drawn = sheared(aim->factor, drawn);
      for (std::size_t i = 0; i < drawn.size(); ++i) {
        drawn[i] += aim->mean[i];
      }
    }
    const double share = static_cast<double>(whole) / static_cast<double>(place.batches);
    out.log_weight = -log(share + (1.0 - share) * exp(log_ratio(*aim, drawn) + often));
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
