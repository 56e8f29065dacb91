#include "adjust/explain.h"

#include <algorithm>
#include <cmath>

#include "dough/feel.h"
#include "quantity/number_text.h"

namespace maslin {
namespace {

bool feasible(const Balance& balance, const std::vector<Want>& wants) {
  return solve_balance(balance, wants, nullptr, WholeItems::divisible).status ==
         SolveStatus::optimal;
}

/// The smallest set of wants that exclude each other: drop each that is not needed for it.
std::vector<Want> clashing(const Balance& balance, std::vector<Want> wants) {
  for (std::size_t i = 0; i < wants.size();) {
    std::vector<Want> fewer = wants;
    fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(i));
    if (!feasible(balance, fewer)) {
      wants = std::move(fewer);
    } else {
      ++i;
    }
  }
  return wants;
}

std::string want_name(const Want& want) {
  return want.text.substr(0, want.text.find_first_of("<>= "));
}

std::string percent_text(const Want& want, double from, double to) {
  const bool feel = want.kind == WantKind::feel;
  if (feel) {
    return "brings the feel from " + std::string(feel_name(feel_at(from))) + " to " +
           std::string(feel_name(feel_at(to)));
  }
  if (want.kind == WantKind::total_grams || want.kind == WantKind::fill) {
    return "brings the dough from " + number_text(from, 0) + " to " + number_text(to, 0) + " g";
  }
  return "brings " + want_name(want) + " from " + number_text(from, 1) + " to " +
         number_text(to, 1);
}

}  // namespace

std::vector<Conflict> conflicts_of(const Balance& balance, const std::vector<Want>& wants) {
  std::vector<Conflict> out;
  const std::vector<Want> clash = clashing(balance, wants);
  for (const Want& want : clash) {
    const BalanceSolution near = solve_balance(balance, clash, &want, WholeItems::divisible);
    Conflict conflict{want.text, ""};
    if (near.status == SolveStatus::optimal) {
      const double reached = figure_of(balance, want, near.grams);
      conflict.nearest = "with the others " +
                         (want.kind == WantKind::feel
                              ? "the feel can be " + std::string(feel_name(feel_at(reached)))
                              : want_name(want) + " can be " + number_text(reached, 1)) +
                         ", no nearer";
    }
    out.push_back(std::move(conflict));
  }
  return out;
}

std::vector<double> rounded_grams(const Balance& balance, const std::vector<Want>& wants,
                                  const std::vector<double>& grams) {
  for (const double fineness : {1.0, 0.1, 0.01}) {
    std::vector<double> out = grams;
    for (std::size_t i = 0; i < grams.size(); ++i) {
      const BalanceLine& line = balance.lines[i];
      const bool moved = std::fabs(grams[i] - line.grams) >= 1e-6;
      if (!line.held && line.unit_grams <= 0.0 && moved) {
        const double step = fineness * (grams[i] < 20.0 ? 0.1 : 1.0);
        out[i] = step * std::round(grams[i] / step);
      }
    }
    if (std::all_of(wants.begin(), wants.end(),
                    [&](const Want& want) { return is_met(balance, want, out); })) {
      return out;
    }
  }
  return grams;
}

std::string why_of(const Balance& balance, const std::vector<Want>& wants,
                   const std::vector<double>& before, const std::vector<double>& after,
                   std::size_t line) {
  const Want* best = nullptr;
  double most = 0.0;
  for (const Want& want : wants) {
    const double from = figure_of(balance, want, before);
    const double to = figure_of(balance, want, after);
    if (is_met(balance, want, before) || from == to) {
      continue;
    }
    std::vector<double> without = after;
    without[line] = before[line];
    const double helped = (to - figure_of(balance, want, without)) / (to - from);
    if (helped > most) {
      most = helped;
      best = &want;
    }
  }
  if (best != nullptr && most > 0.02) {
    return percent_text(*best, figure_of(balance, *best, before), figure_of(balance, *best, after));
  }
  const BalanceLine& one = balance.lines[line];
  if (one.forms.salt > 0.5) {
    return "keeps the salt at its share of the flour";
  }
  if (one.forms.yeast > 0.05) {
    return "keeps the yeast at its share of the flour";
  }
  if (one.forms.fat > 0.5) {
    return "keeps the fat at its share of the flour";
  }
  if (one.forms.sugar > 0.5) {
    return "keeps the sugar at its share of the flour";
  }
  return "keeps the dough's feel as it was";
}

}  // namespace maslin
