// The bake's what-ifs in words for the terminal.
#pragma once

#include <string>
#include <vector>

#include "forecast/bake_what_if.h"

namespace maslin {

/// One line for each.
std::vector<std::string> bake_what_if_lines(const BakeWhatIfs& what_ifs);

}  // namespace maslin
