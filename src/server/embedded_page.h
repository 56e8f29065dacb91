#pragma once

#include <string_view>

namespace maslin::page {

/// The text of an embedded file of the page by its name; empty if there is none.
std::string_view embedded_table(std::string_view name);

}  // namespace maslin::page
