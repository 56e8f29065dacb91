#include "dough/hold_back.h"

#include <algorithm>

#include "quantity/number_text.h"

namespace maslin {
namespace {

struct WeightedDraw {
  double grams = 0.0;
  double weight = 0.0;
};

/// The draws in order with their weights summing to one; empty when there are none.
std::vector<WeightedDraw> sorted_draws(std::span<const Lanes> needed,
                                       std::span<const Lanes> weights) {
  std::vector<WeightedDraw> draws;
  double total = 0.0;
  for (std::size_t batch = 0; batch < needed.size(); ++batch) {
    for (std::size_t lane = 0; lane < k_lane_count; ++lane) {
      const double weight = batch < weights.size() ? weights[batch][lane] : 1.0;
      if (weight > 0.0 && (weights.empty() || batch < weights.size())) {
        draws.push_back({std::max(0.0, needed[batch][lane]), weight});
        total += weight;
      }
    }
  }
  std::sort(draws.begin(), draws.end(), [](const WeightedDraw& a, const WeightedDraw& b) {
    return a.grams < b.grams || (a.grams == b.grams && a.weight < b.weight);
  });
  for (WeightedDraw& draw : draws) {
    draw.weight /= total;
  }
  return draws;
}

double quantile(const std::vector<WeightedDraw>& draws, double share) {
  double below = 0.0;
  for (const WeightedDraw& draw : draws) {
    below += draw.weight;
    if (below >= share) {
      return draw.grams;
    }
  }
  return draws.back().grams;
}

double chance_above(const std::vector<WeightedDraw>& draws, double grams) {
  double above = 0.0;
  for (const WeightedDraw& draw : draws) {
    above += draw.grams > grams ? draw.weight : 0.0;
  }
  return above;
}

double rounded_down(double grams, double step) {
  return step * static_cast<double>(static_cast<long long>(grams / step + 1e-9));
}

double rounded_up(double grams, double step) {
  return step * static_cast<double>(static_cast<long long>(grams / step + 1.0 - 1e-9));
}

std::string grams_text(double grams) {
  return number_text(grams, 0) + " g";
}

void add_flour_steps(HoldBack& out) {
  const std::string feel = std::string(feel_words(out.wanted));
  out.steps.push_back({0.0, "mix with " + grams_text(out.at_first_g) +
                                " of the flour and rest it 15 minutes before judging"});
  if (out.keep_by_g <= 0.0) {
    return;
  }
  if (out.likely_g > 0.0 && out.likely_g < out.keep_by_g) {
    out.steps.push_back({out.likely_g, "about here it should be right (" + feel + ")" +
                                           ": knead a minute after each spoonful and stop as "
                                           "soon as it does"});
  }
  out.steps.push_back({out.keep_by_g, "if it is still sticky after " + grams_text(out.keep_by_g) +
                                          " more, stop: you are at the soft end, so use oiled "
                                          "hands rather than more flour"});
}

void add_liquid_steps(HoldBack& out) {
  const std::string feel = std::string(feel_words(out.wanted));
  out.steps.push_back({0.0, "mix with " + grams_text(out.at_first_g) +
                                " of the liquid until no dry flour is left, then feel it"});
  if (out.keep_by_g <= 0.0) {
    return;
  }
  if (out.likely_g > 0.0 && out.likely_g < out.keep_by_g) {
    out.steps.push_back({out.likely_g, "about here it should be right (" + feel + ")" +
                                           ": work in a spoonful at a time and stop as soon as "
                                           "it does"});
  }
  out.steps.push_back({out.keep_by_g, "if it is still stiff after " + grams_text(out.keep_by_g) +
                                          " more, rest it 20 minutes before adding any beyond "
                                          "what is written"});
}

// Flour and damp weather move the need by a tenth or two: beyond half or double of what is written
// an amount is missing or misread, and no feel mends that. Common practice, no source.
constexpr double k_least_likely_share = 0.5;
constexpr double k_most_likely_share = 2.0;

// Where the need is told no nearer than by a third of what is written on either side, a baker
// weighs that much and trusts her hands for the rest. Common practice, no source.
constexpr double k_least_at_first_share = 2.0 / 3.0;
constexpr double k_most_in_all_share = 4.0 / 3.0;

/// One step, the doubt; nothing is kept by.
void doubt_amount(HoldBack& out, double likely_grams) {
  const std::string what = out.what == HeldBack::flour ? "flour" : "liquid";
  out.at_first_g = out.as_written_g;
  out.steps.push_back({0.0, "as written it does not make a dough: " + grams_text(likely_grams) +
                                " of " + what + " would fit the rest, not " +
                                grams_text(out.as_written_g) +
                                "; is an amount missing or misread?"});
}

/// What is poured, or the flour, is known so ill that the range runs past what anybody keeps by.
void warn_of_spread(HoldBack& out, double tenth, double ninth_tenth) {
  if (tenth >= k_least_at_first_share * out.as_written_g &&
      ninth_tenth <= k_most_in_all_share * out.as_written_g) {
    return;
  }
  const bool flour = out.what == HeldBack::flour;
  out.steps.front().what_to_do +=
      "; the amounts are told too loosely to say nearer than " + grams_text(tenth) + " to " +
      grams_text(ninth_tenth) + ": weigh the " + (flour ? "liquid" : "flour") + " before you begin";
}

}  // namespace

double score_to_mix_to(double score_as_written) {
  const bool ordinary = score_as_written > -2.0 && score_as_written < 10.0;
  return ordinary ? std::clamp(score_as_written, 1.0, 8.0) : score_as_written;
}

HoldBack hold_back(HeldBack what, DoughFeel wanted, std::span<const Lanes> needed,
                   std::span<const Lanes> weights, double as_written_g) {
  HoldBack out;
  out.what = what;
  out.wanted = wanted;
  out.as_written_g = as_written_g;
  const std::vector<WeightedDraw> draws = sorted_draws(needed, weights);
  const double step = as_written_g >= 100.0 ? 5.0 : 1.0;
  const double middle = draws.empty() ? as_written_g : quantile(draws, 0.5);
  if (middle < k_least_likely_share * as_written_g || middle > k_most_likely_share * as_written_g) {
    doubt_amount(out, middle);
    return out;
  }
  if (draws.empty()) {
    out.at_first_g = as_written_g;
  } else {
    const double least = k_least_at_first_share * as_written_g;
    const double utmost = k_most_in_all_share * as_written_g;
    const double tenth = quantile(draws, 0.1);
    const double ninth_tenth = quantile(draws, 0.9);
    out.at_first_g = std::min(rounded_down(std::max(tenth, least), step), as_written_g);
    const double most = std::clamp(ninth_tenth, as_written_g, utmost);
    out.keep_by_g = std::max(0.0, rounded_up(most - out.at_first_g, step));
    const double likely = quantile(draws, 0.5) - out.at_first_g;
    out.likely_g = std::clamp(rounded_up(likely - 0.5 * step, step), 0.0, out.keep_by_g);
    out.chance_all_used = chance_above(draws, as_written_g);
    out.chance_not_enough = chance_above(draws, out.at_first_g + out.keep_by_g);
  }
  if (what == HeldBack::flour) {
    add_flour_steps(out);
  } else {
    add_liquid_steps(out);
  }
  if (!draws.empty()) {
    warn_of_spread(out, quantile(draws, 0.1), quantile(draws, 0.9));
  }
  return out;
}

}  // namespace maslin
