// The functions behind the addresses of trials.
#pragma once

#include <string>

#include "app/app.h"
#include "server/trial_routes.h"

namespace maslin {

/// `file`: the store; empty: the one in the person's data folder. `tools` must outlive them.
TrialHandlers trial_handlers(const Tools& tools, const std::string& file);

}  // namespace maslin
