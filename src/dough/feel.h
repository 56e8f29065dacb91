// What hands find: from stiff to batter.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>

#include "numerics/lanes.h"

namespace maslin {

enum class DoughFeel : std::uint8_t { very_stiff, stiff, medium, soft, slack, batter };
inline constexpr std::size_t k_feel_count = 6;

/// "very_stiff", "stiff", ...: the word used in output and in wants.
std::string_view feel_name(DoughFeel feel);
/// From that word, with spaces for underscores too; nothing for another word.
std::optional<DoughFeel> feel_from(std::string_view word);
/// What it is like under the hand, one clause.
std::string_view feel_words(DoughFeel feel);

/// Bounds of the feel score (effective hydration less absorption, points of flour).
/// The outermost are -60 and +150. Source: common practice, no source; set against
/// the published formulas in tests/published/dough_feel.tsv.
struct FeelBounds {
  double low = 0.0;
  double high = 0.0;
  double middle() const { return 0.5 * (low + high); }
};
FeelBounds feel_bounds(DoughFeel feel);
DoughFeel feel_at(double score);

/// How many of the lanes fall in each class, by weight.
using FeelShares = std::array<double, k_feel_count>;
FeelShares feel_shares(const Lanes& score, const Lanes& weight);

}  // namespace maslin
