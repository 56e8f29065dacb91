#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "reading/token.h"

namespace maslin::reading {

/// The units over the columns of a table, left to right, from its head line ("Dough    g
/// baker's %"); empty when the line is no such head.
std::vector<std::string_view> column_units(const Text& text);

/// The row with the head's unit after each bare number of its columns; as it was when it
/// has none.
std::string row_with_units(const Text& text, const std::vector<std::string_view>& units);

}  // namespace maslin::reading
