// draw_order: which draws are worked out side by side.
//
// Eight draws share one bake in lanes, and its steps: the slowest draw says how long it goes on,
// and each front that passes a cell in one of them makes the steps of all short. So draws that bake
// alike share a batch. The draws stay the same, and so does each but for the errors of its steps.
#pragma once

#include <cstdint>
#include <vector>

#include "forecast/ensemble.h"
#include "numerics/draws.h"

namespace maslin {

/// The draws 0 to `draws` - 1 in the order in which they go into batches. Each whole block of 256
/// is ordered by itself and the same whatever the number of draws; the draws beyond the last whole
/// block stand as they are. The middling ones of a block come first. `unknowns`: those whose
/// `bake_log` is not 0 count; a kitchen's distributions do not.
std::vector<std::uint32_t> draw_order(const std::vector<Unknown>& unknowns, std::uint64_t seed,
                                      std::uint32_t draws);

/// How many of the first batches are the same in two forecasts of so many batches.
std::size_t batches_in_common(std::size_t one, std::size_t other);

/// The draws of a batch; 8 `batch` to 8 `batch` + 7 where there is no order.
DrawIndices draws_of(const std::vector<std::uint32_t>& order, std::size_t batch);

}  // namespace maslin
