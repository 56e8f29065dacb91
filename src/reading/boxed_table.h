#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace maslin::reading {

/// The lines of a card drawn as boxes ("|Flour, sifted |  6 lb | 2 qt | 1. Sift … |" between rules)
/// as a list, one ingredient a line with its amounts behind it, and under it the words of the last
/// column. Lines outside such a card stay as they are.
std::vector<std::string> unboxed(const std::vector<std::string>& lines);

/// "here it is:| Flour | 3 cups || Water | 1 cup || …": the rows of a table that a page set in one
/// line, each a line; other lines as they are.
std::vector<std::string> rows_apart(const std::vector<std::string>& lines);

}  // namespace maslin::reading
