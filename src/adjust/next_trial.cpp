#include "adjust/next_trial.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "adjust/setting.h"
#include "numerics/draws.h"
#include "numerics/gaussian_process.h"
#include "numerics/normal.h"
#include "quantity/number_text.h"

namespace maslin {
namespace {

constexpr std::string_view k_oven = "oven_celsius";

struct FigureRow {
  std::string_view name;
  std::string_view words;
  WantKind kind;
  double division;  // smaller changes are none
};
/// What a baker turns; the oven is last and is no figure of the dough.
constexpr std::array<FigureRow, 7> k_figures{
    {{"water_pct_flour", "water, % of the flour", WantKind::water_pct_flour, 0.4},
     {"sugar_pct_flour", "sugar, % of the flour", WantKind::sugar_pct_flour, 0.3},
     {"fat_pct_flour", "fat, % of the flour", WantKind::fat_pct_flour, 0.3},
     {"salt_pct_flour", "salt, % of the flour", WantKind::salt_pct_flour, 0.05},
     {"egg_pct_flour", "egg, % of the flour", WantKind::egg_pct_flour, 0.5},
     {"yeast_pct_flour", "yeast, % of the flour", WantKind::yeast_pct_flour, 0.05},
     {k_oven, "oven, °C", WantKind::scale, 2.0}}};

double oven_celsius(const Recipe& recipe) {
  for (const Part& part : recipe.parts) {
    for (const Step& step : part.steps) {
      if (step.kind == StepKind::bake && step.celsius) {
        return step.celsius->middle();
      }
    }
  }
  return 0.0;
}

void move_oven(Recipe& recipe, double by) {
  for (Part& part : recipe.parts) {
    for (Step& step : part.steps) {
      if (step.kind == StepKind::bake && step.celsius) {
        step.celsius = Range{step.celsius->low + by, step.celsius->high + by};
      }
    }
  }
}

/// The figures of a recipe, in the order of k_figures; empty when its dough has no flour.
std::vector<double> figures_of(const Recipe& recipe, const Pantry& pantry, const Kitchen& kitchen) {
  AdjustRequest request;
  request.kitchen = kitchen;
  const auto setting = setting_of(recipe, pantry, request, 1.0);
  if (!setting->problem.empty()) {
    return {};
  }
  std::vector<double> grams;
  for (const BalanceLine& line : setting->balance.lines) {
    grams.push_back(line.grams_before);
  }
  std::vector<double> out;
  for (const FigureRow& row : k_figures) {
    Want want;
    want.kind = row.kind;
    out.push_back(row.name == k_oven ? oven_celsius(recipe)
                                     : figure_of(setting->balance, want, grams));
  }
  return out;
}

/// One dimension of the search.
struct Turned {
  std::size_t figure = 0;
  double low = 0.0;
  double high = 0.0;
};

std::vector<Turned> turned_figures(const std::vector<std::vector<double>>& figures,
                                   const NextTrialRequest& request) {
  std::vector<Turned> out;
  for (std::size_t f = 0; f < k_figures.size(); ++f) {
    double low = figures.front()[f];
    double high = low;
    for (const std::vector<double>& one : figures) {
      low = std::min(low, one[f]);
      high = std::max(high, one[f]);
    }
    if (high - low < k_figures[f].division) {
      continue;
    }
    const double further = std::max(0.5 * (high - low), (high + low) / 14.0);
    const bool oven = k_figures[f].name == k_oven;
    Turned turned{f, std::max(low - (oven ? 0.5 * (high - low) : further), 0.0),
                  high + (oven ? 0.5 * (high - low) : further)};
    for (const AmountLimit& limit : request.limits) {
      if (limit.figure == k_figures[f].name) {
        turned.low = limit.low;
        turned.high = limit.high;
      }
    }
    out.push_back(turned);
  }
  return out;
}

std::vector<double> taken(const std::vector<double>& figures, const std::vector<Turned>& turned) {
  std::vector<double> out;
  for (const Turned& one : turned) {
    out.push_back(figures[one.figure]);
  }
  return out;
}

/// The point of the box where most improvement is to be expected over `best`.
std::vector<double> most_promising(const GaussianProcess& process,
                                   const std::vector<Turned>& turned, double best) {
  constexpr std::uint32_t k_points = 2048;
  std::vector<double> out;
  double most = -1.0;
  for (std::uint32_t i = 0; i < k_points; ++i) {
    std::vector<double> point;
    for (const Turned& one : turned) {
      const double share = draw(name_key(k_figures[one.figure].name), 1, i);
      point.push_back(one.low + share * (one.high - one.low));
    }
    const double gain = expected_improvement(value_at(process, point), best);
    if (gain > most) {
      most = gain;
      out = std::move(point);
    }
  }
  return out;
}

std::string of_nine(double score) {
  return number_text(9.0 * score, 1) + " of 9";
}

std::string reason_of(const NextTrial& next) {
  const std::string range =
      of_nine(next.score) + " (give or take " + number_text(9.0 * next.score_sd, 1) + ")";
  const std::string chance = number_text(100.0 * next.chance_better, 0) + " %";
  if (next.why == NextWhy::better) {
    return "To do better: " + range + " is expected here, where the best so far stands at " +
           of_nine(next.best_score) + "; the chance that it is better is " + chance + ".";
  }
  return "To learn: nothing like it was baked yet. " + range + " is expected, against " +
         of_nine(next.best_score) + " of the best so far; the chance that it is better is " +
         chance + ".";
}

void make_change(const NextTrialRequest& request, const Pantry& pantry, NextTrial& out) {
  Recipe recipe = request.bakes[out.best_bake].recipe;
  AdjustRequest adjust;
  adjust.kitchen = request.kitchen;
  for (const ChangedAmount& change : out.changes) {
    if (change.figure == k_oven) {
      move_oven(recipe, std::round((change.to - change.from) / 5.0) * 5.0);
      continue;
    }
    ParsedWant parsed = parse_want(change.figure + "=" + number_text(change.to, 2));
    if (parsed.want) {
      adjust.wants.push_back(std::move(*parsed.want));
    }
  }
  if (adjust.wants.empty()) {
    out.adjustment.met = true;
    out.adjustment.recipe = std::move(recipe);
    return;
  }
  out.adjustment = adjust_recipe(recipe, pantry, adjust);
}

}  // namespace

ParsedLimit parse_limit(std::string_view text) {
  const std::size_t equals = text.find('=');
  const std::size_t dots = text.find("..");
  ParsedLimit out;
  std::string names;
  for (const FigureRow& row : k_figures) {
    names += (names.empty() ? "" : ", ") + std::string(row.name);
    if (equals == std::string_view::npos || dots == std::string_view::npos || dots < equals ||
        text.substr(0, equals) != row.name) {
      continue;
    }
    const auto low = number_from(std::string(text.substr(equals + 1, dots - equals - 1)));
    const auto high = number_from(std::string(text.substr(dots + 2)));
    if (low && high && *low >= 0.0 && *low < *high) {
      out.limit = AmountLimit{std::string(row.name), *low, *high};
      return out;
    }
  }
  out.problem = "\"" + std::string(text.substr(0, 60)) +
                "\" is no limit; write it like sugar_pct_flour=10..20, of one of " + names + ".";
  return out;
}

NextTrial next_trial(const NextTrialRequest& request, const Pantry& pantry) {
  constexpr std::size_t k_fewest = 3;
  // Of a score from 0 to 1: what recipes of one dough differ by, and what one baker's score of
  // the same bun differs by (common practice, no source).
  const GaussianKernel kernel{{}, 0.2, 0.08};
  NextTrial out;
  if (request.bakes.size() < k_fewest) {
    out.problem = "Three bakes with a score are needed before a change can be proposed; " +
                  std::to_string(request.bakes.size()) + " so far. Write one like 'crumb 7/9'.";
    return out;
  }
  std::vector<std::vector<double>> figures;
  std::vector<double> scores;
  for (const ScoredBake& bake : request.bakes) {
    figures.push_back(figures_of(bake.recipe, pantry, request.kitchen));
    scores.push_back(bake.score);
    if (figures.back().empty()) {
      out.problem = "A bake's dough has no flour that is known, so its amounts cannot be compared.";
      return out;
    }
  }
  const std::vector<Turned> turned = turned_figures(figures, request);
  if (turned.empty()) {
    out.problem =
        "The bakes that were scored differ in no amount of the dough and not in the oven; change "
        "one thing, bake and score it.";
    return out;
  }
  std::vector<std::vector<double>> points;
  std::vector<double> spans;
  for (const std::vector<double>& one : figures) {
    points.push_back(taken(one, turned));
  }
  for (const Turned& one : turned) {
    spans.push_back(0.5 * (one.high - one.low));
  }
  const GaussianProcess process = fitted_process(points, scores, spans, kernel);
  out.best_score = -1.0;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const double here = value_at(process, points[i]).mean;
    if (here > out.best_score) {
      out.best_score = here;
      out.best_bake = i;
    }
  }
  const std::vector<double> to = most_promising(process, turned, out.best_score);
  const ProcessValue value = value_at(process, to);
  out.score = std::clamp(value.mean, 0.0, 1.0);
  out.score_sd = value.sd;
  out.chance_better =
      value.sd > 0.0 ? standard_normal_share((value.mean - out.best_score) / value.sd) : 0.0;
  out.why = value.mean > out.best_score ? NextWhy::better : NextWhy::learn;
  for (std::size_t i = 0; i < turned.size(); ++i) {
    const FigureRow& row = k_figures[turned[i].figure];
    out.changes.push_back({std::string(row.name), std::string(row.words), points[out.best_bake][i],
                           to[i], turned[i].low, turned[i].high});
  }
  out.reason = reason_of(out);
  make_change(request, pantry, out);
  return out;
}

}  // namespace maslin
