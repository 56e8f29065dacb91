// A number that counts what is done with it, so that a formula written for a double or for
// lanes tells how many additions, multiplications, divisions and roots it takes.
#pragma once

#include <cstddef>

#include "numerics/real.h"

namespace maslin {

struct Counted {
  double x = 0.0;
  Counted() = default;
  Counted(double value) : x(value) {}  // NOLINT: a plain number, as for Lanes

  static std::size_t& done() {
    static std::size_t k_done = 0;
    return k_done;
  }
  static Counted of(double value, std::size_t operations = 1) {
    done() += operations;
    return {value};
  }
};

inline Counted operator+(const Counted& a, const Counted& b) {
  return Counted::of(a.x + b.x);
}
inline Counted operator-(const Counted& a, const Counted& b) {
  return Counted::of(a.x - b.x);
}
inline Counted operator*(const Counted& a, const Counted& b) {
  return Counted::of(a.x * b.x);
}
inline Counted operator/(const Counted& a, const Counted& b) {
  return Counted::of(a.x / b.x);
}
inline Counted operator-(const Counted& a) {
  return {-a.x};
}
inline bool operator<(const Counted& a, const Counted& b) {
  return a.x < b.x;
}
inline bool operator>(const Counted& a, const Counted& b) {
  return a.x > b.x;
}
inline bool operator>=(const Counted& a, const Counted& b) {
  return a.x >= b.x;
}
/// Lanes take both sides and choose: so both were counted.
inline Counted select(bool which, const Counted& a, const Counted& b) {
  return which ? a : b;
}
inline Counted min(const Counted& a, const Counted& b) {
  return a.x < b.x ? a : b;
}
inline Counted max(const Counted& a, const Counted& b) {
  return a.x > b.x ? a : b;
}
inline Counted sqrt(const Counted& a) {
  return Counted::of(__builtin_sqrt(a.x));
}
/// What exp and log of numerics/lanes.h take: their terms, their folding and unfolding.
inline Counted exp(const Counted& a) {
  constexpr std::size_t k_operations = 2 * 13 + 8;
  return Counted::of(exp_same(a.x), k_operations);
}
inline Counted log(const Counted& a) {
  constexpr std::size_t k_operations = 2 * 10 + 10;
  return Counted::of(log_same(a.x), k_operations);
}

}  // namespace maslin
