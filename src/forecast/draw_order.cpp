#include "forecast/draw_order.h"

#include <algorithm>
#include <numeric>

#include "numerics/lanes.h"

namespace maslin {
namespace {

constexpr std::uint32_t k_block = 256;
constexpr std::size_t k_block_batches = k_block / k_lane_count;

}  // namespace

std::vector<std::uint32_t> draw_order(const std::vector<Unknown>& unknowns, std::uint64_t seed,
                                      std::uint32_t draws) {
  std::vector<std::uint32_t> out(draws);
  std::iota(out.begin(), out.end(), 0U);
  std::vector<double> slowness(draws, 0.0);
  for (const Unknown& one : unknowns) {
    if (one.bake_log == 0.0) {
      continue;
    }
    const std::uint64_t key = name_key(one.name);
    for (std::uint32_t i = 0; i + k_lane_count <= draws; i += k_lane_count) {
      const Lanes step = standard_normal_quantile(draw_lanes(key, seed, i));
      for (std::size_t lane = 0; lane < k_lane_count; ++lane) {
        slowness[i + lane] += one.bake_log * step[lane];
      }
    }
  }
  for (std::uint32_t from = 0; from + k_block <= draws; from += k_block) {
    const auto begin = out.begin() + static_cast<std::ptrdiff_t>(from);
    std::sort(begin, begin + k_block,
              [&](std::uint32_t a, std::uint32_t b) { return slowness[a] < slowness[b]; });
    // What is shown of one draw is shown of one in the middle.
    std::rotate(begin, begin + k_block / 2, begin + k_block);
  }
  return out;
}

std::size_t batches_in_common(std::size_t one, std::size_t other) {
  const std::size_t fewer = std::min(one, other);
  const bool alike = one / k_block_batches == other / k_block_batches;
  return alike ? fewer : fewer / k_block_batches * k_block_batches;
}

DrawIndices draws_of(const std::vector<std::uint32_t>& order, std::size_t batch) {
  const std::size_t first = batch * k_lane_count;
  if (first + k_lane_count > order.size()) {
    return draws_from(static_cast<std::uint32_t>(first));
  }
  DrawIndices out;
  std::copy_n(order.begin() + static_cast<std::ptrdiff_t>(first), k_lane_count, out.begin());
  return out;
}

}  // namespace maslin
