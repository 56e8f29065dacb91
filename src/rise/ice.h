// Freezing and thawing of the dough's shells: the same conduction as in heat.h, over heat
// content in place of temperature, since ice melts over a span of degrees and not at a point.
#pragma once

#include "rise/heat.h"

namespace maslin::rise_model {

/// Where a dough's water freezes and what heat that takes, of one shell.
template <typename Real>
struct Ice {
  Real freezing_celsius;  // the last ice melts; below 0
  Real latent_j;          // of all the water that can freeze
  Real frozen_j_per_k;    // of the shell below freezing: ice holds half the heat of water
  /// On the conductance to the innermost shell. Heat goes to the edge of the ice, which draws
  /// in to the middle: in a ball (1.5/a - 1/r) is the mean way to it over the innermost
  /// fifth of radius a, where the node's own is (1/m - 1/r), r the next node's and m this one's.
  double to_the_middle = 1.0;
};
inline constexpr double k_ball_to_the_middle = 0.617;

/// Ice as a share of the water that can freeze: what is dissolved keeps the rest liquid, by
/// the freezing point of an ideal solution.
template <typename Real>
Real ice_share(const Real& celsius, const Ice<Real>& ice) {
  return max(Real(1.0 - ice.freezing_celsius / min(celsius, ice.freezing_celsius)), Real(0.0));
}

/// Heat above that of the shell thawed at its freezing point, J.
template <typename Real>
Real heat_of(const Real& celsius, const Ice<Real>& ice, const Real& capacity) {
  const Real above = celsius - ice.freezing_celsius;
  return select(above >= Real(0.0), Real(capacity * above),
                Real(ice.frozen_j_per_k * above - ice.latent_j * ice_share(celsius, ice)));
}

/// The temperature at that heat: below freezing the root of a quadratic.
template <typename Real>
Real celsius_of(const Real& heat, const Ice<Real>& ice, const Real& capacity) {
  const Real& c = ice.frozen_j_per_k;
  const Real b = c * ice.freezing_celsius + ice.latent_j + heat;
  const Real root = sqrt(Real(b * b - 4.0 * c * ice.latent_j * ice.freezing_celsius));
  // Of the two forms of a root the one that does not cancel.
  const Real frozen = select(
      b > Real(0.0), Real(2.0 * ice.latent_j * ice.freezing_celsius / max(b + root, Real(1e-30))),
      Real((b - root) / (2.0 * c)));
  return select(heat >= Real(0.0), Real(ice.freezing_celsius + heat / capacity), frozen);
}

/// dH/dT, J/K.
template <typename Real>
Real apparent_capacity(const Real& celsius, const Ice<Real>& ice, const Real& capacity) {
  const Real t = min(celsius, ice.freezing_celsius);
  return select(celsius >= ice.freezing_celsius, capacity,
                Real(ice.frozen_j_per_k - ice.latent_j * ice.freezing_celsius / (t * t)));
}

/// W into each shell.
template <typename Real>
std::array<Real, k_dough_shells> inflow_w(const std::array<Real, k_dough_shells>& celsius,
                                          const std::array<Real, k_dough_shells>& g,
                                          const Real& ambient) {
  std::array<Real, k_dough_shells> out;
  Real from_within = Real(0.0);
  for (std::size_t i = 0; i < k_dough_shells; ++i) {
    const Real next = i + 1 < k_dough_shells ? celsius[i + 1] : ambient;
    const Real outward = g[i] * (celsius[i] - next);
    out[i] = from_within - outward;
    from_within = outward;
  }
  return out;
}

/// One Newton step toward heat(T) = before + dt inflow(T): a matrix of three diagonals.
template <typename Real>
void correct(std::array<Real, k_dough_shells>& celsius,
             const std::array<Real, k_dough_shells>& before,
             const std::array<Real, k_dough_shells>& g, const Real& ambient, const Ice<Real>& ice,
             const Real& capacity, double step_s) {
  const auto in = inflow_w(celsius, g, ambient);
  std::array<Real, k_dough_shells> left;
  for (std::size_t i = 0; i < k_dough_shells; ++i) {
    left[i] = before[i] + step_s * in[i] - heat_of(celsius[i], ice, capacity);
  }
  const auto own = [&](std::size_t i) { return apparent_capacity(celsius[i], ice, capacity); };
  const auto x = solve_shells(left, own, g, Real(step_s));
  for (std::size_t i = 0; i < k_dough_shells; ++i) {
    celsius[i] = celsius[i] + x[i];
  }
}

/// Temperatures a step later, K, while there may be ice: backward Euler over the heat content in
/// steps of at most 20 s, the heat kept to the last digit. What yeast makes of heat is left
/// out, since it hardly works there. Frozen dough conducts twice as well (from memory).
template <typename Real>
std::array<Real, k_dough_shells> frozen_or_thawed(
    const std::array<Real, k_dough_shells>& temperature_k, const Conductances<Real>& conduct,
    const Real& ambient_k, const Ice<Real>& ice, const Real& capacity, double step_s) {
  constexpr double k_zero = 273.15;
  constexpr double k_longest_s = 20.0;
  constexpr int k_corrections = 3;
  const int steps = static_cast<int>(step_s / k_longest_s) + 1;
  const double each_s = step_s / steps;
  const Real ambient = ambient_k - k_zero;
  std::array<Real, k_dough_shells> celsius;
  for (std::size_t i = 0; i < k_dough_shells; ++i) {
    celsius[i] = temperature_k[i] - k_zero;
  }
  for (int step = 0; step < steps; ++step) {
    std::array<Real, k_dough_shells> before;
    std::array<Real, k_dough_shells> g;
    for (std::size_t i = 0; i < k_dough_shells; ++i) {
      before[i] = heat_of(celsius[i], ice, capacity);
    }
    // Half of the way from shell to shell lies in each of the two.
    for (std::size_t i = 0; i < k_dough_shells; ++i) {
      const Real here = 1.0 + ice_share(celsius[i], ice);
      const Real there = i + 1 < k_dough_shells ? Real(1.0 + ice_share(celsius[i + 1], ice)) : here;
      g[i] = conduct.within[i] * (2.0 * here * there / (here + there));
    }
    g[0] = g[0] * ice.to_the_middle;
    Real& last = g[k_dough_shells - 1];
    last = last * conduct.skin / (last + conduct.skin);
    for (int k = 0; k < k_corrections; ++k) {
      correct(celsius, before, g, ambient, ice, capacity, each_s);
    }
    const auto in = inflow_w(celsius, g, ambient);
    for (std::size_t i = 0; i < k_dough_shells; ++i) {
      celsius[i] = celsius_of(Real(before[i] + each_s * in[i]), ice, capacity);
    }
  }
  std::array<Real, k_dough_shells> out;
  for (std::size_t i = 0; i < k_dough_shells; ++i) {
    out[i] = celsius[i] + k_zero;
  }
  return out;
}

}  // namespace maslin::rise_model
