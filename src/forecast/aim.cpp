#include "forecast/aim.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace maslin {
namespace {

/// value = level + slope * scores, give or take sd.
struct Trend {
  double level = 0.0;
  std::vector<double> slope;
  double sd = 0.0;
};

double weighted_mean(const std::vector<double>& values, const std::vector<double>& weight) {
  return dot(values, weight);
}

/// Least squares, eased toward a slope of nothing; what chance alone would give is nothing.
Trend trend_through(const std::vector<double>& values,
                    const std::vector<std::vector<double>>& scores,
                    const std::vector<double>& weight) {
  const std::size_t count = scores.size();
  const double draws = static_cast<double>(weight.size());
  Trend out;
  out.level = weighted_mean(values, weight);
  SquareMatrix normal(count, 0.01 + static_cast<double>(count) / (4.0 * draws));
  std::vector<double> right(count, 0.0);
  for (std::size_t i = 0; i < count; ++i) {
    for (std::size_t draw = 0; draw < weight.size(); ++draw) {
      const double weighed = weight[draw] * scores[i][draw];
      right[i] += weighed * (values[draw] - out.level);
      for (std::size_t j = 0; j <= i; ++j) {
        normal.at(i, j) += weighed * scores[j][draw];
      }
    }
  }
  out.slope = solve_factored(lower_factor(normal), right);
  double rest = 0.0;
  for (std::size_t draw = 0; draw < weight.size(); ++draw) {
    double here = out.level;
    for (std::size_t i = 0; i < count; ++i) {
      here += out.slope[i] * scores[i][draw];
    }
    rest += weight[draw] * (values[draw] - here) * (values[draw] - here);
  }
  out.sd = std::sqrt(rest);
  for (double& one : out.slope) {
    one = std::fabs(one) < 3.0 * out.sd / std::sqrt(draws) ? 0.0 : one;
  }
  return out;
}

/// What a line is told by a sighting: the value, and how sure.
struct Told {
  double value = 0.0;
  double sd = 1.0;
};

std::optional<Told> told_by(const Sighting& sighting, double expected, double spread) {
  const bool open = !std::isfinite(sighting.low) || !std::isfinite(sighting.high);
  Told out{std::clamp(expected, sighting.low, sighting.high), sighting.sd};
  if (!open) {
    const double width = sighting.high - sighting.low;
    out.value = 0.5 * (sighting.low + sighting.high);
    out.sd = std::sqrt(sighting.sd * sighting.sd + width * width / 12.0);
  } else if (out.value == expected) {
    return std::nullopt;
  }
  // So far off, it is more likely misread than true.
  constexpr double k_too_far = 4.5;
  if (std::fabs(out.value - expected) > k_too_far * std::hypot(spread, out.sd)) {
    return std::nullopt;
  }
  return out;
}

/// Makes `direction` of length one and square to the others; false when nothing is left.
bool make_square(std::vector<double>& direction, const std::vector<std::vector<double>>& others) {
  const double before = std::sqrt(dot(direction, direction));
  for (const std::vector<double>& other : others) {
    const double along = dot(direction, other);
    for (std::size_t i = 0; i < direction.size(); ++i) {
      direction[i] -= along * other[i];
    }
  }
  const double length = std::sqrt(dot(direction, direction));
  if (!(length > 1e-3 * before)) {
    return false;
  }
  for (double& one : direction) {
    one /= length;
  }
  return true;
}

}  // namespace

Inkling inkling_of(std::span<const Sighting> sightings,
                   const std::vector<std::vector<double>>& scores,
                   const std::vector<double>& weight) {
  const std::size_t count = scores.size();
  std::vector<double> mean(count, 0.0);
  SquareMatrix covariance(count, 1.0);
  Inkling out;
  for (const Sighting& sighting : sightings) {
    const Trend trend = trend_through(sighting.expected, scores, weight);
    const std::vector<double> spread = times(covariance, trend.slope);
    const double variance = dot(trend.slope, spread) + trend.sd * trend.sd;
    const double expected = trend.level + dot(trend.slope, mean);
    const auto told = told_by(sighting, expected, std::sqrt(variance));
    std::vector<double> direction = trend.slope;
    if (!(dot(direction, direction) > 0)) {
      continue;
    }
    if (make_square(direction, out.directions)) {
      out.directions.push_back(std::move(direction));
    }
    if (!told) {
      continue;
    }
    const double total = variance + told->sd * told->sd;
    for (std::size_t i = 0; i < count; ++i) {
      mean[i] += spread[i] * (told->value - expected) / total;
      for (std::size_t j = 0; j < count; ++j) {
        covariance.at(i, j) -= spread[i] * spread[j] / total;
      }
    }
  }
  out.covariance = SquareMatrix(out.directions.size());
  for (std::size_t i = 0; i < out.directions.size(); ++i) {
    out.mean.push_back(dot(out.directions[i], mean));
    for (std::size_t j = 0; j < out.directions.size(); ++j) {
      out.covariance.at(i, j) = dot(out.directions[i], times(covariance, out.directions[j]));
    }
  }
  return out;
}

Inkling moments_along(const Inkling& before, const std::vector<std::vector<double>>& scores,
                      const std::vector<double>& weight) {
  Inkling out{before.directions, {}, SquareMatrix(before.directions.size())};
  std::vector<std::vector<double>> along;
  for (const std::vector<double>& direction : out.directions) {
    std::vector<double>& values = along.emplace_back(weight.size(), 0.0);
    for (std::size_t i = 0; i < scores.size(); ++i) {
      for (std::size_t draw = 0; direction[i] != 0.0 && draw < weight.size(); ++draw) {
        values[draw] += direction[i] * scores[i][draw];
      }
    }
    out.mean.push_back(weighted_mean(values, weight));
  }
  for (std::size_t i = 0; i < along.size(); ++i) {
    for (std::size_t j = 0; j < along.size(); ++j) {
      for (std::size_t draw = 0; draw < weight.size(); ++draw) {
        out.covariance.at(i, j) +=
            weight[draw] * (along[i][draw] - out.mean[i]) * (along[j][draw] - out.mean[j]);
      }
    }
  }
  return out;
}

Aim aim_at(const Inkling& inkling, std::size_t scores) {
  // A tenth of the way back to where nothing was seen, so that the tails are drawn too.
  constexpr double k_back = 0.1;
  Aim out{std::vector<double>(scores, 0.0), {}};
  SquareMatrix covariance(scores, 1.0);
  for (std::size_t a = 0; a < inkling.directions.size(); ++a) {
    for (std::size_t i = 0; i < scores; ++i) {
      out.mean[i] += inkling.mean[a] * inkling.directions[a][i];
    }
    for (std::size_t b = 0; b < inkling.directions.size(); ++b) {
      const double change = inkling.covariance.at(a, b) - (a == b ? 1.0 : 0.0);
      for (std::size_t i = 0; i < scores; ++i) {
        for (std::size_t j = 0; j < scores; ++j) {
          covariance.at(i, j) +=
              (1.0 - k_back) * change * inkling.directions[a][i] * inkling.directions[b][j];
        }
      }
    }
  }
  out.factor = lower_factor(covariance);
  return out;
}

}  // namespace maslin
