// Laws of learning: simulated kitchens bake, write notes with a baker's errors, and are
// learnt from; the truth is known and the forecasts are held to it.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <future>
#include <string>
#include <vector>

#include "forecast/diagnose.h"
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

SightingError error_row(std::string_view kind) {
  static const std::vector<SightingError> k_errors = sighting_errors();
  for (const SightingError& one : k_errors) {
    if (one.kind == kind) {
      return one;
    }
  }
  return {};
}
double error_of(std::string_view kind) {
  return error_row(kind).sd;
}

/// An ordinary baker's notes of a day, with errors as data/observation_errors.tsv has them. A
/// dough near its double grows by about as much in volume as in time.
std::vector<Observation> notes_of(const Truth& truth, std::uint64_t day) {
  const auto error = [day](const char* name) { return normal_score(day + 1000003, name); };
  const double doubled =
      truth.prove_minutes * std::exp(error_of("volume_ratio") * error("doubled"));
  const double late = error_row("minutes_done").late * draw(name_key("late"), day, 0);
  const double done =
      truth.bake_minutes * std::exp(late + error_of("minutes_done") * error("done"));
  return {seen(ObservationKind::dough_celsius,
               truth.dough_celsius + error_of("dough_celsius") * error("dough"), {}),
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

/// Three trials in one kitchen: oven 15 K hot, thirsty flour, slow yeast, cold room; then a
/// fourth day is foretold.
struct Foretold {
  Band prove;
  Band bake;
  Truth truth;
};
Foretold after_three_trials(const Recipe& recipe, const ForecastSetup& general, std::uint64_t seed,
                            std::uint32_t draws) {
  const std::vector<Shift> shifts{{"oven_offset_k", 15.0},
                                  {"flour_absorption", 2.0},
                                  {"yeast_vigour", 0.72},
                                  {"room_celsius", -3.5}};
  Kitchen kitchen;
  for (std::uint64_t trial = 1; trial <= 3; ++trial) {
    const std::uint64_t day = 7919 * seed + trial;
    const Truth truth = truth_of(recipe, day_in_kitchen(general, seed, day, shifts));
    kitchen.learnt = learn(recipe, kitchen, notes_of(truth, day), draws);
  }
  const Ensemble after = run_forecast(set_up(recipe, kitchen, draws)).ensemble;
  return {after.band("prove/0/minutes"), after.band("bake/minutes"),
          truth_of(recipe, day_in_kitchen(general, seed, 7919 * seed + 9, shifts))};
}

/// Two at a time.
template <typename Each>
void for_kitchens(int kitchens, const Each& each) {
  const auto half = [&](int from) {
    for (int i = from; i < kitchens; i += 2) {
      each(i);
    }
  };
  std::future<void> odd = std::async(std::launch::async, half, 1);
  half(0);
  odd.get();
}

struct Learnt {
  Errors proves;
  Errors bakes;
};
Learnt three_trials(int kitchens, std::uint32_t draws) {
  const Recipe recipe = buns(8, 190, {18, 22});
  const ForecastSetup general = set_up(recipe, {}, draws);
  const Ensemble before = run_forecast(general).ensemble;
  std::vector<Foretold> all(static_cast<std::size_t>(kitchens));
  for_kitchens(kitchens, [&](int i) {
    all[static_cast<std::size_t>(i)] =
        after_three_trials(recipe, general, static_cast<std::uint64_t>(1000 + i), draws);
  });
  Learnt out;
  for (const Foretold& one : all) {
    hold(before.band("prove/0/minutes"), one.prove, one.truth.prove_minutes, out.proves);
    hold(before.band("bake/minutes"), one.bake, one.truth.bake_minutes, out.bakes);
  }
  return out;
}

double covered(const Errors& errors) {
  return static_cast<double>(errors.inside) / errors.bands;
}

void check_halved(const char* name, const Errors& errors) {
  const double before = median(errors.before);
  const double after = median(errors.after);
  MESSAGE(std::string(name), ": median error ", before, " to ", after, ", 80 % ranges hold ",
          covered(errors));
  CHECK(after <= 0.5 * before);
}

/// Share of the weight that lies below the truth.
double rank_in(const Ensemble& ensemble, const std::string& name, double truth) {
  const Column& column = *ensemble.column(name);
  double out = 0.0;
  for (std::size_t d = 0; d < column.values.size(); ++d) {
    out += column.values[d] < truth ? ensemble.weight[d] : 0.0;
  }
  return out;
}

/// Kitchens drawn from what is thought of kitchens: the ranks of the truth among the draws
/// after a day's notes are even when the weights are right (simulation-based calibration,
/// Talts et al. 2018, from memory). Ranks by kitchen, one list for each of these.
const std::vector<std::string>& ranked() {
  static const std::vector<std::string> k_names{"oven_offset_k", "yeast_vigour", "room_celsius",
                                                "prove/0/minutes", "bake/minutes"};
  return k_names;
}
std::vector<std::vector<double>> ranks(int kitchens, std::uint32_t draws) {
  const Recipe recipe = buns(8, 190, {18, 22});
  const ForecastSetup general = set_up(recipe, {}, draws);
  std::vector<std::vector<double>> out(ranked().size(),
                                       std::vector<double>(static_cast<std::size_t>(kitchens)));
  for_kitchens(kitchens, [&](int i) {
    const auto seed = static_cast<std::uint64_t>(50000 + i);
    const std::vector<Unknown> day = day_in_kitchen(general, seed, seed * 31 + 7, {});
    const Truth truth = truth_of(recipe, day);
    ForecastSetup setup = set_up(recipe, {}, draws);
    ForecastRun run = run_forecast(setup);
    (void)observe(setup, run, notes_of(truth, seed * 31 + 7), run_forecast);
    for (std::size_t n = 0; n < ranked().size(); ++n) {
      double value = ranked()[n].starts_with("prove") ? truth.prove_minutes : truth.bake_minutes;
      for (const Unknown& one : day) {
        value = one.name == ranked()[n] ? one.prior.a : value;
      }
      out[n][static_cast<std::size_t>(i)] = rank_in(run.ensemble, ranked()[n], value);
    }
  });
  return out;
}

double chi_square(const std::vector<double>& ranks, int bins) {
  std::vector<int> count(static_cast<std::size_t>(bins), 0);
  for (const double one : ranks) {
    ++count[static_cast<std::size_t>(std::min(bins - 1, static_cast<int>(one * bins)))];
  }
  const double expected = static_cast<double>(ranks.size()) / bins;
  double out = 0.0;
  for (const int one : count) {
    out += (one - expected) * (one - expected) / expected;
  }
  return out;
}

/// `most` is exceeded once in a hundred by chance (table of the chi-square distribution).
void check_ranks(int kitchens, std::uint32_t draws, int bins, double most) {
  const std::vector<std::vector<double>> all = ranks(kitchens, draws);
  for (std::size_t n = 0; n < all.size(); ++n) {
    const double chi = chi_square(all[n], bins);
    const auto inside = std::count_if(all[n].begin(), all[n].end(),
                                      [](double one) { return one > 0.1 && one < 0.9; });
    MESSAGE(ranked()[n], ": chi-square ", chi, " on ", bins - 1,
            " degrees of freedom, 80 % ranges hold ", static_cast<double>(inside) / kitchens);
    CHECK(chi < most);
  }
}

}  // namespace

TEST_CASE("three ordinary trials halve the error of the next forecast") {
  const Learnt learnt = three_trials(30, 128);
  check_halved("prove", learnt.proves);
  check_halved("bake", learnt.bakes);
}

TEST_CASE("the truth falls evenly among the weighed draws") {
  check_ranks(24, 128, 3, 9.21);
}

TEST_SUITE_BEGIN("slow");

TEST_CASE("200 kitchens: errors halve and ranges hold" * doctest::skip()) {
  const Learnt learnt = three_trials(200, 256);
  check_halved("prove", learnt.proves);
  check_halved("bake", learnt.bakes);
  for (const Errors* errors : {&learnt.proves, &learnt.bakes}) {
    CHECK(covered(*errors) >= 0.75);
    CHECK(covered(*errors) <= 0.85);
  }
}

TEST_CASE("400 kitchens: the truth falls evenly among the weighed draws" * doctest::skip()) {
  check_ranks(400, 256, 10, 21.67);
}

TEST_SUITE_END();

TEST_CASE("pieces done at 30 minutes, a shade dark, where 35 to 40 were planned") {
  // Common practice, no source: at gas mark 5 (190 degrees) that is a hot oven, a thin or
  // dark tray, or small pieces; the next forecast in that kitchen says about 28 to 30.
  // A piece of 640 g, which is worked out at about the minutes that were planned.
  Recipe recipe = buns(1, 190, {35, 40});
  for (Line& line : recipe.parts[0].lines) {
    line.grams = line.grams.scaled(0.73);
  }
  Observation crust = seen(ObservationKind::crust, 0.0, 30.0);
  crust.word = "dark";
  const std::vector<Observation> notes{seen(ObservationKind::minutes_done, 30.0, 30.0), crust};
  ForecastSetup setup = set_up(recipe, {}, 1024);
  ForecastRun run = run_forecast(setup);
  const Band before = run.ensemble.band("bake/minutes");
  const Weighing weighing = observe(setup, run, notes, run_forecast);
  for (const char* fault : {"done early", "too dark"}) {
    const auto diagnosis = diagnose({setup, run, weighing, notes}, fault);
    REQUIRE(diagnosis.has_value());
    std::string order;
    for (const Cause& cause : diagnosis->causes) {
      order += cause.figure + " " + std::to_string(cause.chance) + "; ";
    }
    MESSAGE(std::string(fault), ": ", order);
    const std::string& first = diagnosis->causes.front().figure;
    CHECK((first == "oven_offset_k" || first == "radiation_factor" ||
           first == "convection_factor" || first == "mass_factor"));
    CHECK(diagnosis->causes.front().chance > 0.4);
  }
  Kitchen kitchen;
  kitchen.learnt = lessons_after(setup, weighing);
  const Band after = run_forecast(set_up(recipe, kitchen, 1024)).ensemble.band("bake/minutes");
  MESSAGE("expected ", before.p50, " (", before.p10, " to ", before.p90, "), on that day ",
          run.ensemble.band("bake/minutes").p50, ", next ", after.p50, " (", after.p10, " to ",
          after.p90, ")");
  CHECK(run.ensemble.band("oven_offset_k").p50 > 3.0);
  CHECK(after.p50 >= 27.5);
  CHECK(after.p50 <= 30.5);
}
