#pragma once

#include <string>
#include <vector>

#include "cli/commands.h"

namespace maslin {

/// Rules: eu, uk, us or codex.
int label_command(const std::vector<std::string>& files, const std::string& rules,
                  const CommonOptions& options);

}  // namespace maslin
