// What was seen gives each draw a weight: the live correction of a forecast, learning, and
// the judging of causes are all this.
//
// A draw under which the sighting would be common weighs much, one under which it would be
// rare little; a small share of sightings is taken as misread and says nothing, so that one
// wrong note does not empty the ensemble. When too few draws are left to read ranges off,
// the physics runs again on draws aimed at what was seen, weighed so that the answer is
// the same, only less grainy.
#pragma once

#include <functional>
#include <span>
#include <string>
#include <vector>

#include "forecast/aim.h"
#include "forecast/forecast.h"
#include "forecast/likelihood.h"
#include "forecast/seen.h"
#include "recipe/observation.h"

namespace maslin {

/// How one observation stands to the forecast before it.
struct SeenFit {
  Observation observation;
  bool used = false;
  std::string why_not;  // a sentence when it was not used
  Band expected;        // before anything was seen, in the unit of the kind; of a class, its figure
  double misread = 0.0;  // chance that it says nothing, after all was seen
};

struct Weighing {
  std::vector<SeenFit> fits;     // as the observations
  std::vector<double> before;    // weights of the draws before anything was seen
  double effective_draws = 0.0;  // so many equal draws would tell as much
  double power = 1.0;            // under 1: likelihoods were flattened to keep enough draws
  Inkling inkling;               // where the weights lie; empty directions: nothing was told
};

/// Runs the forecast of a set-up; on as many threads as its owner likes.
using RunForecast = std::function<ForecastRun(const ForecastSetup&)>;

/// Weighs the draws of `run` by what was seen; may aim the set-up and run it again. The
/// set-up should follow the proves and the bake long enough (followed()). With no
/// observation that the models can speak to, the weights stay as they are.
Weighing observe(ForecastSetup& setup, ForecastRun& run, std::span<const Observation> seen,
                 const RunForecast& again);

}  // namespace maslin
