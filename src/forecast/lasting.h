// What stays from bake to bake: the part of the unknowns that belongs to the oven, the
// flour, the yeast or the baker, and how one bake's sightings change what is known of it.
#pragma once

#include <string>
#include <vector>

#include "forecast/forecast.h"
#include "forecast/observe.h"
#include "numerics/dense.h"
#include "recipe/kitchen.h"

namespace maslin {

/// The lasting unknowns of a set-up as a joint normal distribution on the natural scale (the
/// logarithm where the unknown is lognormal), and what is new each day on top of it.
struct Lasting {
  std::vector<std::size_t> score;       // places among the set-up's scores
  std::vector<std::string> name;        // "oven_offset_k", "flour_absorption@plain_flour"
  std::vector<Distribution> described;  // by the kitchen's description alone
  std::vector<double> mean;
  SquareMatrix covariance;
  std::vector<double> day_variance;

  std::size_t size() const { return score.size(); }
};

/// With what the kitchen has learnt. What was learnt against another description (the oven's
/// offset was since stated otherwise) is set aside.
Lasting lasting_of(const ForecastSetup& setup);

/// Puts what the kitchen has learnt into the set-up's unknowns and scores.
void take_lessons(ForecastSetup& setup);

/// What the kitchen knows after this bake. What the bake did not touch stays as it was.
KitchenLessons lessons_after(const ForecastSetup& setup, const Weighing& weighing);

/// One learnt thing for people: what, how far from what was thought, how sure.
struct LearntThing {
  std::string name;
  std::string words;  // "how far the oven is off its dial"
  std::string of;     // the ingredient it belongs to; may be empty
  std::string unit;
  Band before;  // by the description alone, in the unknown's own unit
  Band now;
};
/// What moved by a fifth of its spread or narrowed by a tenth, most narrowed first.
std::vector<LearntThing> learnt_things(const KitchenLessons& lessons, const Kitchen& kitchen);

}  // namespace maslin
