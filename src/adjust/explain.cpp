#include "adjust/explain.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

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

struct FigureName {
  WantKind kind;
  std::string_view name;
  std::string_view unit;
};
constexpr std::array<FigureName, 11> k_figures{{
    {WantKind::feel, "feel", ""},
    {WantKind::effective_hydration, "water the dough feels", " % of the flour"},
    {WantKind::water_pct_flour, "water", " % of the flour"},
    {WantKind::sugar_pct_flour, "sugar", " % of the flour"},
    {WantKind::fat_pct_flour, "fat", " % of the flour"},
    {WantKind::salt_pct_flour, "salt", " % of the flour"},
    {WantKind::egg_pct_flour, "egg", " % of the flour"},
    {WantKind::yeast_pct_flour, "yeast", " % of the flour"},
    {WantKind::total_grams, "dough", " g"},
    {WantKind::fill, "dough", " g"},
    {WantKind::cost, "cost", ""},
}};

FigureName figure_name(const Want& want) {
  for (const FigureName& one : k_figures) {
    if (one.kind == want.kind) {
      return one;
    }
  }
  return {want.kind, want.text, ""};
}

std::string value_text(const Want& want, double value) {
  const bool mass = want.kind == WantKind::total_grams || want.kind == WantKind::fill;
  return want.kind == WantKind::feel ? std::string(feel_name(feel_at(value)))
                                     : number_text(value, mass           ? 0
                                                          : value < 10.0 ? 2
                                                                         : 1);
}

/// "sugar from 24 to 20 % of the flour"
std::string moved_text(const Want& want, double from, double to) {
  const FigureName figure = figure_name(want);
  if (want.kind == WantKind::feel && feel_at(from) == feel_at(to)) {
    return "feel a little " + std::string(to > from ? "softer" : "stiffer") + ", still " +
           value_text(want, to);
  }
  return std::string(figure.name) + " from " + value_text(want, from) + " to " +
         value_text(want, to) + std::string(figure.unit);
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
      const FigureName figure = figure_name(want);
      conflict.nearest = "with the others the " + std::string(figure.name) + " can be " +
                         value_text(want, reached) + std::string(figure.unit) + ", no nearer";
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
        // Less than a division of the scale is no change.
        out[i] = std::fabs(out[i] - line.grams) < step ? line.grams : out[i];
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
    return "brings the " +
           moved_text(*best, figure_of(balance, *best, before), figure_of(balance, *best, after));
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

std::string alone_of(const Balance& balance, const std::vector<Want>& wants,
                     const std::vector<double>& before, const std::vector<double>& after,
                     std::size_t line) {
  std::vector<double> only = before;
  only[line] = after[line];
  std::vector<Want> figures = wants;
  figures.push_back({});  // the feel, whether it is wanted or not
  std::string out;
  std::vector<WantKind> told;
  for (const Want& want : figures) {
    const double from = figure_of(balance, want, before);
    const double to = figure_of(balance, want, only);
    if (std::find(told.begin(), told.end(), want.kind) != told.end() ||
        value_text(want, from) == value_text(want, to)) {
      continue;
    }
    told.push_back(want.kind);
    out += (out.empty() ? "" : ", ") + moved_text(want, from, to);
  }
  return out;
}

}  // namespace maslin
