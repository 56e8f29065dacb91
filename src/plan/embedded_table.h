#pragma once

#include <string_view>

namespace maslin::plan_data {

/// The text of one of this folder's tables of data/ by its file name; empty if there is none.
std::string_view embedded_table(std::string_view name);

}  // namespace maslin::plan_data
