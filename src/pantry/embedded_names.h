// What each ingredient is called in other languages, for cards and the reader.
#pragma once

#include <string_view>

namespace maslin::name_data {

/// The text of "ingredient_names.tsv"; empty for any other name.
std::string_view embedded_table(std::string_view name);

}  // namespace maslin::name_data
