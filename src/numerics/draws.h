// Scrambled low-discrepancy draws without tables or state.
#pragma once

#include <array>
#include <cstdint>
#include <string_view>

#include "numerics/lanes.h"

namespace maslin {

/// A stable 64-bit key of a name (FNV-1a, finished by a mixing step).
std::uint64_t name_key(std::string_view name);

/// The `index`-th draw of the unknown with this key, strictly inside (0, 1).
///
/// One dimension is a nested-uniform (Owen) scrambled van der Corput sequence whose
/// order is itself scrambled by the key, so that any first 2^n draws fall one into
/// each of 2^n equal strata, and two unknowns are paired at random. A draw depends
/// on the key and the seed alone: adding an unknown leaves the others' draws alone,
/// and an edited recipe is compared with common random numbers.
/// Source: Burley 2020, Practical hash-based Owen scrambling, J. Computer Graphics
/// Techniques 9(4) (method; hash constants from memory).
double draw(std::uint64_t key, std::uint64_t seed, std::uint32_t index);

/// The numbers of eight draws, in lane order.
using DrawIndices = std::array<std::uint32_t, k_lane_count>;
/// `first` to `first` + 7.
DrawIndices draws_from(std::uint32_t first);

Lanes draw_lanes(std::uint64_t key, std::uint64_t seed, const DrawIndices& which);
/// Draws `first` to `first` + 7.
Lanes draw_lanes(std::uint64_t key, std::uint64_t seed, std::uint32_t first);

}  // namespace maslin
