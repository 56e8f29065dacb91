#pragma once

#include <string_view>

namespace maslin::finish_tables {

/// The text of an embedded table of data/ by its file name; empty if there is none.
std::string_view embedded_table(std::string_view name);

}  // namespace maslin::finish_tables
