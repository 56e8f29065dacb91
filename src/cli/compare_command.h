#pragma once

#include <string>

#include "cli/commands.h"

namespace maslin {

/// Two files, kept versions or trials (by their number) side by side.
int compare_command(const std::string& before, const std::string& after,
                    const CommonOptions& options);

}  // namespace maslin
