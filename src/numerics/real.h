// The handful of functions a formula needs, for a plain double as for lanes, so that
// one template serves both a single run in a test and eight draws in a forecast.
#pragma once

#include "numerics/lanes.h"

namespace maslin {

inline double select(bool mask, double a, double b) {
  return mask ? a : b;
}
inline double min(double a, double b) {
  return a < b ? a : b;
}
inline double max(double a, double b) {
  return a > b ? a : b;
}
inline double exp(double x) {
  return exp_same(x);
}
inline double log(double x) {
  return log_same(x);
}
inline double sqrt(double x) {
  return __builtin_sqrt(x);
}
inline bool any(bool mask) {
  return mask;
}

/// max(x, 0) with its corner rounded over a width of about `width`; never below zero.
template <typename Real>
inline Real soft_positive(const Real& x, double width) {
  return 0.5 * (x + sqrt(x * x + width * width));
}

}  // namespace maslin
