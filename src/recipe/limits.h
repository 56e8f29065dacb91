// How large a recipe may be: what a document of one may hold, and so what a reading may give.
#pragma once

#include <cstddef>

namespace maslin {

inline constexpr std::size_t k_most_parts = 64;
/// In a part; of steps as many again.
inline constexpr std::size_t k_most_lines = 400;
inline constexpr double k_most_line_grams = 1e9;
inline constexpr double k_most_pieces = 1e6;
inline constexpr double k_most_tin_mm = 10'000.0;

}  // namespace maslin
