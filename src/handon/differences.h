// What will be different there, and by how much: two forecasts side by side.
#pragma once

#include <vector>

#include "handon/card_words.h"
#include "handon/handon.h"

namespace maslin::handon {

/// Figures that differ by more than a hand, a clock or an eye would pass over.
std::vector<Difference> differences_of(const ForecastSummary& home, const ForecastSummary& there,
                                       const Kitchen& from, const Kitchen& to,
                                       const CardWords& words);

/// The rises and the bake there.
std::vector<CardTime> times_of(const ForecastSummary& there, const CardWords& words);

/// A dough is looked at every five minutes, an oven every one (every five from half an hour on).
enum class Watched : std::uint8_t { dough, oven };
double clock_minutes(double minutes, Watched watched);

/// The band in clock minutes. Its upper end is at most three times its middle: beyond are the
/// doughs that never get there, which no clock tells.
Range clock_range(const Band& minutes, Watched watched);

/// "15–20 min", in hours and minutes from two hours on.
std::string minutes_words(const Band& minutes, Watched watched, const CardWords& words);

}  // namespace maslin::handon
