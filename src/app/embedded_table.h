#pragma once

#include <string_view>

namespace maslin::app_data {

/// A file of data/ that the terminal and the page use, by its name; empty if there is none.
std::string_view embedded_table(std::string_view name);

}  // namespace maslin::app_data
