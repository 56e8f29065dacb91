#include "forecast/rise_change.h"

#include <cmath>
#include <limits>

namespace maslin {
namespace {

constexpr std::uint32_t k_searching_draws = 32;
constexpr int k_halvings = 9;
/// Common practice, no source: from the shop to the bowl in a week.
constexpr double k_bought_new_months = 0.25;

bool is_yeast(const Ingredient& ingredient) {
  return ingredient.yeast.activity > 0.0 && ingredient.yeast.kind != YeastKind::starter;
}

bool is_sweet(const Ingredient& ingredient) {
  return ingredient.kind == IngredientKind::sugar || ingredient.kind == IngredientKind::syrup;
}

void change_yeast(Line& line, const Ingredient& is, const Pantry& pantry,
                  const RiseChange& change) {
  double factor = change.yeast_factor;
  const Ingredient* other = change.yeast_id.empty() ? nullptr : pantry.find(change.yeast_id);
  if (other != nullptr && other->yeast.activity > 0.0) {
    factor *= is.yeast.activity / other->yeast.activity;
    line.ingredient_id = other->id;
    line.name = other->name;
    line.found = {Range{line.grams.p50() * factor, line.grams.p50() * factor}, "g", "", ""};
  } else if (line.found.number) {
    line.found.number->low *= factor;
    line.found.number->high *= factor;
  }
  line.grams = line.grams.scaled(factor);
}

double grams_of_yeast(const Recipe& recipe, const Pantry& pantry) {
  double out = 0.0;
  for (const Part& part : recipe.parts) {
    for (const Line& line : part.lines) {
      const Ingredient* one = pantry.find(line.ingredient_id);
      out += one != nullptr && is_yeast(*one) && line.weighed ? line.grams.p50() : 0.0;
    }
  }
  return out;
}

}  // namespace

Recipe recipe_with(const Recipe& recipe, const Pantry& pantry, const RiseChange& change) {
  Recipe out = recipe;
  const Part* dough = recipe.dough();
  for (std::size_t p = 0; p < out.parts.size(); ++p) {
    for (Line& line : out.parts[p].lines) {
      const Ingredient* one = pantry.find(line.ingredient_id);
      if (one == nullptr || !line.weighed) {
        continue;
      }
      if (is_yeast(*one)) {
        change_yeast(line, *one, pantry, change);
      } else if (is_sweet(*one) && dough == &recipe.parts[p]) {
        line.grams = line.grams.scaled(change.sugar_factor);
      }
    }
  }
  return out;
}

RiseDraws rise_with(const Recipe& recipe, const Kitchen& kitchen, const Pantry& pantry,
                    ForecastOptions options, const RiseChange& change) {
  const Recipe changed = recipe_with(recipe, pantry, change);
  Kitchen there = kitchen;
  if (change.room_celsius) {
    // Another room, the same all day.
    there.room_celsius = change.room_celsius;
    there.room_night_celsius.reset();
    there.room_by_hour.clear();
  }
  if (!change.yeast_id.empty()) {
    there.yeast_kind.clear();  // of whatever kind it is
    there.yeast_age_months = k_bought_new_months;
  }
  options.reach = ForecastReach::rise;
  ForecastSetup setup = set_up_forecast(changed, there, pantry, options);
  RiseDraws out;
  out.problem = setup.problem;
  if (!out.problem.empty()) {
    return out;
  }
  for (PlannedProve& prove : setup.schedule.proves) {
    if (change.prove_celsius && prove.rises()) {
      prove.place = ProvePlace::stated;
      prove.stated_celsius = *change.prove_celsius;
    }
  }
  if (change.in_cold && change.in_cold->prove < setup.schedule.proves.size()) {
    PlannedProve& cold = setup.schedule.proves[change.in_cold->prove];
    cold.place = ProvePlace::cold;
    cold.for_minutes = change.in_cold->minutes;
  }
  out.ensemble = run_forecast(setup).ensemble;
  out.schedule = setup.schedule;
  out.yeast_grams = grams_of_yeast(changed, pantry);
  return out;
}

std::vector<double> rise_minutes(const Ensemble& ensemble) {
  std::vector<double> out;
  for (std::size_t i = 0;; ++i) {
    const std::string key = "prove/" + std::to_string(i);
    const Column* minutes = ensemble.column(key + "/minutes");
    const Column* reached = ensemble.column(key + "/reached");
    if (minutes == nullptr || reached == nullptr) {
      return out;
    }
    if (ensemble.column(key + "/frost") != nullptr) {
      continue;  // in the freezer, or thawing: no rise
    }
    out.resize(minutes->values.size(), 0.0);
    for (std::size_t draw = 0; draw < out.size(); ++draw) {
      out[draw] += reached->values[draw] > 0.5 ? minutes->values[draw]
                                               : std::numeric_limits<double>::infinity();
    }
  }
}

double middle_rise_minutes(const Recipe& recipe, const Kitchen& kitchen, const Pantry& pantry,
                           const RiseChange& change) {
  const RiseDraws draws =
      rise_with(recipe, kitchen, pantry, {1, k_searching_draws, ForecastReach::rise}, change);
  const std::vector<double> minutes = rise_minutes(draws.ensemble);
  return minutes.empty() ? -1.0 : quantile_of(minutes, draws.ensemble.weight, 0.5);
}

bool has_yeast_to_change(const Recipe& recipe, const Pantry& pantry) {
  return grams_of_yeast(recipe, pantry) > 0.0;
}

RiseAnswer halved_between(double low, double high, double wanted,
                          const std::function<double(double)>& minutes_at) {
  for (int i = 0; i < k_halvings; ++i) {
    const double middle = std::sqrt(low * high);
    (minutes_at(middle) > wanted ? low : high) = middle;
  }
  const double value = std::sqrt(low * high);
  return {value, minutes_at(value)};
}

std::optional<RiseAnswer> yeast_factor_for(const Recipe& recipe, const Kitchen& kitchen,
                                           const Pantry& pantry, double minutes,
                                           const RiseChange& beside) {
  if (grams_of_yeast(recipe, pantry) <= 0.0) {
    return std::nullopt;
  }
  return halved_between(0.1, 4.0, minutes, [&](double factor) {
    RiseChange change = beside;
    change.yeast_factor = factor;
    return middle_rise_minutes(recipe, kitchen, pantry, change);
  });
}

std::optional<RiseAnswer> yeast_factor_in_cold(const Recipe& recipe, const Kitchen& kitchen,
                                               const Pantry& pantry, RiseChange change) {
  const std::string key =
      "prove/" + std::to_string(change.in_cold ? change.in_cold->prove : 0) + "/ratio_at_end";
  double target = 2.0;
  // Falls with the factor's inverse, as minutes do with the factor.
  const auto smallness_at = [&](double factor) {
    change.yeast_factor = factor;
    const RiseDraws draws =
        rise_with(recipe, kitchen, pantry, {1, k_searching_draws, ForecastReach::rise}, change);
    const Column* ratio = draws.ensemble.column(key);
    if (ratio == nullptr) {
      return -1.0;
    }
    target = draws.schedule.proves[change.in_cold->prove].volume_ratio;
    return 1.0 / draws.ensemble.band(*ratio).p50;
  };
  const double whole = smallness_at(1.0);
  if (!change.in_cold || whole < 0.0 || grams_of_yeast(recipe, pantry) <= 0.0) {
    return std::nullopt;
  }
  if (1.0 / whole <= 1.15 * target) {
    return RiseAnswer{1.0, 1.0 / whole};
  }
  RiseAnswer out = halved_between(0.1, 1.0, 1.0 / target, smallness_at);
  out.reached = 1.0 / out.reached;
  return out;
}

std::optional<RiseAnswer> prove_celsius_for(const Recipe& recipe, const Kitchen& kitchen,
                                            const Pantry& pantry, double minutes) {
  if (middle_rise_minutes(recipe, kitchen, pantry, {}) < 0.0) {
    return std::nullopt;
  }
  return halved_between(10.0, 38.0, minutes, [&](double celsius) {
    RiseChange change;
    change.prove_celsius = celsius;
    return middle_rise_minutes(recipe, kitchen, pantry, change);
  });
}

}  // namespace maslin
