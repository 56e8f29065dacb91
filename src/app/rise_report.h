// The rise in the terminal: a small plot of its band, and what would change it.
#pragma once

#include <string>
#include <vector>

#include "forecast/summary.h"

namespace maslin {

/// Lines of a plot of the volume over time: the middle of the draws, what 8 of 10 fall
/// between, the target; under it the dough's temperature. At most 72 columns. Empty when
/// there is nothing to draw.
std::vector<std::string> rise_plot(const ProveSummary& prove);

/// What the rise would do otherwise, in lines to read.
std::vector<std::string> what_if_lines(const RiseWhatIfs& what_ifs);

}  // namespace maslin
