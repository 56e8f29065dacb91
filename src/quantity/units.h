// quantity: what a kitchen measures, as types.
//
// A Quantity carries its dimension (mass, length, time, temperature rise) in the
// type, holds SI inside, and will not add grams to millilitres. A temperature is
// a point, a temperature rise a difference; a baker's percentage is not a mass
// fraction. Plain doubles inside formulas carry the unit in their name instead.
#pragma once

#include <compare>

namespace maslin {

/// A value in SI units of dimension mass^M length^L time^T (temperature rise)^K.
template <int M, int L, int T, int K>
struct Quantity {
  double si = 0.0;

  constexpr auto operator<=>(const Quantity&) const = default;
  constexpr Quantity& operator+=(Quantity other) {
    si += other.si;
    return *this;
  }
  constexpr Quantity& operator-=(Quantity other) {
    si -= other.si;
    return *this;
  }
};

template <int M, int L, int T, int K>
constexpr Quantity<M, L, T, K> operator+(Quantity<M, L, T, K> a, Quantity<M, L, T, K> b) {
  return {a.si + b.si};
}
template <int M, int L, int T, int K>
constexpr Quantity<M, L, T, K> operator-(Quantity<M, L, T, K> a, Quantity<M, L, T, K> b) {
  return {a.si - b.si};
}
template <int M, int L, int T, int K>
constexpr Quantity<M, L, T, K> operator*(Quantity<M, L, T, K> a, double s) {
  return {a.si * s};
}
template <int M, int L, int T, int K>
constexpr Quantity<M, L, T, K> operator*(double s, Quantity<M, L, T, K> a) {
  return {s * a.si};
}
template <int M, int L, int T, int K>
constexpr Quantity<M, L, T, K> operator/(Quantity<M, L, T, K> a, double s) {
  return {a.si / s};
}
template <int M, int L, int T, int K, int M2, int L2, int T2, int K2>
constexpr Quantity<M + M2, L + L2, T + T2, K + K2> operator*(Quantity<M, L, T, K> a,
                                                             Quantity<M2, L2, T2, K2> b) {
  return {a.si * b.si};
}
template <int M, int L, int T, int K, int M2, int L2, int T2, int K2>
constexpr Quantity<M - M2, L - L2, T - T2, K - K2> operator/(Quantity<M, L, T, K> a,
                                                             Quantity<M2, L2, T2, K2> b) {
  return {a.si / b.si};
}

using Ratio = Quantity<0, 0, 0, 0>;
using Mass = Quantity<1, 0, 0, 0>;                   // kg
using Length = Quantity<0, 1, 0, 0>;                 // m
using Area = Quantity<0, 2, 0, 0>;                   // m2
using Volume = Quantity<0, 3, 0, 0>;                 // m3
using Duration = Quantity<0, 0, 1, 0>;               // s
using Density = Quantity<1, -3, 0, 0>;               // kg/m3
using Energy = Quantity<1, 2, -2, 0>;                // J
using Power = Quantity<1, 2, -3, 0>;                 // W
using Pressure = Quantity<1, -1, -2, 0>;             // Pa
using TemperatureDifference = Quantity<0, 0, 0, 1>;  // K

constexpr Mass grams(double v) {
  return {v * 1e-3};
}
constexpr Volume millilitres(double v) {
  return {v * 1e-6};
}
constexpr Duration minutes(double v) {
  return {v * 60.0};
}
constexpr Duration hours(double v) {
  return {v * 3600.0};
}
constexpr Length millimetres(double v) {
  return {v * 1e-3};
}
constexpr TemperatureDifference kelvins(double v) {
  return {v};
}
constexpr double in_grams(Mass m) {
  return m.si * 1e3;
}
constexpr double in_millilitres(Volume v) {
  return v.si * 1e6;
}
constexpr double in_minutes(Duration d) {
  return d.si / 60.0;
}

/// A temperature as a point on the thermodynamic scale, K.
struct Temperature {
  double k = 273.15;
  constexpr auto operator<=>(const Temperature&) const = default;
};
constexpr Temperature celsius(double c) {
  return {c + 273.15};
}
constexpr Temperature fahrenheit(double f) {
  return {(f - 32.0) / 1.8 + 273.15};
}
constexpr double in_celsius(Temperature t) {
  return t.k - 273.15;
}
constexpr double in_fahrenheit(Temperature t) {
  return (t.k - 273.15) * 1.8 + 32.0;
}
constexpr TemperatureDifference operator-(Temperature a, Temperature b) {
  return {a.k - b.k};
}
constexpr Temperature operator+(Temperature a, TemperatureDifference d) {
  return {a.k + d.si};
}
constexpr Temperature operator-(Temperature a, TemperatureDifference d) {
  return {a.k - d.si};
}

/// Mass of a thing per mass of the whole, 0..1.
struct MassFraction {
  double value = 0.0;
  constexpr auto operator<=>(const MassFraction&) const = default;
};

/// Mass of a thing per 100 of flour. Never converts to a MassFraction by itself:
/// the two have different wholes.
struct BakersPercent {
  double value = 0.0;
  constexpr auto operator<=>(const BakersPercent&) const = default;
};

}  // namespace maslin
