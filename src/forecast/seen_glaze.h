// What a glaze of the recipe's sugar and liquid does in each draw.
#pragma once

#include <optional>
#include <vector>

#include "forecast/forecast.h"

namespace maslin {

/// Viscosity in the room, Pa s, one for each draw: of the first glaze as the recipe has it, or
/// of a trial of it with `liquid_per_100_g` grams of its liquid to 100 g of its sugar where
/// that is above 0. Nothing where the recipe has no glaze of sugar and liquid.
std::optional<std::vector<double>> glaze_pa_s(const ForecastSetup& setup, const Ensemble& ensemble,
                                              double liquid_per_100_g);

}  // namespace maslin
