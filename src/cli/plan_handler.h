#pragma once

#include <string>

#include "app/app.h"
#include "server/plan_routes.h"

namespace maslin {

/// Plans a day for the page: of a recipe, or of a trial that is kept in `file`.
PlanHandler plan_handler(const Tools& tools, const std::string& file);

}  // namespace maslin
