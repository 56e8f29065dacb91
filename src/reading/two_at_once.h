// two_at_once: lines that say two things at once: mixed with each other, or with one amount for
// both.
#pragma once

#include <cstddef>
#include <vector>

#include "reading/draft_line.h"

namespace maslin::reading {

/// A number of a mass or a volume.
bool is_real(const FoundMeasure& measure);

/// "2 tbsp sugar mixed with 2 tbsp water": the second has an amount of its own.
void mixed_line(Text& text, const Noun& noun, std::size_t to, std::vector<DraftLine>& out);

/// "3 oz mixed peel & currants", "1 egg and milk to brush": what the joined thing is that has no
/// amount of its own. One amount said of two is halved between them, with a doubt.
void shared_line(Text& text, std::size_t from, const Amounts& amounts, const Noun& noun,
                 std::size_t to, std::vector<DraftLine>& out);

/// "Flour and semolina 500 g": one amount behind the last two, of a kind: half of it for each.
void halve_joined(std::vector<DraftLine>& lines);

}  // namespace maslin::reading
