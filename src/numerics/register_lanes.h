// Lanes as one vector: all eight where AVX-512 holds them in a register, else half of them.
// Functions written for any lanes give the same bits for them as for `Lanes`; a loop over eight
// goes part by part.
#pragma once

#include <cstring>

#include "numerics/lanes.h"

namespace maslin {

template <typename Doubles, typename WordsOf>
struct alignas(sizeof(Doubles)) RegisterMask {
  WordsOf m;

  RegisterMask() : m{} {}
  RegisterMask(WordsOf x) : m(x) {}  // NOLINT: a comparison's bits are a mask
  // Spelt out for the same reason as those of Lanes.
  RegisterMask(const RegisterMask& o) : m(o.m) {}
  RegisterMask& operator=(const RegisterMask& o) {
    m = o.m;
    return *this;
  }

  friend RegisterMask operator&(const RegisterMask& a, const RegisterMask& b) {
    return {a.m & b.m};
  }
  friend RegisterMask operator|(const RegisterMask& a, const RegisterMask& b) {
    return {a.m | b.m};
  }
  friend RegisterMask operator!(const RegisterMask& a) { return {~a.m}; }
  friend bool any(const RegisterMask& mask) {
    std::int64_t bits = 0;
    for (std::size_t i = 0; i < sizeof(WordsOf) / sizeof(bits); ++i) {
      bits |= mask.m[i];
    }
    return bits != 0;
  }
  friend bool all(const RegisterMask& mask) { return !any(!mask); }
};

/// Aligned for whole registers whatever the target, as eight lanes are.
template <typename Doubles, typename WordsOf>
struct alignas(sizeof(Doubles)) RegisterLanes {
  using Vector = Doubles;
  using Words = WordsOf;
  using MaskOf = RegisterMask<Doubles, WordsOf>;
  static constexpr std::size_t k_count = sizeof(Vector) / sizeof(double);

  Vector v;

  RegisterLanes() : v{} {}
  RegisterLanes(double x) : v(x - Vector{}) {}  // NOLINT: a number is equal lanes
  explicit RegisterLanes(Vector x) : v(x) {}
  // Spelt out for the same reason as those of Lanes.
  RegisterLanes(const RegisterLanes& o) : v(o.v) {}
  RegisterLanes& operator=(const RegisterLanes& o) {
    v = o.v;
    return *this;
  }

  double operator[](std::size_t lane) const { return v[lane]; }

  RegisterLanes& operator+=(const RegisterLanes& o) { return *this = *this + o; }
  RegisterLanes& operator-=(const RegisterLanes& o) { return *this = *this - o; }
  RegisterLanes& operator*=(const RegisterLanes& o) { return *this = *this * o; }
  RegisterLanes& operator/=(const RegisterLanes& o) { return *this = *this / o; }

  friend RegisterLanes operator+(const RegisterLanes& a, const RegisterLanes& b) {
    return RegisterLanes(a.v + b.v);
  }
  friend RegisterLanes operator-(const RegisterLanes& a, const RegisterLanes& b) {
    return RegisterLanes(a.v - b.v);
  }
  friend RegisterLanes operator*(const RegisterLanes& a, const RegisterLanes& b) {
    return RegisterLanes(a.v * b.v);
  }
  friend RegisterLanes operator/(const RegisterLanes& a, const RegisterLanes& b) {
    return RegisterLanes(a.v / b.v);
  }
  friend RegisterLanes operator-(const RegisterLanes& a) { return RegisterLanes(-a.v); }
  friend MaskOf operator<(const RegisterLanes& a, const RegisterLanes& b) { return {a.v < b.v}; }
  friend MaskOf operator<=(const RegisterLanes& a, const RegisterLanes& b) { return {a.v <= b.v}; }
  friend MaskOf operator>(const RegisterLanes& a, const RegisterLanes& b) { return {b.v < a.v}; }
  friend MaskOf operator>=(const RegisterLanes& a, const RegisterLanes& b) { return {b.v <= a.v}; }
  friend RegisterLanes select(const MaskOf& mask, const RegisterLanes& a, const RegisterLanes& b) {
    return RegisterLanes(mask.m ? a.v : b.v);
  }
  friend RegisterLanes min(const RegisterLanes& a, const RegisterLanes& b) {
    return RegisterLanes(a.v < b.v ? a.v : b.v);
  }
  friend RegisterLanes max(const RegisterLanes& a, const RegisterLanes& b) {
    return RegisterLanes(b.v < a.v ? a.v : b.v);
  }
  friend RegisterLanes clamp(const RegisterLanes& x, const RegisterLanes& low,
                             const RegisterLanes& high) {
    return min(max(x, low), high);
  }
  friend RegisterLanes abs(const RegisterLanes& a) { return select(a < RegisterLanes(0.0), -a, a); }
  friend RegisterLanes sqrt(const RegisterLanes& a) {
    RegisterLanes out;
    for (std::size_t i = 0; i < k_count; ++i) {
      out.v[i] = __builtin_sqrt(a.v[i]);
    }
    return out;
  }
  friend RegisterLanes exp(const RegisterLanes& x) { return exp_in(x); }
  friend RegisterLanes log(const RegisterLanes& x) { return log_in(x); }
};

/// For machines that hold eight lanes in a register, and for all others: of more than four a long
/// formula would not keep its values in registers.
using WideLanes = RegisterLanes<EightDoubles, EightWords>;
using NarrowLanes = RegisterLanes<FourDoubles, FourWords>;

/// Which of eight lanes a function written for any is about, as what reads and writes them.
template <typename Real>
struct PartOf {
  std::size_t part = 0;

  Real operator()(const Lanes& all) const {
    Real out;
    std::memcpy(&out.v, reinterpret_cast<const char*>(&all.v) + part * sizeof(out.v),
                sizeof(out.v));
    return out;
  }
  void put(Lanes& all, const Real& some) const {
    std::memcpy(reinterpret_cast<char*>(&all.v) + part * sizeof(some.v), &some.v, sizeof(some.v));
  }
};
template <>
struct PartOf<Lanes> {
  std::size_t part = 0;

  Lanes operator()(const Lanes& all) const { return all; }
  void put(Lanes& all, const Lanes& some) const { all = some; }
};
template <typename Real>
inline constexpr std::size_t k_parts = sizeof(Lanes) / sizeof(Real);

}  // namespace maslin
