// The terminal's words for what the page shows in pictures.
#pragma once

#include <string>

#include "forecast/summary.h"
#include "pantry/pantry.h"
#include "recipe/recipe.h"

namespace maslin {

/// The weighed recipe, part by part: grams with their range beside the found words, the
/// steps as understood, what is in doubt and why. `colour` adds terminal colours.
enum class Colour : std::uint8_t { no, yes };
std::string recipe_report(const Recipe& recipe, const Pantry& pantry, Colour colour);

/// The forecast in one page.
std::string forecast_report(const ForecastSummary& summary, const Pantry& pantry, Colour colour);

/// One ingredient as known.
std::string ingredient_report(const Ingredient& ingredient, const Pantry& pantry, Colour colour);

}  // namespace maslin
