// The next bake: which amounts to change, and why, out of bakes that were scored.
//
// The score is taken as a smooth function of the amounts that were changed from bake to bake
// (a Gaussian process); proposed is where it may be expected to gain most over the best so
// far, within the baker's limits. The change itself is made by adjust.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "adjust/adjust.h"

namespace maslin {

/// A bake with its score, 0 (bad) to 1 (as good as can be).
struct ScoredBake {
  Recipe recipe;
  double score = 0.0;
};

/// Between which values a figure may lie: "sugar_pct_flour" or "oven_celsius".
struct AmountLimit {
  std::string figure;
  double low = 0.0;
  double high = 0.0;
};
/// "sugar_pct_flour=10..20", or the sentence that says what it should have been.
struct ParsedLimit {
  std::optional<AmountLimit> limit;
  std::string problem;
};
ParsedLimit parse_limit(std::string_view text);

struct NextTrialRequest {
  std::vector<ScoredBake> bakes;
  /// Figures without one may go half as far again as they were tried, or a seventh of what
  /// they are.
  std::vector<AmountLimit> limits;
  Kitchen kitchen;
};

struct ChangedAmount {
  std::string figure;
  std::string words;  // "sugar, % of the flour"
  double from = 0.0;  // in the best bake so far
  double to = 0.0;
  double low = 0.0;  // the limits
  double high = 0.0;
};

enum class NextWhy : std::uint8_t { better, learn };

struct NextTrial {
  std::string problem;  // one sentence when nothing can be proposed
  std::vector<ChangedAmount> changes;
  std::size_t best_bake = 0;   // of the request, by what is thought of it
  double best_score = 0.0;     // expected of that bake's recipe
  double score = 0.0;          // expected of the proposal
  double score_sd = 0.0;       // how sure of it
  double chance_better = 0.0;  // that its true score is above best_score
  NextWhy why = NextWhy::learn;
  std::string reason;     // one sentence
  Adjustment adjustment;  // the best bake's recipe with the change
};

/// Needs three bakes or more, of which some differ in an amount of the dough or in the oven.
NextTrial next_trial(const NextTrialRequest& request, const Pantry& pantry);

}  // namespace maslin
