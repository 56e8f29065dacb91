#pragma once

#include <string>
#include <vector>

namespace maslin::reading {

/// A table copied so that each cell has a line of its own with a bar behind it ("2 |", "tb |",
/// "Butter |"): the cells of a row, which a figure begins, on one line. Other lines stay.
std::vector<std::string> joined_cells(std::vector<std::string> lines);

}  // namespace maslin::reading
