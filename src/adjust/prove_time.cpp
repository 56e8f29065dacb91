#include "adjust/prove_time.h"

#include <algorithm>
#include <cmath>

#include "forecast/rise_change.h"
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

/// The first prove's temperature as the recipe stands, the middle of the draws.
double celsius_now(const Recipe& recipe, const Kitchen& kitchen, const Pantry& pantry) {
  const RiseDraws now =
      rise_with(recipe, kitchen, pantry, {1, 16, ForecastReach::rise}, RiseChange{});
  const Column* celsius = now.ensemble.column("prove/0/celsius");
  return celsius != nullptr ? now.ensemble.band(*celsius).p50 : k_warmest_c;
}

/// The recipe with that change, the place of its proves stated.
Recipe set_to(const Recipe& recipe, const Pantry& pantry, const RiseChange& change) {
  Recipe out = recipe_with(recipe, pantry, change);
  for (Part& part : out.parts) {
    for (Step& step : part.steps) {
      if (step.kind == StepKind::prove && change.prove_celsius) {
        step.celsius = Range{*change.prove_celsius, *change.prove_celsius};
      }
    }
  }
  return out;
}

/// Each line of yeast that was changed.
void say_yeast(Adjustment& out, const Recipe& before, const std::string& what) {
  for (std::size_t p = 0; p < before.parts.size(); ++p) {
    for (std::size_t l = 0; l < before.parts[p].lines.size(); ++l) {
      const Line& line = before.parts[p].lines[l];
      const double from = line.grams.p50();
      const double to = out.recipe.parts[p].lines[l].grams.p50();
      if (line.weighed && from != to) {
        out.changes.push_back(
            {line.text, before.parts[p].name, from, to, "brings the proves " + what, "", p, l});
      }
    }
  }
}

}  // namespace

void meet_prove_time(Adjustment& out, const Pantry& pantry, const AdjustRequest& request,
                     const Want& want) {
  const auto miss = [&](const std::string& why) {
    out.met = false;
    out.conflict.push_back({want.text, why});
  };
  const Recipe original = out.recipe;
  const auto minutes_at = [&](const RiseChange& change) {
    return middle_rise_minutes(original, request.kitchen, pantry, change);
  };
  const double now = minutes_at({});
  if (now < 0.0) {
    miss("the recipe states no prove to time");
    return;
  }
  if (!has_yeast_to_change(original, pantry)) {
    miss("the recipe has no weighed yeast to change");
    return;
  }
  const double low = want.times >= 1.0 ? want.times * now : want.low;
  const double high = want.times <= 0.0  ? want.high
                      : want.times < 1.0 ? want.times * now
                                         : k_want_no_limit;
  if (now >= low && now <= high) {
    return;
  }
  const bool faster = now > high;
  const double aim = faster ? high : low;
  RiseChange setting;
  const auto reaches = [&] {
    const double minutes = minutes_at(setting);
    return faster ? minutes <= aim : minutes >= aim;
  };
  const auto yeast_between = [&](double least, double most) {
    setting.yeast_factor = halved_between(least, most, aim, [&](double factor) {
                             RiseChange change = setting;
                             change.yeast_factor = factor;
                             return minutes_at(change);
                           }).value;
  };
  setting.yeast_factor = faster ? k_little_yeast : 1.0 / k_little_yeast;
  if (reaches()) {
    yeast_between(std::min(1.0, setting.yeast_factor), std::max(1.0, setting.yeast_factor));
  } else {
    const double from_c =
        std::clamp(celsius_now(original, request.kitchen, pantry), k_coolest_c, k_warmest_c);
    setting.prove_celsius = faster ? k_warmest_c : k_coolest_c;
    if (reaches()) {
      setting.prove_celsius =
          halved_between(faster ? from_c : k_coolest_c, faster ? k_warmest_c : from_c, aim,
                         [&](double celsius) {
                           RiseChange change = setting;
                           change.prove_celsius = celsius;
                           return minutes_at(change);
                         })
              .value;
    } else {
      yeast_between(k_least_yeast, k_most_yeast);
    }
  }
  const double reached = minutes_at(setting);
  if (std::fabs(reached - aim) > k_near_enough * aim) {
    miss("with the yeast and the warmth of the place the proves can take " +
         number_text(reached, 0) + " minutes");
    return;
  }
  out.recipe = set_to(original, pantry, setting);
  const std::string what =
      "from " + number_text(now, 0) + " to " + number_text(reached, 0) + " minutes in this kitchen";
  say_yeast(out, original, what);
  if (setting.prove_celsius) {
    const double from_c = celsius_now(original, request.kitchen, pantry);
    // Half a degree apart is told in tenths.
    const int decimals = std::fabs(*setting.prove_celsius - from_c) < 1.0 ? 1 : 0;
    out.notes.push_back("the proves stand at " + number_text(*setting.prove_celsius, decimals) +
                        " C, not " + number_text(from_c, decimals) + " C, to come to " +
                        number_text(reached, 0) + " minutes");
  }
}

}  // namespace maslin
