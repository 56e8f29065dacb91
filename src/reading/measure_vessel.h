// What stands between a number and its unit, and vessels with a stated content.
#pragma once

#include "reading/measure.h"

namespace maslin::reading {

/// Past the words between a number and its unit, which are kept in `measure`: "2 heaped tbsp",
/// "1 large can", "a good pinch".
std::size_t adjectives(const Text& text, std::size_t i, FoundMeasure& measure);

/// A weight or a volume: what a vessel holds.
bool is_content(std::string_view unit);

/// "1 x 7g sachet", "2 (14 oz) cans", "1 400g tin", "half a 340g jar".
bool counted_containers(const Text& text, std::size_t i, FoundMeasure& out);

/// "1/2 jar marmalade (thick cut, 454 g jar)": takes what one of the containers holds.
bool tells_content(const Text& text, std::size_t i, std::size_t end, FoundMeasure& primary);

}  // namespace maslin::reading
