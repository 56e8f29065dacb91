#pragma once

#include <string>

#include "app/app.h"
#include "cli/commands.h"
#include "server/compare_routes.h"

namespace maslin {

/// Two files, kept versions or trials (by their number) side by side.
int compare_command(const std::string& before, const std::string& after,
                    const CommonOptions& options);

/// The same for the page.
CompareHandler compare_handler(const Tools& tools, const std::string& file);

}  // namespace maslin
