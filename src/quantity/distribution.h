// Distributions: what is known of a quantity that nobody knows exactly.
#pragma once

#include <string_view>

#include "numerics/lanes.h"

namespace maslin {

enum class Shape { point, normal, lognormal, uniform, triangular };

/// A distribution of one number, in whatever unit its owner says.
///
/// point: a. normal: mean a, standard deviation b. lognormal: median a,
/// standard deviation b of the natural logarithm. uniform: from a to b.
/// triangular: from a to c with the peak at b.
struct Distribution {
  Shape shape = Shape::point;
  double a = 0.0;
  double b = 0.0;
  double c = 0.0;

  bool operator==(const Distribution&) const = default;

  /// The value below which a share `u` (0 < u < 1, clamped inside) lies.
  double quantile(double u) const;
  Lanes quantile(const Lanes& u) const;
  double p10() const { return quantile(0.1); }
  double p50() const { return quantile(0.5); }
  double p90() const { return quantile(0.9); }
  double mean() const;
  double standard_deviation() const;
  /// The same distribution of `factor` times the quantity (factor >= 0).
  Distribution scaled(double factor) const;
};

Distribution point(double value);
Distribution normal(double mean, double sd);
/// Lognormal of the given median and relative spread (coefficient of variation).
Distribution lognormal(double median, double cv);
Distribution uniform(double low, double high);
Distribution triangular(double low, double peak, double high);

/// The lognormal of a product of independent positive factors: medians multiply,
/// variances of the logarithm add. Each factor is first matched by a lognormal of
/// its own median and p10..p90 width. A product of points is a point.
Distribution product(const Distribution& x, const Distribution& y);

std::string_view shape_name(Shape shape);
/// Shape from its name; point for an unknown word.
Shape shape_from(std::string_view name);

}  // namespace maslin
