// Kitchens and bakers that are made up, so that the truth is known: every unknown of a day is
// drawn once from what is thought of kitchens, and the bake is run with these as points.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <functional>
#include <future>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "forecast/forecast.h"
#include "forecast/likelihood.h"
#include "forecast/seen.h"
#include "numerics/draws.h"
#include "support/larder.h"

namespace simulated {

/// Plain milk buns in grams; the bake as said.
inline maslin::Recipe buns(double pieces, double celsius, maslin::Range minutes) {
  using namespace maslin;
  Recipe recipe;
  recipe.title = "Milk buns";
  recipe.pieces = Range{pieces, pieces};
  Part dough;
  dough.name = "dough";
  dough.lines = {weighed_line("plain_flour", 500), weighed_line("whole_milk", 300),
                 weighed_line("butter", 40),       weighed_line("caster_sugar", 40),
                 weighed_line("instant_yeast", 6), weighed_line("salt", 8)};
  const auto step = [](StepKind kind, Range range, const char* until) {
    Step out;
    out.kind = kind;
    out.minutes = range;
    out.until = until;
    return out;
  };
  dough.steps = {step(StepKind::knead, {10, 10}, ""), step(StepKind::prove, {60, 60}, "doubled"),
                 step(StepKind::shape, {5, 5}, ""), step(StepKind::prove, {40, 40}, "puffy"),
                 step(StepKind::bake, minutes, "")};
  dough.steps.back().celsius = Range{celsius, celsius};
  recipe.parts = {dough};
  return recipe;
}

/// Draws and seed of a forecast that is followed long enough for what is seen late.
inline maslin::ForecastOptions followed_long(std::uint32_t draws, std::uint64_t seed = 1) {
  maslin::ForecastOptions out;
  out.draws = draws;
  out.seed = seed;
  out.prove_minutes_at_least = 400;
  out.bake_minutes_at_least = 45;
  return out;
}

inline maslin::ForecastSetup set_up(const maslin::Recipe& recipe, const maslin::Kitchen& kitchen,
                                    const maslin::ForecastOptions& options) {
  return set_up_forecast(recipe, kitchen, whole_pantry(), options);
}

/// A number between 0 and 1, and a standard normal one, that go with a seed and a name.
inline double share_of(std::uint64_t seed, std::string_view name) {
  return maslin::draw(maslin::name_key(name), seed, 0);
}
inline double score_of(std::uint64_t seed, std::string_view name) {
  return maslin::standard_normal_quantile(maslin::Lanes(share_of(seed, name)))[0];
}

/// Where kitchens of a certain kind lie: the middle moved by so much (times so much where the
/// unknown is lognormal), and what lasts spread about it a third as widely as among all kitchens.
struct Shift {
  std::string_view name;
  double by = 0.0;
};

/// What lasts of an unknown, off its middle, by the kitchen's seed; on the natural scale.
inline double lasting_off(const maslin::Unknown& one, std::uint64_t kitchen) {
  return one.lasts ? one.prior.b * std::sqrt(1.0 - one.day) * score_of(kitchen, one.name) : 0.0;
}

/// The unknowns of one day, each a point: what lasts by the kitchen's seed, what is new by the
/// day's, in the shares that data/forecast_unknowns.tsv gives them.
inline std::vector<maslin::Unknown> day_in_kitchen(const maslin::ForecastSetup& setup,
                                                   std::uint64_t kitchen, std::uint64_t day,
                                                   const std::vector<Shift>& shifts = {}) {
  using namespace maslin;
  std::vector<Unknown> out = setup.unknowns;
  for (Unknown& one : out) {
    const bool is_log = one.prior.shape == Shape::lognormal;
    if (!is_log && one.prior.shape != Shape::normal) {
      continue;
    }
    double middle = one.prior.a;
    double stays = lasting_off(one, kitchen);
    const double is_new =
        one.prior.b * (one.lasts ? std::sqrt(one.day) : 1.0) * score_of(day, one.name);
    for (const Shift& shift : shifts) {
      if (shift.name == one.name) {
        middle = is_log ? middle * shift.by : middle + shift.by;
        stays /= 3.0;
      }
    }
    one.prior = point(is_log ? middle * std::exp(stays + is_new) : middle + stays + is_new);
  }
  return out;
}

/// A day as it was: eight draws, all alike.
struct Day {
  maslin::ForecastSetup setup;
  maslin::Ensemble ensemble;

  /// Of an outcome or an unknown, which must be there.
  double value(std::string_view name) const { return ensemble.column(name)->values.front(); }
};
inline Day lived(const maslin::Recipe& recipe, maslin::ForecastOptions options,
                 std::vector<maslin::Unknown> unknowns) {
  options.draws = maslin::k_lane_count;
  Day out{set_up(recipe, {}, options), {}};
  out.setup.unknowns = std::move(unknowns);
  out.setup.scores = scores_of(out.setup.unknowns);
  out.ensemble = run_forecast(out.setup).ensemble;
  return out;
}

/// Who writes the notes of that day, with the errors that data/observation_errors.tsv gives
/// people: what is read is off by chance, and now and then says nothing at all.
class Baker {
 public:
  /// `before` is the forecast of that day by those who know no more than this: a note that says
  /// nothing lies anywhere about it.
  Baker(const Day& day, const maslin::ForecastSetup& setup, const maslin::Ensemble& before,
        std::uint64_t seed)
      : day_(day), setup_(setup), before_(before), seed_(seed) {}

  maslin::Observation reads(maslin::ObservationKind kind, std::optional<double> at) const {
    const std::string key = std::string(observation_kind_name(kind)) + " read";
    maslin::Observation one = looked_at(kind, at);
    const maslin::Sighting right = *sighting_of(day_.setup, day_.ensemble, errors_, one, {});
    const maslin::Sighting thought = *sighting_of(setup_, before_, errors_, one, {});
    const maslin::Anywhere anywhere = maslin::anywhere(thought, before_.weight);
    const bool misread = share_of(seed_, key + " wrongly") < right.misread;
    const double late = (right.high - right.low) * share_of(seed_, key + " late");
    const double value = misread ? anywhere.centre + anywhere.sd * score_of(seed_, key)
                                 : right.expected.front() + late + right.sd * score_of(seed_, key);
    one.value = right.logarithm ? std::exp(value) : value;
    if (kind == maslin::ObservationKind::minutes_done) {
      one.at_minutes = one.value;
    }
    return one;
  }

  /// The minute at which the first prove looks doubled to them, whose eye is off alike all day.
  /// In a dough that never looks so, what is seen of it at the end.
  maslin::Observation doubled() const {
    const double longest = day_.setup.options.prove_minutes_at_least;
    maslin::Observation one = looked_at(maslin::ObservationKind::volume_ratio, 0.0);
    one.value = 2.0;
    double& minutes = one.at_minutes.emplace(0.0);
    double before = 0.0;
    for (; minutes < longest; minutes += 1.0) {
      const maslin::Sighting here = *sighting_of(day_.setup, day_.ensemble, errors_, one, {});
      const double left = here.low - here.sd * score_of(seed_, "doubled") - here.expected.front();
      if (left <= 0.0) {
        minutes -= before > 0.0 ? left / (left - before) : 0.0;
        return one;
      }
      before = left;
    }
    one.bound = maslin::Bound::below;
    return one;
  }

 private:
  static maslin::Observation looked_at(maslin::ObservationKind kind, std::optional<double> at) {
    maslin::Observation out;
    out.kind = kind;
    out.value = 1.0;  // of no matter: what is expected does not hang on it
    out.at_minutes = at;
    return out;
  }

  const Day& day_;
  const maslin::ForecastSetup& setup_;
  const maslin::Ensemble& before_;
  std::uint64_t seed_;
  std::vector<maslin::SightingError> errors_ = maslin::sighting_errors();
};

/// Kitchens two at a time.
inline void for_kitchens(int kitchens, const std::function<void(int)>& each) {
  const auto half = [&](int from) {
    for (int i = from; i < kitchens; i += 2) {
      each(i);
    }
  };
  std::future<void> odd = std::async(std::launch::async, half, 1);
  half(0);
  odd.get();
}

}  // namespace simulated
