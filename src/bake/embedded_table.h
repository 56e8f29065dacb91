#pragma once

#include <string_view>

namespace maslin::bake_tables {

/// The text of a table of data/ by its file name; empty when there is none.
std::string_view embedded_table(std::string_view name);

}  // namespace maslin::bake_tables
