#include "adjust/amounts.h"

#include <cmath>
#include <optional>

#include "forecast/forecast.h"
#include "quantity/number_text.h"

namespace maslin {
namespace {

/// Median minutes of all proves of the recipe in this kitchen; nothing when unknown.
std::optional<double> prove_minutes_of(const Recipe& recipe, const Pantry& pantry,
                                       const Kitchen& kitchen) {
  const ForecastSetup setup = set_up_forecast(recipe, kitchen, pantry, {1, 16});
  if (!setup.problem.empty()) {
    return std::nullopt;
  }
  const ForecastRun run = run_forecast(setup);
  double minutes = 0.0;
  bool any = false;
  for (int i = 0; i < 12; ++i) {
    const std::string name = "prove/" + std::to_string(i) + "/minutes";
    if (run.ensemble.column(name) == nullptr) {
      break;
    }
    minutes += run.ensemble.band(name).p50;
    any = true;
  }
  return any ? std::optional(minutes) : std::nullopt;
}

}  // namespace

void set_grams(Line& line, double from, double to, double unit_grams) {
  if (from > 0.0) {
    line.grams = line.grams.scaled(to / from);
  } else {
    line.grams = point(to);
  }
  if (unit_grams > 0.0 && line.found.number) {
    const double count = std::round(to / unit_grams);
    line.found.number = Range{count, count};
  } else {
    line.found = {Range{to, to}, "g", "", ""};
  }
  line.weighed = true;
}

void scale_line(Line& line, double factor) {
  line.grams = line.grams.scaled(factor);
  if (line.found.number) {
    line.found.number->low *= factor;
    line.found.number->high *= factor;
  }
}

void meet_prove_time(Adjustment& out, const Pantry& pantry, const AdjustRequest& request,
                     const Want& want) {
  Line* yeast = nullptr;
  for (Part& part : out.recipe.parts) {
    for (Line& line : part.lines) {
      const Ingredient* ingredient = pantry.find(line.ingredient_id);
      if (ingredient != nullptr && ingredient->yeast.activity > 0.0 && line.weighed &&
          ingredient->yeast.kind != YeastKind::starter && yeast == nullptr) {
        yeast = &line;
      }
    }
  }
  const auto miss = [&](const std::string& why) {
    out.met = false;
    out.conflict.push_back({want.text, why});
  };
  if (yeast == nullptr) {
    miss("the recipe has no weighed yeast to change");
    return;
  }
  const Line original = *yeast;
  const double from = original.grams.p50();
  const auto minutes_with = [&](double factor) {
    *yeast = original;
    set_grams(*yeast, from, from * factor, 0.0);
    return prove_minutes_of(out.recipe, pantry, request.kitchen).value_or(-1.0);
  };
  const double now = minutes_with(1.0);
  *yeast = original;
  if (now < 0.0 || (now >= want.low && now <= want.high)) {
    if (now < 0.0) {
      miss("the recipe states no prove to time");
    }
    return;
  }
  const double aim = now > want.high ? want.high : want.low;
  double low = 0.1;   // slower
  double high = 4.0;  // faster
  for (int step = 0; step < 9; ++step) {
    const double middle = std::sqrt(low * high);
    (minutes_with(middle) > aim ? low : high) = middle;
  }
  const double factor = now > want.high ? high : low;
  const double reached = minutes_with(factor);
  if (std::fabs(reached - aim) > 0.05 * aim) {
    *yeast = original;
    miss("by yeast alone the proves can take " + number_text(reached, 0) + " minutes");
    return;
  }
  out.changes.push_back({original.text, "", from, from * factor,
                         "brings the proves from " + number_text(now, 0) + " to " +
                             number_text(reached, 0) + " minutes in this kitchen"});
}

}  // namespace maslin
