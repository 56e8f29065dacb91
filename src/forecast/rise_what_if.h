// What the rise would do with another dose or kind of yeast, in another room, with part of
// the sugar elsewhere; and what it would take to rise in a wanted time.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "forecast/rise_change.h"

namespace maslin {

enum class WhatIfGroup : std::uint8_t { yeast_dose, yeast_kind, room, sugar, wanted_time };
std::string_view what_if_group_name(WhatIfGroup group);

struct RiseWhatIf {
  WhatIfGroup group = WhatIfGroup::yeast_dose;
  std::string what;  // "half the yeast", "a room at 16 °C"
  Band minutes;      // of all proves together; infinite: never
  double chance_reached = 1.0;
  double yeast_grams = 0.0;
  std::optional<double> room_celsius;
  std::optional<double> prove_celsius;
  /// The yeast that keeps the rise as long as the recipe's own, where it can.
  std::optional<double> same_time_yeast_grams;
};

struct RiseWhatIfs {
  std::string problem;  // one sentence when there is nothing to say
  RiseWhatIf as_it_is;
  std::vector<RiseWhatIf> others;
};

/// `wanted_minutes` for all proves together; without it, what the recipe states. Draws with
/// the seed of `options`, at most 128 of them.
RiseWhatIfs rise_what_ifs(const Recipe& recipe, const Kitchen& kitchen, const Pantry& pantry,
                          ForecastOptions options, std::optional<double> wanted_minutes);

}  // namespace maslin
