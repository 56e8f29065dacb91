// Laws of learning: simulated kitchens bake, write notes with a baker's errors, and are
// learnt from; the truth is known and the forecasts are held to it.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "forecast/lasting.h"
#include "forecast/observe.h"
#include "numerics/draws.h"
#include "recipe/recipe.h"
#include "support/larder.h"

using namespace maslin;

namespace {

/// Plain milk buns in grams; the bake as said.
Recipe buns(double pieces, double celsius, Range minutes) {
  Recipe recipe;
  recipe.title = "Milk buns";
  recipe.pieces = Range{pieces, pieces};
  Part dough;
  dough.name = "dough";
  dough.lines = {weighed_line("plain_flour", 500), weighed_line("whole_milk", 300),
                 weighed_line("butter", 40),       weighed_line("caster_sugar", 40),
                 weighed_line("instant_yeast", 6), weighed_line("salt", 8)};
  const auto step = [](StepKind kind, Range range, const char* until) {
    Step out;
    out.kind = kind;
    out.minutes = range;
    out.until = until;
    return out;
  };
  dough.steps = {step(StepKind::knead, {10, 10}, ""), step(StepKind::prove, {60, 60}, "doubled"),
                 step(StepKind::shape, {5, 5}, ""), step(StepKind::prove, {40, 40}, "puffy"),
                 step(StepKind::bake, minutes, "")};
  dough.steps.back().celsius = Range{celsius, celsius};
  recipe.parts = {dough};
  return recipe;
}

ForecastSetup set_up(const Recipe& recipe, const Kitchen& kitchen, std::uint32_t draws) {
  ForecastOptions options;
  options.draws = draws;
  options.prove_minutes_at_least = 400;
  options.bake_minutes_at_least = 45;
  return set_up_forecast(recipe, kitchen, whole_pantry(), options);
}

/// What one bake in a known kitchen comes to: one draw with every unknown a point.
struct Truth {
  double prove_minutes = 0.0;
  double bake_minutes = 0.0;
  double dough_celsius = 0.0;
  double flour_left = 0.0;
};

double normal_score(std::uint64_t seed, std::string_view name) {
  return standard_normal_quantile(Lanes(draw(name_key(name), seed, 0)))[0];
}

/// Values of every unknown on one day: what lasts by the kitchen's seed, the rest by the
/// day's; `shift` moves the middles of some.
struct Shift {
  std::string_view name;
  double by = 0.0;  // added, or multiplied where the unknown is lognormal
};

std::vector<Unknown> day_in_kitchen(const ForecastSetup& setup, std::uint64_t kitchen,
                                    std::uint64_t day, const std::vector<Shift>& shifts) {
  std::vector<Unknown> out = setup.unknowns;
  for (Unknown& one : out) {
    const bool is_log = one.prior.shape == Shape::lognormal;
    if (!is_log && one.prior.shape != Shape::normal) {
      continue;
    }
    const double stays = one.lasts ? std::sqrt(1.0 - one.day) : 0.0;
    const double is_new = one.lasts ? std::sqrt(one.day) : 1.0;
    const double off = one.prior.b * (stays * normal_score(kitchen, one.name) +
                                      is_new * normal_score(day, one.name));
    double value = is_log ? one.prior.a * std::exp(off) : one.prior.a + off;
    for (const Shift& shift : shifts) {
      if (shift.name == one.name) {
        // Moved about the shifted middle, with a third of the spread that kitchens have.
        value = is_log ? shift.by * std::exp(off / 3.0) : one.prior.a + shift.by + off / 3.0;
      }
    }
    one.prior = point(value);
  }
  return out;
}

Truth truth_of(const Recipe& recipe, std::vector<Unknown> day) {
  ForecastSetup setup = set_up(recipe, {}, 8);
  setup.unknowns = std::move(day);
  setup.scores = scores_of(setup.unknowns);
  const ForecastRun run = run_forecast(setup);
  const auto first = [&](const char* name) { return run.ensemble.column(name)->values[0]; };
  return {first("prove/0/minutes"), first("bake/minutes"), first("dough_celsius"),
          first("flour_left_grams")};
}

Observation seen(ObservationKind kind, double value, std::optional<double> at) {
  Observation out;
  out.kind = kind;
  out.value = value;
  out.at_minutes = at;
  return out;
}

/// An ordinary baker's notes of a day, with errors as data/observation_errors.tsv has them.
std::vector<Observation> notes_of(const Truth& truth, std::uint64_t day) {
  const auto error = [day](const char* name) { return normal_score(day + 1000003, name); };
  const double doubled = truth.prove_minutes * std::exp(0.05 * error("doubled"));
  const double done = truth.bake_minutes * std::exp(0.08 * error("done"));
  return {seen(ObservationKind::dough_celsius, truth.dough_celsius + 0.8 * error("dough"), {}),
          seen(ObservationKind::volume_ratio, 2.0, doubled),
          seen(ObservationKind::minutes_done, done, done)};
}

KitchenLessons learn(const Recipe& recipe, const Kitchen& kitchen,
                     const std::vector<Observation>& notes, std::uint32_t draws) {
  ForecastSetup setup = set_up(recipe, kitchen, draws);
  ForecastRun run = run_forecast(setup);
  const Weighing weighing = observe(setup, run, notes, run_forecast);
  return lessons_after(setup, weighing);
}

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

struct Errors {
  std::vector<double> before;
  std::vector<double> after;
  int inside = 0;
  int bands = 0;
};

void hold(const Band& before, const Band& after, double truth, Errors& errors) {
  errors.before.push_back(std::fabs(std::log(before.p50 / truth)));
  errors.after.push_back(std::fabs(std::log(after.p50 / truth)));
  errors.inside += truth >= after.p10 && truth <= after.p90 ? 1 : 0;
  ++errors.bands;
}

/// Three trials in each of so many kitchens: oven 15 K hot, thirsty flour, slow yeast, cold
/// room; then a fourth day is foretold.
void three_trials(int kitchens, std::uint32_t draws, Errors& proves, Errors& bakes) {
  const Recipe recipe = buns(8, 190, {18, 22});
  const std::vector<Shift> shifts{{"oven_offset_k", 15.0},
                                  {"flour_absorption", 2.0},
                                  {"yeast_vigour", 0.72},
                                  {"room_celsius", -3.5}};
  const ForecastSetup general = set_up(recipe, {}, draws);
  const ForecastRun before = run_forecast(general);
  for (int i = 0; i < kitchens; ++i) {
    const auto seed = static_cast<std::uint64_t>(1000 + i);
    Kitchen kitchen;
    for (std::uint64_t trial = 1; trial <= 3; ++trial) {
      const std::uint64_t day = 7919 * seed + trial;
      const Truth truth = truth_of(recipe, day_in_kitchen(general, seed, day, shifts));
      kitchen.learnt = learn(recipe, kitchen, notes_of(truth, day), draws);
    }
    const Truth next = truth_of(recipe, day_in_kitchen(general, seed, 7919 * seed + 9, shifts));
    const ForecastRun after = run_forecast(set_up(recipe, kitchen, draws));
    hold(before.ensemble.band("prove/0/minutes"), after.ensemble.band("prove/0/minutes"),
         next.prove_minutes, proves);
    hold(before.ensemble.band("bake/minutes"), after.ensemble.band("bake/minutes"),
         next.bake_minutes, bakes);
  }
}

void check_learning(int kitchens, std::uint32_t draws) {
  Errors proves;
  Errors bakes;
  three_trials(kitchens, draws, proves, bakes);
  for (const auto& [name, errors] :
       {std::pair<const char*, const Errors&>{"prove", proves}, {"bake", bakes}}) {
    const double before = median(errors.before);
    const double after = median(errors.after);
    const double covered = static_cast<double>(errors.inside) / errors.bands;
    MESSAGE(std::string(name), ": median error ", before, " to ", after, ", covered ", covered);
    CHECK(after <= 0.5 * before);
  }
}

/// Kitchens drawn from what is thought of kitchens: the ranks of the truth among the draws
/// after a day's notes are even when the weights are right.
double rank_chi_square(int kitchens, std::uint32_t draws, int bins, double& covered) {
  const Recipe recipe = buns(8, 190, {18, 22});
  const ForecastSetup general = set_up(recipe, {}, draws);
  std::vector<int> count(static_cast<std::size_t>(bins), 0);
  int inside = 0;
  for (int i = 0; i < kitchens; ++i) {
    const auto seed = static_cast<std::uint64_t>(50000 + i);
    const std::vector<Unknown> day = day_in_kitchen(general, seed, seed * 31 + 7, {});
    const Truth truth = truth_of(recipe, day);
    ForecastSetup setup = set_up(recipe, {}, draws);
    ForecastRun run = run_forecast(setup);
    (void)observe(setup, run, notes_of(truth, seed * 31 + 7), run_forecast);
    const Column& offset = *run.ensemble.column("oven_offset_k");
    double value = 0.0;
    for (const Unknown& one : day) {
      value = one.name == "oven_offset_k" ? one.prior.a : value;
    }
    double rank = 0.0;
    for (std::size_t d = 0; d < offset.values.size(); ++d) {
      rank += offset.values[d] < value ? run.ensemble.weight[d] : 0.0;
    }
    ++count[static_cast<std::size_t>(std::min(bins - 1, static_cast<int>(rank * bins)))];
    inside += rank > 0.1 && rank < 0.9 ? 1 : 0;
  }
  covered = static_cast<double>(inside) / kitchens;
  const double expected = static_cast<double>(kitchens) / bins;
  double out = 0.0;
  for (const int one : count) {
    out += (one - expected) * (one - expected) / expected;
  }
  return out;
}

}  // namespace

TEST_CASE("three ordinary trials halve the error of the next forecast") {
  check_learning(12, 128);
}

TEST_CASE("the truth falls evenly among the weighed draws" * doctest::skip()) {
  double covered = 0.0;
  const double chi = rank_chi_square(60, 128, 5, covered);
  MESSAGE("chi-square ", chi, " on 4 degrees of freedom, 80 % ranges hold ", covered);
  // 13.28 is exceeded once in a hundred by chance (table of the chi-square distribution).
  CHECK(chi < 13.28);
}

TEST_CASE("200 kitchens: errors halve, ranges hold, ranks are even" * doctest::skip()) {
  Errors proves;
  Errors bakes;
  three_trials(200, 128, proves, bakes);
  for (const Errors* errors : {&proves, &bakes}) {
    CHECK(median(errors->after) <= 0.5 * median(errors->before));
    const double covered = static_cast<double>(errors->inside) / errors->bands;
    MESSAGE("error ", median(errors->before), " to ", median(errors->after), ", covered ", covered);
    CHECK(covered >= 0.75);
    CHECK(covered <= 0.85);
  }
  double covered = 0.0;
  const double chi = rank_chi_square(400, 256, 10, covered);
  MESSAGE("chi-square ", chi, " on 9 degrees of freedom, 80 % ranges hold ", covered);
  CHECK(chi < 21.67);  // once in a hundred
}

TEST_CASE("pieces done at 30 minutes, a shade dark, where 35 to 40 were planned") {
  // Common practice, no source: at gas mark 5 (190 degrees) that is a hot oven, a thin or
  // dark tray, or small pieces; the next forecast in that kitchen says about 28 to 30.
  const Recipe recipe = buns(1, 190, {35, 40});
  Observation crust = seen(ObservationKind::crust, 0.0, 30.0);
  crust.word = "dark";
  const std::vector<Observation> notes{seen(ObservationKind::minutes_done, 30.0, 30.0), crust};
  ForecastSetup setup = set_up(recipe, {}, 1024);
  ForecastRun run = run_forecast(setup);
  const Band before = run.ensemble.band("bake/minutes");
  const Weighing weighing = observe(setup, run, notes, run_forecast);
  Kitchen kitchen;
  kitchen.learnt = lessons_after(setup, weighing);
  const Band after = run_forecast(set_up(recipe, kitchen, 1024)).ensemble.band("bake/minutes");
  MESSAGE("expected ", before.p50, ", on that day ", run.ensemble.band("bake/minutes").p50,
          ", next ", after.p50);
  CHECK(run.ensemble.band("oven_offset_k").p50 > 3.0);
}
