// Heat in a dough standing in air: shells of equal mass, middle to skin, for a double
// or for lanes. A ball of radius R or a slab of half thickness L, covered, exchanging
// heat at its skin; the shells swell with the gas and conduct less as they do.
#pragma once

#include <array>
#include <cstddef>

#include "numerics/real.h"
#include "rise/rise.h"

namespace maslin::rise_model {

/// Conductances of the dough before it swells, W/K at 1 W/(m K), and its skin, m2.
template <typename Real>
struct Shells {
  std::array<Real, k_dough_shells> conduct;  // shell i to i + 1; the last to the skin
  Real skin_m2;
  Real capacity_j_per_k;  // of one shell
};

/// Source of the expressions: conduction through spherical shells and plane walls,
/// any text on heat transfer. `radius_m`: of the ball, or half the slab's thickness.
template <typename Real>
Shells<Real> shells_of(DoughShape shape, const Real& radius_m, const Real& volume_m3,
                       const Real& capacity_j_per_k) {
  constexpr double k_pi = 3.14159265358979323846;
  constexpr std::size_t n = k_dough_shells;
  Shells<Real> out;
  out.capacity_j_per_k = capacity_j_per_k / static_cast<double>(n);
  const auto middle = [&](std::size_t i) {
    const double share = (static_cast<double>(i) + 0.5) / static_cast<double>(n);
    return shape == DoughShape::ball ? exp(log(share) / 3.0) : share;
  };
  const Real area = volume_m3 / radius_m;  // of a slab, one side of the middle plane
  for (std::size_t i = 0; i < n; ++i) {
    const double inner = middle(i);
    const double outer = i + 1 < n ? middle(i + 1) : 1.0;
    out.conduct[i] = shape == DoughShape::ball
                         ? Real(4.0 * k_pi * radius_m / (1.0 / inner - 1.0 / outer))
                         : Real(area / (radius_m * (outer - inner)));
  }
  out.skin_m2 = shape == DoughShape::ball ? Real(4.0 * k_pi * radius_m * radius_m) : area;
  return out;
}

/// Conductances within the dough at this moment, and that of the air at its skin; the last
/// within is from the outermost shell to the skin.
template <typename Real>
struct Conductances {
  std::array<Real, k_dough_shells> within;
  Real skin;
};

/// `swelling` is volume over gas-free volume.
/// Conductivity 0.45 W/(m K) without gas, 0.24 when half is gas: from memory, the range
/// of the review by Rask 1989, J. Food Eng. 9:167.
template <typename Real>
Conductances<Real> conductances_apart(const Shells<Real>& shells, const Real& swelling,
                                      const Real& heat_transfer) {
  // Cube root by two Newton steps from a line that is right to 4 % over 1..8.
  Real s = 0.86 + 0.16 * swelling;
  s = (2.0 * s + swelling / (s * s)) / 3.0;
  s = (2.0 * s + swelling / (s * s)) / 3.0;
  const Real k = 0.45 * (1.0 - 0.85 * (1.0 - 1.0 / swelling));
  Conductances<Real> out;
  for (std::size_t i = 0; i < k_dough_shells; ++i) {
    out.within[i] = k * s * shells.conduct[i];
  }
  out.skin = heat_transfer * shells.skin_m2 * s * s;
  return out;
}

/// The same with the way from the outermost shell into the air in one.
template <typename Real>
std::array<Real, k_dough_shells> conductances(const Shells<Real>& shells, const Real& swelling,
                                              const Real& heat_transfer) {
  Conductances<Real> apart = conductances_apart(shells, swelling, heat_transfer);
  Real& last = apart.within[k_dough_shells - 1];
  last = last * apart.skin / (last + apart.skin);
  return apart.within;
}

/// K/s of each shell. `heat_w`: made in the whole dough.
template <typename Real>
std::array<Real, k_dough_shells> warming(const std::array<Real, k_dough_shells>& temperature_k,
                                         const std::array<Real, k_dough_shells>& g,
                                         const Real& ambient_k, const Real& heat_w,
                                         const Real& shell_capacity) {
  std::array<Real, k_dough_shells> out;
  Real inflow = Real(0.0);
  for (std::size_t i = 0; i < k_dough_shells; ++i) {
    const Real next = i + 1 < k_dough_shells ? temperature_k[i + 1] : ambient_k;
    const Real outflow = g[i] * (temperature_k[i] - next);
    out[i] = (inflow - outflow + heat_w / static_cast<double>(k_dough_shells)) / shell_capacity;
    inflow = outflow;
  }
  return out;
}

/// Solves (D - a J) x = b for the shells: `own(i)` gives the diagonal D, J is the conduction matrix
/// per W/K; `a` in s K/J over the unit of D.
template <typename Real, typename Own>
std::array<Real, k_dough_shells> solve_shells(std::array<Real, k_dough_shells> x, const Own& own,
                                              const std::array<Real, k_dough_shells>& g,
                                              const Real& a) {
  std::array<Real, k_dough_shells> upper;
  Real below = Real(0.0);
  for (std::size_t i = 0; i < k_dough_shells; ++i) {
    const Real above = a * g[i];
    Real diagonal = own(i) + below + above;
    if (i > 0) {
      diagonal = diagonal - below * upper[i - 1];
      x[i] = x[i] + below * x[i - 1];
    }
    const Real inverse = 1.0 / diagonal;
    upper[i] = above * inverse;
    x[i] = x[i] * inverse;
    below = above;
  }
  for (std::size_t i = k_dough_shells - 1; i-- > 0;) {
    x[i] = x[i] + upper[i] * x[i + 1];
  }
  return x;
}

/// Temperatures a step later by the two-stage singly diagonally implicit scheme with
/// gamma = 1 - 1/sqrt(2): second order, and a thin piece moved from the fridge to a
/// warm place does not ring. Source: Alexander 1977, SIAM J. Numer. Anal. 14:1006 (from
/// memory).
template <typename Real>
std::array<Real, k_dough_shells> warmed(const std::array<Real, k_dough_shells>& temperature_k,
                                        const std::array<Real, k_dough_shells>& g,
                                        const Real& ambient_k, const Real& heat_w,
                                        const Real& shell_capacity, double step_s) {
  constexpr double k_gamma = 1.0 - 0.70710678118654752440;
  const Real a = k_gamma * step_s / shell_capacity;
  const auto one = [](std::size_t) { return Real(1.0); };
  const auto k1 =
      solve_shells(warming(temperature_k, g, ambient_k, heat_w, shell_capacity), one, g, a);
  std::array<Real, k_dough_shells> out;
  for (std::size_t i = 0; i < k_dough_shells; ++i) {
    out[i] = temperature_k[i] + ((1.0 - k_gamma) * step_s) * k1[i];
  }
  const auto k2 = solve_shells(warming(out, g, ambient_k, heat_w, shell_capacity), one, g, a);
  for (std::size_t i = 0; i < k_dough_shells; ++i) {
    out[i] = out[i] + (k_gamma * step_s) * k2[i];
  }
  return out;
}

}  // namespace maslin::rise_model
