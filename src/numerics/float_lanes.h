// Eight floats that move together: for inner solvers whose answer is only a correction, where
// half the bytes are half the time.
#pragma once

#include "numerics/lanes.h"

namespace maslin {

struct FloatLanes {
  using Vector = float __attribute__((vector_size(32), aligned(32)));
  using Half = float __attribute__((vector_size(16)));
  Vector v;

  FloatLanes() : v{} {}
  // Spelt out for the same reason as those of Lanes.
  FloatLanes(const FloatLanes& o) : v(o.v) {}
  FloatLanes& operator=(const FloatLanes& o) {
    v = o.v;
    return *this;
  }
  FloatLanes(float x) : v{x, x, x, x, x, x, x, x} {}  // NOLINT: a number is eight equal lanes
  explicit FloatLanes(Vector x) : v(x) {}
  explicit FloatLanes(const Lanes& x)
      : v(__builtin_shufflevector(__builtin_convertvector(x.v.low, Half),
                                  __builtin_convertvector(x.v.high, Half), 0, 1, 2, 3, 4, 5, 6,
                                  7)) {}

  FloatLanes& operator+=(const FloatLanes& o) {
    v += o.v;
    return *this;
  }
  FloatLanes& operator-=(const FloatLanes& o) {
    v -= o.v;
    return *this;
  }
};

inline FloatLanes operator+(const FloatLanes& a, const FloatLanes& b) {
  return FloatLanes(a.v + b.v);
}
inline FloatLanes operator-(const FloatLanes& a, const FloatLanes& b) {
  return FloatLanes(a.v - b.v);
}
inline FloatLanes operator*(const FloatLanes& a, const FloatLanes& b) {
  return FloatLanes(a.v * b.v);
}
inline FloatLanes operator/(const FloatLanes& a, const FloatLanes& b) {
  return FloatLanes(a.v / b.v);
}
inline FloatLanes operator-(const FloatLanes& a) {
  return FloatLanes(-a.v);
}
inline Lanes widened(const FloatLanes& a) {
  return Lanes(DoubleVector{
      __builtin_convertvector(__builtin_shufflevector(a.v, a.v, 0, 1, 2, 3), DoubleVector::Half),
      __builtin_convertvector(__builtin_shufflevector(a.v, a.v, 4, 5, 6, 7), DoubleVector::Half)});
}
inline double sum(const FloatLanes& a) {
  return sum(widened(a));
}

/// Lane l gets lane l + 1; the last keeps its own.
inline Lanes next_lane(const Lanes& a) {
  return Lanes(DoubleVector{__builtin_shufflevector(a.v.low, a.v.high, 1, 2, 3, 4),
                            __builtin_shufflevector(a.v.high, a.v.high, 1, 2, 3, 3)});
}
inline FloatLanes next_lane(const FloatLanes& a) {
  return FloatLanes(__builtin_shufflevector(a.v, a.v, 1, 2, 3, 4, 5, 6, 7, 7));
}
/// Lane l gets lane l - 1; the first gets nothing.
inline Lanes lane_before(const Lanes& a) {
  const DoubleVector::Half nothing{};
  return Lanes(DoubleVector{__builtin_shufflevector(nothing, a.v.low, 0, 4, 5, 6),
                            __builtin_shufflevector(a.v.low, a.v.high, 3, 4, 5, 6)});
}
inline FloatLanes lane_before(const FloatLanes& a) {
  const FloatLanes::Vector nothing{};
  return FloatLanes(__builtin_shufflevector(a.v, nothing, 8, 0, 1, 2, 3, 4, 5, 6));
}

}  // namespace maslin
