// adjusting: a recipe changed to what a person wants of it.
#pragma once

#include <string>
#include <vector>

#include "adjust/adjust.h"
#include "app/app.h"

namespace maslin {

/// Wants and holds in a baker's words or in the short ones of adjust/want.h: "softer",
/// "sugar at most 20 %", "feel=soft"; "eggs", "orange=3".
struct AdjustWords {
  std::vector<std::string> wants;
  std::vector<std::string> holds;
  Kitchen kitchen;  // with its prices, for a wanted cost
};

/// The adjustment, or the sentence about a want or a recipe that cannot be worked with.
Result<Adjustment> adjust_as_wanted(const Tools& tools, const Recipe& recipe,
                                    const AdjustWords& words);

}  // namespace maslin
