// What a cheap measurement would be worth before it is made: its reading is played through,
// draw by draw, and weighs the draws as an observation would.
#pragma once

#include <string>
#include <vector>

#include "forecast/forecast.h"
#include "forecast/seen.h"

namespace maslin {

/// A measurement that would settle an unknown, and what it would read in each draw.
struct CheapMeasurement {
  std::string measure;  // "put a thermometer in the oven"
  Sighting reading;     // expected values and error; low and high are not set
};

/// Those of the set-up's unknowns that have one (data/measurements.tsv). What is known
/// already, or cannot be foretold, is left out.
std::vector<CheapMeasurement> cheap_measurements(const ForecastSetup& setup,
                                                 const Ensemble& ensemble);

/// Widths p10..p90 of outcomes: now, and on average once the reading is known. Sixteen
/// readings are played through, each from a draw that stands for a sixteenth of the weight,
/// with the reading's own error (Monte Carlo preposterior analysis, by importance weights).
struct Narrowing {
  double from = 0.0;
  double to = 0.0;
};
/// An outcome with its draws put in order once, for all measurements.
struct OutcomeInOrder {
  OutcomeInOrder(const Column* of) : column(of), order(order_of(of->values)) {}  // NOLINT: is one
  const Column* column;
  std::vector<std::size_t> order;
};
std::vector<Narrowing> narrowings(const Ensemble& ensemble, const CheapMeasurement& measurement,
                                  const std::vector<OutcomeInOrder>& outcomes);

}  // namespace maslin
