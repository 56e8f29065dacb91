// forecast: unknowns, draws, outcomes, observations, weights; runs the physics in order.
//
// An ensemble is a table: one row per draw, a column for each unknown that went in and
// each outcome that came out, and a weight per draw. Every range, every correction from
// an observation, and the advice what to measure are read off this one table.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "numerics/draws.h"
#include "quantity/distribution.h"

namespace maslin {

/// A named quantity nobody knows exactly.
struct Unknown {
  std::string name;     // stable key: "line/dough/3", "oven_offset"
  std::string words;    // for people: "how much flour is in the cups"
  std::string measure;  // the cheap measurement that would fix it; empty if there is none
  std::string unit;
  Distribution prior;
  bool lasts = false;  // belongs to the kitchen and keeps what was learnt
  std::string source;
  std::string belongs = {};  // where it lasts: kitchen, flour, yeast or baker
  double day = 0.0;          // share of the variance that is new each bake although it lasts
  /// What the kitchen's description alone gives, where `prior` has more in it.
  std::optional<Distribution> described = {};
  double bake_log = 0.0;  // by how much a standard step changes log(minutes in the oven), roughly
};

/// One number per draw.
struct Column {
  std::string name;
  std::string unit;
  std::vector<double> values;
};

/// One number per draw and moment.
struct Trace {
  std::string name;
  std::string unit;
  double step_minutes = 0.0;
  std::vector<std::vector<double>> samples;  // [moment][draw]
};

/// A trace at these minutes, one value per draw; straight between moments, held at the ends.
std::vector<double> trace_at(const Trace& trace, double minutes);

/// p10, p50, p90 of a column.
struct Band {
  double p10 = 0.0;
  double p50 = 0.0;
  double p90 = 0.0;
  double width() const { return p90 - p10; }
};

struct Ensemble {
  std::vector<double> weight;  // one per draw, sums to 1
  std::vector<Column> unknowns;
  std::vector<Column> outcomes;
  std::vector<Trace> traces;

  std::size_t draws() const { return weight.size(); }
  /// The outcome (or unknown) of that name; null if there is none.
  const Column* column(std::string_view name) const;
  /// The first outcome whose name begins and ends so ("finish/glaze/", "/term"): that of the
  /// first part, whatever it is called; null if there is none.
  const Column* first_outcome(std::string_view head, std::string_view tail) const;
  Band band(const Column& column) const;
  Band band(std::string_view name) const;
  double mean(const Column& column) const;
};

/// The value below which a share `level` (0..1) of the weight lies; 0 without any weight.
double quantile_of(const std::vector<double>& values, const std::vector<double>& weight,
                   double level);

/// The weighted quantiles of any values, same length as the weights.
Band band_of(const std::vector<double>& values, const std::vector<double>& weight);
/// The same of values whose order is known: indices that sort them.
Band band_of(const std::vector<double>& values, const std::vector<double>& weight,
             const std::vector<std::size_t>& order);
/// Indices that sort the values; equal ones in their own order.
std::vector<std::size_t> order_of(const std::vector<double>& values);

}  // namespace maslin
