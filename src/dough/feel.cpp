#include "dough/feel.h"

#include <string>

namespace maslin {
namespace {

struct FeelRow {
  std::string_view name;
  std::string_view words;
  double high;
};

constexpr double k_lowest_score = -60.0;
constexpr std::array<FeelRow, k_feel_count> k_feels{{
    {"very_stiff", "hard to bring together; needs a roller or strong arms", -13.0},
    {"stiff", "firm and dry to the touch; kneads without flour", -5.0},
    {"medium", "smooth and tidy; leaves hands and bowl clean", 3.0},
    {"soft", "soft and tacky, not sticky once kneaded; holds its shape", 10.0},
    {"slack", "sticky and flowing; folded with wet hands, not kneaded", 25.0},
    {"batter", "drops from a spoon or pours; no kneading", 150.0},
}};

}  // namespace

std::string_view feel_name(DoughFeel feel) {
  return k_feels[static_cast<std::size_t>(feel)].name;
}

std::optional<DoughFeel> feel_from(std::string_view word) {
  std::string with_underscores(word);
  for (char& c : with_underscores) {
    c = c == ' ' || c == '-' ? '_' : c;
  }
  for (std::size_t i = 0; i < k_feel_count; ++i) {
    if (k_feels[i].name == with_underscores) {
      return static_cast<DoughFeel>(i);
    }
  }
  return std::nullopt;
}

std::string_view feel_words(DoughFeel feel) {
  return k_feels[static_cast<std::size_t>(feel)].words;
}

FeelBounds feel_bounds(DoughFeel feel) {
  const auto i = static_cast<std::size_t>(feel);
  return {i == 0 ? k_lowest_score : k_feels[i - 1].high, k_feels[i].high};
}

DoughFeel feel_at(double score) {
  for (std::size_t i = 0; i + 1 < k_feel_count; ++i) {
    if (score < k_feels[i].high) {
      return static_cast<DoughFeel>(i);
    }
  }
  return DoughFeel::batter;
}

FeelShares feel_shares(const Lanes& score, const Lanes& weight) {
  FeelShares shares{};
  for (std::size_t lane = 0; lane < k_lane_count; ++lane) {
    shares[static_cast<std::size_t>(feel_at(score[lane]))] += weight[lane];
  }
  return shares;
}

}  // namespace maslin
