// A recipe or a kitchen changed in what makes a dough rise, and how long it then takes.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "forecast/forecast.h"

namespace maslin {

/// What is changed; by default nothing.
struct RiseChange {
  double yeast_factor = 1.0;  // on all yeast but ripe starter
  std::string yeast_id;  // another yeast of the pantry, bought new, as much as does the same work
  double sugar_factor = 1.0;  // on sugar and syrup mixed into the dough: the rest goes elsewhere
  std::optional<double> room_celsius;
  std::optional<double> prove_celsius;  // all proves stand at this
  /// A prove by the clock in the fridge, the first (0) or a later one.
  struct InCold {
    std::size_t prove = 0;
    double minutes = 600.0;
  };
  std::optional<InCold> in_cold;
};

/// The recipe with the change in its lines; yeast is stated in grams where it changes kind.
Recipe recipe_with(const Recipe& recipe, const Pantry& pantry, const RiseChange& change);

/// The draws of the changed rise.
struct RiseDraws {
  std::string problem;  // one sentence when nothing can be forecast
  Schedule schedule;
  Ensemble ensemble;
  double yeast_grams = 0.0;  // median, all yeast lines but starter
};
RiseDraws rise_with(const Recipe& recipe, const Kitchen& kitchen, const Pantry& pantry,
                    ForecastOptions options, const RiseChange& change);

/// Minutes of all proves together, in each draw; infinite where one is never reached.
std::vector<double> rise_minutes(const Ensemble& ensemble);

/// The middle of rise_minutes with that change, over 32 draws; negative where nothing rises.
double middle_rise_minutes(const Recipe& recipe, const Kitchen& kitchen, const Pantry& pantry,
                           const RiseChange& change);
/// Whether a line of yeast but ripe starter has a weight.
bool has_yeast_to_change(const Recipe& recipe, const Pantry& pantry);

/// The factor on the yeast, 0.1 to 4, or the temperature of all proves, 10 to 38 C, with
/// which the proves take `minutes` in the middle draw: found by halving over 32 draws.
/// `reached` is what it comes to, minutes or a ratio; at an end of the span that is not
/// what was wanted.
struct RiseAnswer {
  double value = 0.0;
  double reached = 0.0;
};
/// Halves a span on which the minutes fall from `low` to `high`.
RiseAnswer halved_between(double low, double high, double wanted,
                          const std::function<double(double)>& minutes_at);
std::optional<RiseAnswer> yeast_factor_for(const Recipe& recipe, const Kitchen& kitchen,
                                           const Pantry& pantry, double minutes,
                                           const RiseChange& beside = {});
/// The factor on the yeast, 0.1 to 1, with which the prove in the cold of `change` grows in
/// the middle draw to its target and no further; `reached` is then that ratio.
std::optional<RiseAnswer> yeast_factor_in_cold(const Recipe& recipe, const Kitchen& kitchen,
                                               const Pantry& pantry, RiseChange change);
std::optional<RiseAnswer> prove_celsius_for(const Recipe& recipe, const Kitchen& kitchen,
                                            const Pantry& pantry, double minutes);

}  // namespace maslin
