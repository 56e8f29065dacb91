#pragma once

#include <string_view>

namespace maslin::adjust_data {

/// The text of this folder's table of data/ by its file name; empty if there is none.
std::string_view embedded_table(std::string_view name);

}  // namespace maslin::adjust_data
