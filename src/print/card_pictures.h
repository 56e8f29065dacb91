// The pictures of a card: the day as a strip, the rise as a band, cuts through the piece as it
// bakes.
#pragma once

#include <string>
#include <vector>

#include "forecast/summary.h"
#include "handon/card_words.h"
#include "handon/handon.h"
#include "print/column.h"

namespace maslin::print {

/// The stretches of the day side by side, as wide as they are long, each with its name and time.
void draw_day(Column& column, const std::vector<handon::CardTime>& times);

/// Volume over the minutes as a band with its middle; nothing when there is no trace.
void draw_rise(Sheet& sheet, std::size_t page, Box box, const ProveSummary& prove);

/// The piece cut through at the start, half-way and done, in the colours of its crumb and crust.
/// Nothing when the forecast has no cuts.
void draw_cuts(Sheet& sheet, std::size_t page, Box box, const BakeSummary& bake,
               const handon::CardWords& words);

/// The colour of crumb or crust of that lightness, L*.
Colour crust_colour(double lightness);

}  // namespace maslin::print
