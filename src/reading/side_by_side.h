#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace maslin::reading {

/// Two lists printed side by side put one after
/// the other: the left column, a blank line, the right column. Other lines stay as they
/// are. A run of lines is two columns when each has a wide gap before the same place and
/// most cells of both begin with an amount.
std::vector<std::string> unfolded(const std::vector<std::string_view>& lines);

}  // namespace maslin::reading
