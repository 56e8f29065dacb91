// bare_names: lists of names without amounts.
#pragma once

#include <vector>

#include "reading/fragments.h"

namespace maslin::reading {

/// A word that is said of a thing, and begins no name: "chopped", "for dusting", "or".
bool is_said_of(const Text& text, std::size_t i);

/// "Jam, butter and extra cream for serving": names without amounts, each a line of its own;
/// empty when it is no such list.
std::vector<Span> bare_names(const Text& text, std::size_t from, std::size_t to);

}  // namespace maslin::reading
