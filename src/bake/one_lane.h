// One draw of eight taken for itself, in all lanes alike: what a cut through one piece needs.
#pragma once

#include <cstddef>

#include "bake/bake.h"

namespace maslin {

Piece one_lane(const Piece& piece, std::size_t lane);
Oven one_lane(const Oven& oven, std::size_t lane);
BakeUnknowns one_lane(const BakeUnknowns& unknowns, std::size_t lane);

}  // namespace maslin
