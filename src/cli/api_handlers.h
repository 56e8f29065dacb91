// The functions behind the interface of the page.
#pragma once

#include <string>

#include "app/app.h"
#include "server/routes.h"

namespace maslin {

/// `store`: its file; empty: the one in the person's data folder. `tools` must outlive them.
ApiHandlers api_handlers(const Tools& tools, const std::string& store);

}  // namespace maslin
