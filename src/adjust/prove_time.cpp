#include "adjust/prove_time.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>

#include "adjust/amounts.h"
#include "forecast/forecast.h"
#include "quantity/number_text.h"

namespace maslin {
namespace {

// How much yeast a baker changes before the place, and what a kitchen's places offer from a
// cool larder to an oven with its light on; common practice, no source.
constexpr double k_little_yeast = 2.0;
constexpr double k_least_yeast = 0.1;
constexpr double k_most_yeast = 4.0;
constexpr double k_coolest_c = 8.0;
constexpr double k_warmest_c = 34.0;
constexpr double k_near_enough = 0.05;

/// Median minutes of all proves of the recipe in this kitchen, and what the first stands at;
/// nothing when unknown.
struct ProveTime {
  double minutes = 0.0;
  double celsius = 0.0;
};
std::optional<ProveTime> prove_time_of(const Recipe& recipe, const Pantry& pantry,
                                       const Kitchen& kitchen) {
  const ForecastSetup setup =
      set_up_forecast(recipe, kitchen, pantry, {1, 16, ForecastReach::rise});
  if (!setup.problem.empty()) {
    return std::nullopt;
  }
  const ForecastRun run = run_forecast(setup);
  ProveTime out;
  constexpr int k_most_proves = 12;
  for (int i = 0; i < k_most_proves; ++i) {
    const std::string name = "prove/" + std::to_string(i);
    if (run.ensemble.column(name + "/minutes") == nullptr) {
      break;
    }
    out.minutes += run.ensemble.band(name + "/minutes").p50;
    if (i == 0 && run.ensemble.column(name + "/celsius") != nullptr) {
      out.celsius = run.ensemble.band(name + "/celsius").p50;
    }
  }
  return out.minutes > 0.0 ? std::optional(out) : std::nullopt;
}

struct Place {
  std::size_t part = 0;
  std::size_t line = 0;
};
std::optional<Place> yeast_in(const Recipe& recipe, const Pantry& pantry) {
  for (std::size_t p = 0; p < recipe.parts.size(); ++p) {
    for (std::size_t l = 0; l < recipe.parts[p].lines.size(); ++l) {
      const Line& line = recipe.parts[p].lines[l];
      const Ingredient* ingredient = pantry.find(line.ingredient_id);
      if (ingredient != nullptr && ingredient->yeast.activity > 0.0 && line.weighed &&
          ingredient->yeast.kind != YeastKind::starter) {
        return Place{p, l};
      }
    }
  }
  return std::nullopt;
}

/// What is turned: the yeast, so many times as much, and the place, where it is stated.
struct Setting {
  double yeast = 1.0;
  std::optional<double> celsius;
};

Recipe set_to(const Recipe& recipe, Place yeast, const Setting& setting) {
  Recipe out = recipe;
  Line& line = out.parts[yeast.part].lines[yeast.line];
  if (setting.yeast != 1.0) {
    const double from = line.grams.p50();
    set_grams(line, from, from * setting.yeast, 0.0);
  }
  for (Part& part : out.parts) {
    for (Step& step : part.steps) {
      if (step.kind == StepKind::prove && setting.celsius) {
        step.celsius = Range{*setting.celsius, *setting.celsius};
      }
    }
  }
  return out;
}

/// Where `minutes` falls to `aim` between two ends of a dial, by halving in `steps`.
double turned(const std::function<double(double)>& minutes, double slow, double fast, double aim) {
  for (int step = 0; step < 9; ++step) {
    const double middle = std::sqrt(slow * fast);
    (minutes(middle) > aim ? slow : fast) = middle;
  }
  return std::sqrt(slow * fast);
}

void say_yeast(Adjustment& out, Place yeast, const Recipe& before, double factor,
               const std::string& what) {
  const Part& part = before.parts[yeast.part];
  const double from = part.lines[yeast.line].grams.p50();
  out.changes.push_back({part.lines[yeast.line].text, part.name, from, from * factor,
                         "brings the proves " + what, "", yeast.part, yeast.line});
}

}  // namespace

void meet_prove_time(Adjustment& out, const Pantry& pantry, const AdjustRequest& request,
                     const Want& want) {
  const auto miss = [&](const std::string& why) {
    out.met = false;
    out.conflict.push_back({want.text, why});
  };
  const std::optional<Place> yeast = yeast_in(out.recipe, pantry);
  if (!yeast) {
    miss("the recipe has no weighed yeast to change");
    return;
  }
  const Recipe original = out.recipe;
  const std::optional<ProveTime> now = prove_time_of(original, pantry, request.kitchen);
  if (!now) {
    miss("the recipe states no prove to time");
    return;
  }
  const double low = want.times >= 1.0 ? want.times * now->minutes : want.low;
  const double high = want.times <= 0.0  ? want.high
                      : want.times < 1.0 ? want.times * now->minutes
                                         : k_want_no_limit;
  if (now->minutes >= low && now->minutes <= high) {
    return;
  }
  const bool faster = now->minutes > high;
  const double aim = faster ? high : low;
  const auto minutes_at = [&](const Setting& setting) {
    const auto time = prove_time_of(set_to(original, *yeast, setting), pantry, request.kitchen);
    return time ? time->minutes : 0.0;
  };
  const auto reaches = [&](const Setting& setting) {
    const double minutes = minutes_at(setting);
    return faster ? minutes <= aim : minutes >= aim;
  };
  const auto with_yeast = [&](std::optional<double> celsius) {
    return [&, celsius](double factor) { return minutes_at({factor, celsius}); };
  };
  Setting setting{faster ? k_little_yeast : 1.0 / k_little_yeast, std::nullopt};
  if (reaches(setting)) {
    setting.yeast = turned(with_yeast(std::nullopt), std::min(1.0, setting.yeast),
                           std::max(1.0, setting.yeast), aim);
  } else {
    setting.celsius = faster ? k_warmest_c : k_coolest_c;
    if (reaches(setting)) {
      const double from_c = std::clamp(now->celsius, k_coolest_c, k_warmest_c);
      const double factor = setting.yeast;
      setting.celsius = turned([&](double celsius) { return minutes_at({factor, celsius}); },
                               faster ? from_c : k_coolest_c, faster ? k_warmest_c : from_c, aim);
    } else {
      setting.yeast = turned(with_yeast(setting.celsius), k_least_yeast, k_most_yeast, aim);
    }
  }
  const double reached = minutes_at(setting);
  if (std::fabs(reached - aim) > k_near_enough * aim) {
    miss("with the yeast and the warmth of the place the proves can take " +
         number_text(reached, 0) + " minutes");
    return;
  }
  out.recipe = set_to(original, *yeast, setting);
  const std::string what = "from " + number_text(now->minutes, 0) + " to " +
                           number_text(reached, 0) + " minutes in this kitchen";
  say_yeast(out, *yeast, original, setting.yeast, what);
  if (setting.celsius) {
    // Half a degree apart is told in tenths.
    const int decimals = std::fabs(*setting.celsius - now->celsius) < 1.0 ? 1 : 0;
    out.notes.push_back("the proves stand at " + number_text(*setting.celsius, decimals) +
                        " C, not " + number_text(now->celsius, decimals) + " C, to come to " +
                        number_text(reached, 0) + " minutes");
  }
}

}  // namespace maslin
