// numerics: lanes, draws, roots and steppers; knows no bread.
//
// Lanes are eight draws advanced by one instruction. Models are written once over
// Lanes; a single deterministic run is eight equal lanes. exp, log and pow are our
// own, built only from additions, multiplications and bit moves, so that the same
// draws give the same figures on every machine, in WebAssembly too.
#pragma once

#include <bit>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <type_traits>

namespace maslin {

inline constexpr std::size_t k_lane_count = 8;

/// Eight numbers as two halves of four: g++ keeps what is wider than the machine's vectors in
/// memory and compares it one by one, halves it holds in registers. Aligned alike whatever the
/// target: a function compiled for wider registers loads the same lanes whole.
template <typename Number, typename Four>
struct alignas(64) HalvesOf {
  using Half = Four;
  Half low, high;

  static HalvesOf all(Number x) { return {Half{x, x, x, x}, Half{x, x, x, x}}; }
  Number operator[](std::size_t i) const { return i < 4 ? low[i] : high[i - 4]; }
  void set(std::size_t i, Number x) {
    if (i < 4) {
      low[i] = x;
    } else {
      high[i - 4] = x;
    }
  }

  friend HalvesOf operator+(const HalvesOf& a, const HalvesOf& b) {
    return {a.low + b.low, a.high + b.high};
  }
  friend HalvesOf operator-(const HalvesOf& a, const HalvesOf& b) {
    return {a.low - b.low, a.high - b.high};
  }
};
using TwoDoubles = double __attribute__((vector_size(16)));
using TwoWords = std::int64_t __attribute__((vector_size(16)));
using TwoUnsigned = std::uint64_t __attribute__((vector_size(16)));
using EightDoubles = double __attribute__((vector_size(64)));
using EightWords = std::int64_t __attribute__((vector_size(64)));
using EightUnsigned = std::uint64_t __attribute__((vector_size(64)));
using FourDoubles = double __attribute__((vector_size(32)));
using FourWords = std::int64_t __attribute__((vector_size(32)));
using FourUnsigned = std::uint64_t __attribute__((vector_size(32)));
using DoubleVector = HalvesOf<double, FourDoubles>;
using WordVector = HalvesOf<std::int64_t, FourWords>;

inline DoubleVector operator*(const DoubleVector& a, const DoubleVector& b) {
  return {a.low * b.low, a.high * b.high};
}
inline DoubleVector operator/(const DoubleVector& a, const DoubleVector& b) {
  return {a.low / b.low, a.high / b.high};
}
inline DoubleVector operator-(const DoubleVector& a) {
  return {-a.low, -a.high};
}
inline WordVector operator<(const DoubleVector& a, const DoubleVector& b) {
  return {a.low < b.low, a.high < b.high};
}
inline WordVector operator<=(const DoubleVector& a, const DoubleVector& b) {
  return {a.low <= b.low, a.high <= b.high};
}
inline DoubleVector chosen(const WordVector& mask, const DoubleVector& a, const DoubleVector& b) {
  return {mask.low ? a.low : b.low, mask.high ? a.high : b.high};
}
inline WordVector operator+(const WordVector& a, std::int64_t b) {
  return {a.low + b, a.high + b};
}
inline WordVector operator-(const WordVector& a, std::int64_t b) {
  return {a.low - b, a.high - b};
}
inline WordVector operator&(const WordVector& a, std::int64_t b) {
  return {a.low & b, a.high & b};
}
inline WordVector operator&(const WordVector& a, const WordVector& b) {
  return {a.low & b.low, a.high & b.high};
}
inline WordVector operator|(const WordVector& a, const WordVector& b) {
  return {a.low | b.low, a.high | b.high};
}
inline WordVector operator~(const WordVector& a) {
  return {~a.low, ~a.high};
}
inline WordVector operator<<(const WordVector& a, int by) {
  return {a.low << by, a.high << by};
}
inline WordVector operator!=(const WordVector& a, std::int64_t b) {
  return {a.low != b, a.high != b};
}
/// The exponent of doubles whose bits these are, for bits over -2^62: a shift that keeps the
/// sign, which machines before AVX-512 lack for words of 64 bits.
template <typename Words, typename Unsigned>
inline Words exponent_bits_by(const Words& a) {
  // Unsigned, as the largest doubles carry into the sign.
  constexpr std::uint64_t k_up = std::uint64_t{1} << 62;
  const Unsigned shifted = (std::bit_cast<Unsigned>(a) + k_up) >> 52;
  return std::bit_cast<Words>(shifted) - static_cast<std::int64_t>(k_up >> 52);
}
inline TwoWords exponent_bits(const TwoWords& a) {
  return exponent_bits_by<TwoWords, TwoUnsigned>(a);
}
inline FourWords exponent_bits(const FourWords& a) {
  return exponent_bits_by<FourWords, FourUnsigned>(a);
}
inline EightWords exponent_bits(const EightWords& a) {
  return exponent_bits_by<EightWords, EightUnsigned>(a);
}
inline WordVector exponent_bits(const WordVector& a) {
  return {exponent_bits(a.low), exponent_bits(a.high)};
}

/// True or false for each lane (all bits set or none).
struct Mask {
  WordVector m;

  Mask() : m{} {}
  Mask(WordVector x) : m(x) {}  // NOLINT: a comparison's bits are a mask
  // As of Lanes.
  Mask(const Mask& o) : m(o.m) {}
  Mask& operator=(const Mask& o) {
    m = o.m;
    return *this;
  }
};

/// Eight doubles that move together. A plain double stands for eight equal lanes.
struct Lanes {
  using Words = WordVector;
  DoubleVector v;

  Lanes() : v{} {}
  // Spelt out though they only copy: what is copied trivially g++ returns through a place on
  // the caller's stack that is aligned for the caller's vectors alone (16 bytes without AVX),
  // where a callee compiled for wider ones stores whole lanes and falls.
  Lanes(const Lanes& o) : v(o.v) {}
  Lanes& operator=(const Lanes& o) {
    v = o.v;
    return *this;
  }
  Lanes(double x) : v(DoubleVector::all(x)) {}  // NOLINT: a number is eight equal lanes
  explicit Lanes(DoubleVector x) : v(x) {}

  double operator[](std::size_t lane) const { return v[lane]; }
  void set(std::size_t lane, double x) { v.set(lane, x); }

  Lanes& operator+=(const Lanes& o) {
    v = v + o.v;
    return *this;
  }
  Lanes& operator-=(const Lanes& o) {
    v = v - o.v;
    return *this;
  }
  Lanes& operator*=(const Lanes& o) {
    v = v * o.v;
    return *this;
  }
  Lanes& operator/=(const Lanes& o) {
    v = v / o.v;
    return *this;
  }
};

inline Lanes operator+(const Lanes& a, const Lanes& b) {
  return Lanes(a.v + b.v);
}
inline Lanes operator-(const Lanes& a, const Lanes& b) {
  return Lanes(a.v - b.v);
}
inline Lanes operator*(const Lanes& a, const Lanes& b) {
  return Lanes(a.v * b.v);
}
inline Lanes operator/(const Lanes& a, const Lanes& b) {
  return Lanes(a.v / b.v);
}
inline Lanes operator-(const Lanes& a) {
  return Lanes(-a.v);
}

inline Mask operator<(const Lanes& a, const Lanes& b) {
  return {a.v < b.v};
}
inline Mask operator<=(const Lanes& a, const Lanes& b) {
  return {a.v <= b.v};
}
inline Mask operator>(const Lanes& a, const Lanes& b) {
  return {b.v < a.v};
}
inline Mask operator>=(const Lanes& a, const Lanes& b) {
  return {b.v <= a.v};
}
inline Mask operator&(const Mask& a, const Mask& b) {
  return {a.m & b.m};
}
inline Mask operator|(const Mask& a, const Mask& b) {
  return {a.m | b.m};
}
inline Mask operator!(const Mask& a) {
  return {~a.m};
}

/// `a` in the lanes where the mask is true, `b` in the others.
inline Lanes select(const Mask& mask, const Lanes& a, const Lanes& b) {
  return Lanes(chosen(mask.m, a.v, b.v));
}
inline bool any(const Mask& mask) {
  std::int64_t bits = 0;
  for (std::size_t i = 0; i < k_lane_count; ++i) {
    bits |= mask.m[i];
  }
  return bits != 0;
}
inline bool all(const Mask& mask) {
  return !any(!mask);
}

inline Lanes min(const Lanes& a, const Lanes& b) {
  return select(a < b, a, b);
}
inline Lanes max(const Lanes& a, const Lanes& b) {
  return select(a > b, a, b);
}
inline Lanes clamp(const Lanes& x, const Lanes& low, const Lanes& high) {
  return min(max(x, low), high);
}
inline Lanes abs(const Lanes& a) {
  return select(a < Lanes(0.0), -a, a);
}
inline Lanes sqrt(const Lanes& a) {
  Lanes out;
  for (std::size_t i = 0; i < k_lane_count; ++i) {
    out.set(i, __builtin_sqrt(a.v[i]));
  }
  return out;
}
inline double sum(const Lanes& a) {
  // Pairwise, so that the order is the same however the lanes are stored.
  return ((a.v[0] + a.v[4]) + (a.v[2] + a.v[6])) + ((a.v[1] + a.v[5]) + (a.v[3] + a.v[7]));
}

/// An argument that may be a plain number beside one that says which lanes are meant.
template <typename Real>
using Also = std::type_identity_t<Real>;

// exp and log for any lanes: all eight, or the few of numerics/register_lanes.h.
template <typename Real>
inline Real exp_in(const Real& x_in) {
  constexpr double k_log2e = 1.4426950408889634074;
  constexpr double k_ln2_high = 6.93147180369123816490e-01;
  constexpr double k_ln2_low = 1.90821492927058770002e-10;
  constexpr double k_round = 6755399441055744.0;  // 1.5 * 2^52: adding it rounds to an integer
  const Real x = clamp(x_in, -700.0, 700.0);
  const Real shifted = x * k_log2e + k_round;
  const Real n = shifted - k_round;
  const Real r = (x - n * k_ln2_high) - n * k_ln2_low;
  // Taylor to r^13 on |r| <= ln2/2: the remainder is below 5e-18.
  Real p = 1.0 / 6227020800.0;
  p = p * r + 1.0 / 479001600.0;
  p = p * r + 1.0 / 39916800.0;
  p = p * r + 1.0 / 3628800.0;
  p = p * r + 1.0 / 362880.0;
  p = p * r + 1.0 / 40320.0;
  p = p * r + 1.0 / 5040.0;
  p = p * r + 1.0 / 720.0;
  p = p * r + 1.0 / 120.0;
  p = p * r + 1.0 / 24.0;
  p = p * r + 1.0 / 6.0;
  p = p * r + 0.5;
  p = p * r + 1.0;
  p = p * r + 1.0;
  const auto bits = std::bit_cast<typename Real::Words>(shifted.v);
  const typename Real::Words power = (bits << 52) + (std::int64_t{1023} << 52);
  return Real(p.v * std::bit_cast<decltype(x_in.v)>(power));
}

template <typename Real>
inline Real log_in(const Real& x_in) {
  constexpr double k_ln2_high = 6.93147180369123816490e-01;
  constexpr double k_ln2_low = 1.90821492927058770002e-10;
  const Real x = max(x_in, 2.2250738585072014e-308);
  const auto bits = std::bit_cast<typename Real::Words>(x.v);
  // Mantissa in [1/sqrt2, sqrt2): shift the exponent boundary before splitting.
  const typename Real::Words shifted = bits - 0x3fe6a09e667f3bcdLL;
  const typename Real::Words exponent = exponent_bits(shifted);
  const Real m(std::bit_cast<decltype(x_in.v)>(bits - (exponent << 52)));
  // int64 -> double without a conversion instruction older machines lack.
  constexpr double k_magic = 6755399441055744.0;
  const auto magic = std::bit_cast<std::int64_t>(k_magic);
  const Real n = Real(std::bit_cast<decltype(x_in.v)>(exponent + magic)) - k_magic;
  const Real f = m - 1.0;
  const Real s = f / (m + 1.0);
  const Real z = s * s;
  // log(m) = 2 atanh(s), |s| <= 0.1716: ten terms leave 2e-17.
  Real q = 1.0 / 21.0;
  q = q * z + 1.0 / 19.0;
  q = q * z + 1.0 / 17.0;
  q = q * z + 1.0 / 15.0;
  q = q * z + 1.0 / 13.0;
  q = q * z + 1.0 / 11.0;
  q = q * z + 1.0 / 9.0;
  q = q * z + 1.0 / 7.0;
  q = q * z + 1.0 / 5.0;
  q = q * z + 1.0 / 3.0;
  const Real tail = 2.0 * s * z * q + n * k_ln2_low;
  // 2s = f - s f keeps the leading term exact near 1.
  return n * k_ln2_high + (f - (s * f - tail));
}

/// e^x, relative error below 4e-16; x is clamped to [-700, 700].
inline Lanes exp(const Lanes& x) {
  return exp_in(x);
}
/// Natural logarithm of x > 0 (x <= 0 gives about -708), error below 1 ulp or 4e-16.
inline Lanes log(const Lanes& x) {
  return log_in(x);
}

/// x^y for x > 0.
inline Lanes pow(const Lanes& x, const Lanes& y) {
  return exp(y * log(x));
}

// The same functions for one number, so that a setting computed outside the lanes
// has the same bits everywhere.
inline double exp_same(double x) {
  return exp(Lanes(x))[0];
}
inline double log_same(double x) {
  return log(Lanes(x))[0];
}
inline double pow_same(double x, double y) {
  return pow(Lanes(x), Lanes(y))[0];
}

/// Inverse of the standard normal distribution function for 0 < u < 1.
Lanes standard_normal_quantile(const Lanes& u);

}  // namespace maslin
