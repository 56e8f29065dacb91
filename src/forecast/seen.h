// What the models say an observation should have read, draw by draw.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "forecast/ensemble.h"
#include "forecast/forecast.h"
#include "recipe/observation.h"

namespace maslin {

/// One observation beside what was expected, on a scale on which people err alike
/// everywhere: logarithms of volumes, times and masses, degrees, points of feel, lightness.
struct Sighting {
  std::vector<double> expected;  // one per draw
  /// What was seen: one value (low = high), or between two; infinite to an open side.
  double low = 0.0;
  double high = 0.0;
  double sd = 1.0;       // of a sighting that was not misread
  double misread = 0.0;  // share of sightings that say nothing
  bool logarithm = false;
  /// Where the moment is what was seen ("doubled at 48 min"): how fast what was expected moves
  /// there in each draw, beside the mean of all, since a chance of values is a chance of moments
  /// times the pace from one to the next. Else empty.
  std::vector<double> pace = {};

  bool interval() const { return low < high; }
};

/// The error of each kind of observation (data/observation_errors.tsv).
struct SightingError {
  std::string kind;
  bool logarithm = false;
  double sd = 1.0;
  double misread = 0.03;
  double late = 0.0;  // by how much at most the note comes after what it notes
};
std::vector<SightingError> sighting_errors();

/// The observation beside these draws, or nothing when the models cannot speak to it: a
/// score, a prove the recipe does not have, a bake that is not computed. `all` are the
/// observations of the same bake: when it was done gives a time to what was seen at the end.
std::optional<Sighting> sighting_of(const ForecastSetup& setup, const Ensemble& ensemble,
                                    const std::vector<SightingError>& errors,
                                    const Observation& one, std::span<const Observation> all);

/// Options under which the forecast is followed long enough for what was seen.
ForecastOptions followed(ForecastOptions options, std::span<const Observation> seen);

/// What is seen of the bake rather than of the dough or a prove.
bool is_of_bake(ObservationKind kind);

}  // namespace maslin
