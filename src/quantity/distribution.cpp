#include "quantity/distribution.h"

#include <algorithm>
#include <cmath>

namespace maslin {
namespace {

constexpr double k_z90 = 1.2815515655446004;

/// Standard deviation of the logarithm of the lognormal that has this p10..p90.
double log_sd(const Distribution& d) {
  if (d.shape == Shape::lognormal) {
    return d.b;
  }
  const double low = d.p10();
  const double high = d.p90();
  return low > 0 && high > low ? log_same(high / low) / (2 * k_z90) : 0.0;
}

}  // namespace

Lanes Distribution::quantile(const Lanes& u) const {
  const Lanes p = clamp(u, 1e-12, 1.0 - 1e-12);
  switch (shape) {
    case Shape::point:
      return a;
    case Shape::normal:
      return a + b * standard_normal_quantile(p);
    case Shape::lognormal:
      return a * exp(b * standard_normal_quantile(p));
    case Shape::uniform:
      return a + (b - a) * p;
    case Shape::triangular: {
      const double width = c - a;
      const double at_peak = width > 0 ? (b - a) / width : 0.0;
      return select(p < at_peak, a + sqrt(p * width * (b - a)),
                    c - sqrt((1.0 - p) * width * (c - b)));
    }
  }
  return a;
}

double Distribution::quantile(double u) const {
  return quantile(Lanes(u))[0];
}

double Distribution::mean() const {
  switch (shape) {
    case Shape::point:
    case Shape::normal:
      return a;
    case Shape::lognormal:
      return a * exp_same(0.5 * b * b);
    case Shape::uniform:
      return 0.5 * (a + b);
    case Shape::triangular:
      return (a + b + c) / 3.0;
  }
  return a;
}

double Distribution::standard_deviation() const {
  switch (shape) {
    case Shape::point:
      return 0.0;
    case Shape::normal:
      return b;
    case Shape::lognormal:
      return mean() * std::sqrt(std::max(0.0, exp_same(b * b) - 1.0));
    case Shape::uniform:
      return (b - a) / std::sqrt(12.0);
    case Shape::triangular:
      return std::sqrt(std::max(0.0, a * a + b * b + c * c - a * b - a * c - b * c) / 18.0);
  }
  return 0.0;
}

Distribution Distribution::scaled(double factor) const {
  Distribution out = *this;
  out.a *= factor;
  if (shape != Shape::lognormal) {
    out.b *= factor;
  }
  out.c *= factor;
  return out;
}

Distribution point(double value) {
  return {Shape::point, value, 0.0, 0.0};
}
Distribution normal(double mean, double sd) {
  return {Shape::normal, mean, sd, 0.0};
}
Distribution lognormal(double median, double cv) {
  return cv > 0 ? Distribution{Shape::lognormal, median, std::sqrt(log_same(1.0 + cv * cv)), 0.0}
                : point(median);
}
Distribution uniform(double low, double high) {
  return high > low ? Distribution{Shape::uniform, low, high, 0.0} : point(low);
}
Distribution triangular(double low, double peak, double high) {
  return {Shape::triangular, low, peak, high};
}

Distribution product(const Distribution& x, const Distribution& y) {
  if (x.shape == Shape::point) {
    return y.scaled(x.a);
  }
  if (y.shape == Shape::point) {
    return x.scaled(y.a);
  }
  const double sx = log_sd(x);
  const double sy = log_sd(y);
  return {Shape::lognormal, x.p50() * y.p50(), std::sqrt(sx * sx + sy * sy), 0.0};
}

std::string_view shape_name(Shape shape) {
  switch (shape) {
    case Shape::point:
      return "point";
    case Shape::normal:
      return "normal";
    case Shape::lognormal:
      return "lognormal";
    case Shape::uniform:
      return "uniform";
    case Shape::triangular:
      return "triangular";
  }
  return "point";
}

Shape shape_from(std::string_view name) {
  for (const Shape shape :
       {Shape::point, Shape::normal, Shape::lognormal, Shape::uniform, Shape::triangular}) {
    if (shape_name(shape) == name) {
      return shape;
    }
  }
  return Shape::point;
}

}  // namespace maslin
