#pragma once

#include <string_view>

namespace maslin::reading {

/// The text of an embedded table of data/reading/ by its file name; empty if none.
std::string_view embedded_table(std::string_view name);

}  // namespace maslin::reading
