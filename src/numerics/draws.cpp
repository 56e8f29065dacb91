#include "numerics/draws.h"

#include <numeric>

namespace maslin {
namespace {

std::uint64_t mix(std::uint64_t x) {
  // The finishing step of splitmix64 (Steele, Lea & Flood 2014), from memory.
  x ^= x >> 30;
  x *= 0xbf58476d1ce4e5b9ULL;
  x ^= x >> 27;
  x *= 0x94d049bb133111ebULL;
  x ^= x >> 31;
  return x;
}

std::uint32_t reverse_bits(std::uint32_t x) {
  x = (x << 16) | (x >> 16);
  x = ((x & 0x00ff00ffU) << 8) | ((x & 0xff00ff00U) >> 8);
  x = ((x & 0x0f0f0f0fU) << 4) | ((x & 0xf0f0f0f0U) >> 4);
  x = ((x & 0x33333333U) << 2) | ((x & 0xccccccccU) >> 2);
  return ((x & 0x55555555U) << 1) | ((x & 0xaaaaaaaaU) >> 1);
}

/// A permutation in which each bit depends only on the bits below it: applied to
/// reversed bits it is an Owen scramble.
std::uint32_t scramble_low_to_high(std::uint32_t x, std::uint32_t seed) {
  x += seed;
  x ^= x * 0x6c50b47cU;
  x ^= x * 0xb82f1e52U;
  x ^= x * 0xc7afe638U;
  x ^= x * 0x8d22f6e6U;
  return x;
}

}  // namespace

std::uint64_t name_key(std::string_view name) {
  std::uint64_t hash = 0xcbf29ce484222325ULL;
  for (const char c : name) {
    hash ^= static_cast<unsigned char>(c);
    hash *= 0x100000001b3ULL;
  }
  return mix(hash);
}

double draw(std::uint64_t key, std::uint64_t seed, std::uint32_t index) {
  const std::uint64_t mixed = mix(key ^ mix(seed + 0x9e3779b97f4a7c15ULL));
  const auto order_seed = static_cast<std::uint32_t>(mixed);
  const auto value_seed = static_cast<std::uint32_t>(mixed >> 32);
  // Order: an Owen scramble of the index keeps every aligned block of 2^n together.
  const std::uint32_t shuffled =
      reverse_bits(scramble_low_to_high(reverse_bits(index), order_seed));
  // Value: the radical inverse of the index, Owen-scrambled. The radical inverse is
  // the reversed index, so the two reversals around the scramble fall away.
  const std::uint32_t value = reverse_bits(scramble_low_to_high(shuffled, value_seed));
  return (static_cast<double>(value) + 0.5) * (1.0 / 4294967296.0);
}

DrawIndices draws_from(std::uint32_t first) {
  DrawIndices out;
  std::iota(out.begin(), out.end(), first);
  return out;
}

Lanes draw_lanes(std::uint64_t key, std::uint64_t seed, const DrawIndices& which) {
  Lanes out;
  for (std::size_t lane = 0; lane < k_lane_count; ++lane) {
    out.set(lane, draw(key, seed, which[lane]));
  }
  return out;
}

Lanes draw_lanes(std::uint64_t key, std::uint64_t seed, std::uint32_t first) {
  return draw_lanes(key, seed, draws_from(first));
}

}  // namespace maslin
