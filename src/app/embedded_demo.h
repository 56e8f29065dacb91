#pragma once

#include <string_view>

namespace maslin::demo {

/// A file of data/demo/ by its name; empty if there is none.
std::string_view embedded_table(std::string_view name);

}  // namespace maslin::demo
