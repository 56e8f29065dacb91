#pragma once

#include <string_view>

namespace maslin::store_schema {

/// A file of src/store/schema/ by its name; empty if there is none.
std::string_view embedded_table(std::string_view name);

}  // namespace maslin::store_schema
