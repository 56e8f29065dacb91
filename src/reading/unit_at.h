#pragma once

#include "reading/token.h"

namespace maslin::reading {

/// The unit word at `i`, its full stop included.
Match unit_at(const Text& text, std::size_t i);

}  // namespace maslin::reading
