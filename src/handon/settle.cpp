#include "handon/settle.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "forecast/forecast.h"
#include "handon/carried_lines.h"
#include "quantity/number_text.h"

namespace maslin::handon {
namespace {

double lane_mean(const Lanes& lanes) {
  double sum = 0.0;
  for (std::size_t i = 0; i < k_lane_count; ++i) {
    sum += lanes[i];
  }
  return sum / static_cast<double>(k_lane_count);
}

Part* dough_part(Recipe& recipe) {
  const Part* dough = std::as_const(recipe).dough();
  for (Part& part : recipe.parts) {
    if (&part == dough) {
      return &part;
    }
  }
  return nullptr;
}

void set_amount(Line& line, double grams) {
  const double was = line.grams.p50();
  line.grams = was > 0.0 ? line.grams.scaled(grams / was) : point(grams);
  line.found = {Range{grams, grams}, "g", "", ""};
}

std::string name_of(const Settling& settling, const Ingredient& one) {
  return settling.words.ingredient(one, settling.pantry, "");
}

bool is_yeast(const Ingredient* one) {
  return one != nullptr && one->yeast.activity > 0.0 && one->yeast.kind != YeastKind::starter;
}

std::vector<Line*> yeast_lines(const Pantry& pantry, Recipe& recipe) {
  std::vector<Line*> out;
  for (Part& part : recipe.parts) {
    for (Line& line : part.lines) {
      if (line.weighed && is_yeast(pantry.find(line.ingredient_id))) {
        out.push_back(&line);
      }
    }
  }
  return out;
}

bool is_liquid(const Ingredient& one) {
  return one.kind == IngredientKind::water || one.kind == IngredientKind::dairy ||
         one.kind == IngredientKind::plant_milk || one.kind == IngredientKind::juice ||
         one.kind == IngredientKind::drink;
}

/// Bake steps with a setting in degrees; none when the recipe only says "bake".
std::vector<Step*> heated_steps(Recipe& recipe) {
  std::vector<Step*> out;
  for (Part& part : recipe.parts) {
    for (Step& step : part.steps) {
      if (step.kind == StepKind::bake && step.celsius) {
        out.push_back(&step);
      }
    }
  }
  return out;
}

double same_crust_cost(const Figures& home, const Figures& there, double by_k) {
  const double not_done = std::max(0.0, 0.95 - there.share_done);
  return 400.0 * not_done + std::fabs(there.lightness - home.lightness) + 0.04 * std::fabs(by_k);
}

}  // namespace

double rising_minutes(const Figures& of, const Figures& home) {
  double sum = 0.0;
  for (std::size_t i = 0; i < std::min(of.prove_minutes.size(), home.prove_cold.size()); ++i) {
    sum += home.prove_cold[i] ? 0.0 : of.prove_minutes[i];
  }
  return sum;
}

Figures figures_of(const Recipe& recipe, const Kitchen& kitchen, const Pantry& pantry,
                   const ForecastOptions& options) {
  const ForecastSetup setup = set_up_forecast(recipe, kitchen, pantry, options);
  return setup.problem.empty() ? figures_in(setup, run_forecast(setup)) : Figures{};
}

Figures figures_in(const ForecastSetup& setup, const ForecastRun& run) {
  Figures out;
  out.any = true;
  for (std::size_t i = 0; i < setup.schedule.proves.size(); ++i) {
    const std::string name = "prove/" + std::to_string(i) + "/minutes";
    if (run.ensemble.column(name) != nullptr) {
      out.prove_minutes.push_back(run.ensemble.band(name).p50);
      const PlannedProve& prove = setup.schedule.proves[i];
      out.prove_cold.push_back(prove.place == ProvePlace::cold || !prove.rises());
    }
  }
  if (const Column* minutes = run.ensemble.column("bake/minutes")) {
    out.bake_minutes = run.ensemble.band(*minutes).p50;
    const auto done = std::count_if(minutes->values.begin(), minutes->values.end(),
                                    [](double value) { return value < k_never_done_minutes; });
    out.share_done = static_cast<double>(done) / static_cast<double>(minutes->values.size());
    out.lightness = run.ensemble.band("bake/done/lightness").p50;
  }
  return out;
}

DoughState dough_of(const Recipe& recipe, const Kitchen& kitchen, const Pantry& pantry) {
  const Bowls bowls = bowls_of(recipe, kitchen, pantry);
  if (bowls.bowls.empty()) {
    return {};
  }
  const std::vector<FilledBowl> filled =
      fill_bowls(bowls, draw_batch(bowls.unknowns, 1, draws_from(0)));
  return assess_dough(dough_model(), filled[bowls.dough].portions, {});
}

void settle_steam(Settling& settling) {
  if (settling.to.oven != OvenKind::steamer) {
    return;
  }
  const CardWords& words = settling.words;
  std::string from;
  for (Part& part : settling.recipe.parts) {
    for (Step& step : part.steps) {
      if (step.kind != StepKind::bake) {
        continue;
      }
      from = from.empty() && step.celsius ? words.oven_degrees(step.celsius->middle()) : from;
      step.kind = StepKind::steam;
      step.celsius.reset();
      step.fan = false;
      step.until.clear();  // nothing turns golden in steam
      step.text.clear();
    }
    if (part.kind == PartKind::wash) {
      settling.notes.push_back(words.say("note_no_wash"));
    }
  }
  settling.changes.push_back({words.say("what_bake"),
                              from.empty() ? words.say("oven_conventional") : from,
                              words.say("oven_steamer"), words.say("why_steam")});
}

void settle_cold_proves(Settling& settling) {
  constexpr double k_keeps_cold_hours = 4.0;
  const double dark_hours = 24.0 - settling.to.power_hours.value_or(24.0);
  const bool has_fridge = settling.to.fridge.value_or(true);
  if (has_fridge && dark_hours <= k_keeps_cold_hours) {
    return;
  }
  for (Part& part : settling.recipe.parts) {
    for (Step& step : part.steps) {
      if (step.kind != StepKind::prove || step.place != "cold") {
        continue;
      }
      step.place.clear();
      step.minutes.reset();
      step.celsius.reset();
      step.text.clear();
      step.until = step.until.empty() ? "doubled" : step.until;
      const CardWords& words = settling.words;
      settling.changes.push_back(
          {words.say("what_cold"), words.say("place_cold"), words.say("place_room"),
           has_fridge ? words.say("why_warm_fridge", {words.number(24.0 - dark_hours, 0)})
                      : words.say("why_no_fridge")});
    }
  }
}

void settle_liquid(Settling& settling, double feel_score) {
  // Less than this no hand feels: points of water on flour.
  constexpr double k_felt = 0.8;
  constexpr double k_most_share = 1.0 / 3.0;
  const DoughState state = dough_of(settling.recipe, settling.to, settling.pantry);
  Part* dough = dough_part(settling.recipe);
  if (!state.has_flour || dough == nullptr ||
      std::fabs(lane_mean(state.feel_score) - feel_score) < k_felt) {
    return;
  }
  Line* liquid = nullptr;
  for (Line& line : dough->lines) {
    const Ingredient* one = settling.pantry.find(line.ingredient_id);
    if (one != nullptr && line.weighed && is_liquid(*one) &&
        (liquid == nullptr || line.grams.p50() > liquid->grams.p50())) {
      liquid = &line;
    }
  }
  const double water_g = lane_mean(water_for_score(state, feel_score));
  if (liquid == nullptr) {
    settling.notes.push_back(
        water_g > 0.0 ? settling.words.say("note_add_water", {grams_words(water_g, settling.words)})
                      : settling.words.say("note_keep_flour"));
    return;
  }
  const Ingredient& one = *settling.pantry.find(liquid->ingredient_id);
  const double was = liquid->grams.p50();
  const double water_share = std::max(0.5, one.composition[Component::water]);
  const double by = std::clamp(water_g / water_share, -k_most_share * was, k_most_share * was);
  set_amount(*liquid, was + by);
  settling.changes.push_back({name_of(settling, one), grams_words(was, settling.words),
                              grams_words(was + by, settling.words),
                              settling.words.say("why_feel")});
}

void settle_yeast(Settling& settling, const Figures& home) {
  constexpr double k_short_of = 0.9;
  constexpr double k_beyond = 1.25;
  constexpr double k_least = 0.25;
  constexpr double k_most = 1.5;
  const std::vector<Line*> yeast = yeast_lines(settling.pantry, settling.recipe);
  const double at_home = rising_minutes(home, home);
  if (yeast.empty() || at_home <= 0.0) {
    return;
  }
  std::vector<double> before;
  for (const Line* line : yeast) {
    before.push_back(line->grams.p50());
  }
  // The rises alone are compared, and they are a tenth of the work.
  ForecastOptions rises = settling.quick;
  rises.reach = ForecastReach::rise;
  const auto total_with = [&](double factor) {
    for (std::size_t i = 0; i < yeast.size(); ++i) {
      set_amount(*yeast[i], before[i] * factor);
    }
    const Figures there = figures_of(settling.recipe, settling.to, settling.pantry, rises);
    return rising_minutes(there, home);
  };
  const double now = total_with(1.0);
  const double ratio = now / at_home;
  if (now <= 0.0 || (ratio > k_short_of && ratio < k_beyond)) {
    return;
  }
  const double aim = at_home * (ratio < 1.0 ? 1.0 : k_beyond);
  double low = k_least;
  double high = k_most;
  for (int step = 0; step < 6; ++step) {
    const double middle = std::sqrt(low * high);
    (total_with(middle) > aim ? low : high) = middle;
  }
  const double factor = std::sqrt(low * high);
  total_with(factor);
  const std::string why = settling.words.say(ratio < 1.0 ? "why_faster" : "why_slower",
                                             {number_text(now, 0), number_text(at_home, 0)});
  for (std::size_t i = 0; i < yeast.size(); ++i) {
    const Ingredient& one = *settling.pantry.find(yeast[i]->ingredient_id);
    settling.changes.push_back({name_of(settling, one), grams_words(before[i], settling.words),
                                grams_words(before[i] * factor, settling.words), why});
  }
}

void settle_oven(Settling& settling, const Figures& home) {
  constexpr double k_cooler_k = -40.0;
  constexpr double k_hotter_k = 70.0;
  constexpr double k_step_k = 10.0;
  const std::vector<Step*> steps = heated_steps(settling.recipe);
  if (steps.empty() || home.bake_minutes <= 0.0 || settling.to.oven == OvenKind::none ||
      settling.to.oven == OvenKind::steamer) {
    return;
  }
  std::vector<Range> before;
  for (const Step* step : steps) {
    before.push_back(*step->celsius);
  }
  const auto set_by = [&](double by_k) {
    for (std::size_t i = 0; i < steps.size(); ++i) {
      const auto near = [&](double c) { return settling.words.oven_celsius(c + by_k); };
      *steps[i]->celsius =
          by_k == 0.0 ? before[i] : Range{near(before[i].low), near(before[i].high)};
    }
  };
  double best_k = 0.0;
  const auto cost_by = [&](double by_k) {
    set_by(by_k);
    const Figures there = figures_of(settling.recipe, settling.to, settling.pantry, settling.quick);
    return std::pair(same_crust_cost(home, there, by_k), there.share_done);
  };
  double best = cost_by(0.0).first;
  // Walks away from the recipe's own setting for as long as it gets better, and hotter for as
  // long as the bread is not done.
  for (const double direction : {k_step_k, -k_step_k}) {
    if (best_k > 0.0) {
      break;  // hotter was better, so cooler is not
    }
    int worse = 0;
    for (double by_k = direction; by_k >= k_cooler_k && by_k <= k_hotter_k && worse < 2;
         by_k += direction) {
      const auto [cost, done] = cost_by(by_k);
      worse = cost < best || (direction > 0.0 && done < 0.9) ? 0 : worse + 1;
      if (cost < best) {
        best = cost;
        best_k = by_k;
      }
    }
  }
  // A few degrees are within what any oven errs; a fan's figure is always its own.
  if (std::fabs(best_k) < 15.0 && settling.to.oven != OvenKind::fan) {
    best_k = 0.0;
  }
  set_by(best_k);
  if (best_k != 0.0) {
    const CardWords& words = settling.words;
    settling.changes.push_back({words.say("what_bake"), words.oven_degrees(before.front().middle()),
                                words.oven_degrees(steps.front()->celsius->middle()),
                                words.say(best_k > 0.0 ? "why_hotter" : "why_cooler")});
  }
}

}  // namespace maslin::handon
