// Laws of learning: simulated kitchens bake, write notes with a baker's errors, and are
// learnt from; the truth is known and the forecasts are held to it.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "forecast/diagnose.h"
#include "forecast/lasting.h"
#include "forecast/observe.h"
#include "recipe/recipe.h"
#include "support/simulated_kitchen.h"

using namespace maslin;
using namespace simulated;

namespace {

Observation seen(ObservationKind kind, double value, std::optional<double> at) {
  Observation out;
  out.kind = kind;
  out.value = value;
  out.at_minutes = at;
  return out;
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

/// Three ordinary trials in one kitchen: oven 15 K hot, thirsty flour, slow yeast, cold room; then
/// a fourth day is foretold. Its days differ from each other as those of any kitchen, and each
/// is weighed with draws of its own.
struct Foretold {
  Band prove;
  Band bake;
  double prove_minutes = 0.0;
  double bake_minutes = 0.0;
};
Foretold after_three_trials(const Recipe& recipe, const ForecastSetup& general,
                            std::uint64_t seed) {
  const std::vector<Shift> shifts{{"oven_offset_k", 15.0},
                                  {"flour_absorption", 2.0},
                                  {"yeast_vigour", 0.72},
                                  {"room_celsius", -3.5}};
  const std::uint32_t draws = general.options.draws;
  Kitchen kitchen;
  for (std::uint64_t today = 7919 * seed + 1;; ++today) {
    const Day day = lived(recipe, general.options, day_in_kitchen(general, seed, today, shifts));
    ForecastSetup setup = set_up(recipe, kitchen, followed_long(draws, 7 * today + 1));
    ForecastRun run = run_forecast(setup);
    if (kitchen.learnt.trials == 3) {
      return {run.ensemble.band("prove/0/minutes"), run.ensemble.band("bake/minutes"),
              day.value("prove/0/minutes"), day.value("bake/minutes")};
    }
    const Baker baker(day, setup, run.ensemble, today);
    const std::vector<Observation> notes{baker.reads(ObservationKind::dough_celsius, std::nullopt),
                                         baker.doubled(),
                                         baker.reads(ObservationKind::minutes_done, std::nullopt)};
    const Weighing weighing = observe(setup, run, notes, run_forecast);
    kitchen.learnt = lessons_after(setup, weighing);
  }
}

struct Learnt {
  Errors proves;
  Errors bakes;
};
Learnt three_trials(int kitchens, std::uint32_t draws) {
  const Recipe recipe = buns(8, 190, {18, 22});
  const ForecastSetup general = set_up(recipe, {}, followed_long(draws));
  const Ensemble before = run_forecast(general).ensemble;
  std::vector<Foretold> all(static_cast<std::size_t>(kitchens));
  for_kitchens(kitchens, [&](int i) {
    all[static_cast<std::size_t>(i)] =
        after_three_trials(recipe, general, static_cast<std::uint64_t>(1000 + i));
  });
  Learnt out;
  for (const Foretold& one : all) {
    hold(before.band("prove/0/minutes"), one.prove, one.prove_minutes, out.proves);
    hold(before.band("bake/minutes"), one.bake, one.bake_minutes, out.bakes);
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

}  // namespace

TEST_CASE("three ordinary trials halve the error of the next forecast") {
  const Learnt learnt = three_trials(30, 128);
  check_halved("prove", learnt.proves);
  check_halved("bake", learnt.bakes);
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
  ForecastSetup setup = set_up(recipe, {}, followed_long(1024));
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
  const Band after =
      run_forecast(set_up(recipe, kitchen, followed_long(1024))).ensemble.band("bake/minutes");
  MESSAGE("expected ", before.p50, " (", before.p10, " to ", before.p90, "), on that day ",
          run.ensemble.band("bake/minutes").p50, ", next ", after.p50, " (", after.p10, " to ",
          after.p90, ")");
  CHECK(run.ensemble.band("oven_offset_k").p50 > 3.0);
  CHECK(after.p50 >= 27.5);
  CHECK(after.p50 <= 30.5);
}
