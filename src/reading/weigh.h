#pragma once

#include <optional>
#include <vector>

#include "reading/draft.h"
#include "reading/places.h"

namespace maslin::reading {

/// Grams of a measure of the ingredient over the likely places: the medians averaged by
/// their logarithms, the difference between places added to the spread. Nothing when it
/// cannot be weighed.
std::optional<Distribution> weigh_measure(const FoundMeasure& measure, const Ingredient& ingredient,
                                          std::string_view packing, std::string_view size,
                                          const std::vector<PlaceShare>& places,
                                          const Lexicons& lexicons);

/// Weighs every line of the draft that has an amount and a known ingredient, with sums,
/// percentages of the flour and parts; adds the doubts that weighing brings.
void weigh_draft(Draft& draft, const std::vector<PlaceShare>& places, const Lexicons& lexicons);

}  // namespace maslin::reading
