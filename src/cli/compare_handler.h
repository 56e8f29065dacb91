#pragma once

#include <string>

#include "app/app.h"
#include "server/compare_routes.h"

namespace maslin {

/// Sets two kept versions or trials side by side for the page, in the store `file`.
CompareHandler compare_handler(const Tools& tools, const std::string& file);

}  // namespace maslin
