#pragma once

#include <string>
#include <vector>

#include "cli/commands.h"

namespace maslin {

/// `prices`: a file, or empty; `loads`: how often the oven is filled.
int cost_command(const std::vector<std::string>& files, const std::string& prices, int loads,
                 const CommonOptions& options);

}  // namespace maslin
