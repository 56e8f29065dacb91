#include "forecast/observe.h"

#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <vector>

#include "forecast/lasting.h"
#include "forecast/likelihood.h"
#include "forecast/summary.h"
#include "numerics/dense.h"
#include "recipe/note_words.h"
#include "support/larder.h"

using namespace maslin;

namespace {

/// Plain milk buns in grams.
Recipe buns() {
  Recipe recipe;
  recipe.title = "Milk buns";
  recipe.pieces = Range{12, 12};
  Part dough;
  dough.name = "dough";
  dough.lines = {weighed_line("plain_flour", 500), weighed_line("whole_milk", 300),
                 weighed_line("butter", 40),       weighed_line("caster_sugar", 40),
                 weighed_line("instant_yeast", 6), weighed_line("salt", 8)};
  const auto step = [](StepKind kind, double minutes, double celsius, const char* until) {
    Step out;
    out.kind = kind;
    out.minutes = Range{minutes, minutes};
    out.celsius = celsius > 0 ? std::optional(Range{celsius, celsius}) : std::nullopt;
    out.until = until;
    return out;
  };
  dough.steps = {step(StepKind::knead, 10, 0, ""), step(StepKind::prove, 60, 0, "doubled"),
                 step(StepKind::shape, 5, 0, ""), step(StepKind::prove, 40, 0, "puffy"),
                 step(StepKind::bake, 18, 190, "golden")};
  recipe.parts = {dough};
  return recipe;
}

std::vector<Observation> read(const std::vector<std::string>& notes) {
  static const NoteWords k_words;
  std::vector<Observation> out;
  for (const std::string& note : notes) {
    for (Observation& one : read_note(note, k_words).observations) {
      out.push_back(std::move(one));
    }
  }
  return out;
}

struct Seen {
  ForecastSetup setup;
  ForecastRun run;
  Weighing weighing;
  Band band(const char* name) const { return run.ensemble.band(name); }
};

enum class Aiming : std::uint8_t { allowed, none };

Seen see(const std::vector<std::string>& notes, std::uint32_t draws = 512,
         Aiming aiming = Aiming::allowed) {
  static const Recipe k_buns = buns();
  const std::vector<Observation> seen = read(notes);
  ForecastOptions options;
  options.draws = draws;
  Seen out;
  out.setup = set_up_forecast(k_buns, {}, whole_pantry(), followed(options, seen));
  out.run = run_forecast(out.setup);
  out.weighing = observe(out.setup, out.run, seen, [aiming](const ForecastSetup& setup) {
    return aiming == Aiming::none ? ForecastRun{} : run_forecast(setup);
  });
  return out;
}

}  // namespace

TEST_CASE("a thermometer in the room gives the normal distribution that the sum of both gives") {
  // Two normal distributions: 21.5 give or take 2.5 before, 19 give or take 0.8 read. The
  // closed form is the textbook's; the share of misread notes moves it by little.
  const Seen seen = see({"room 19"}, 1024);
  const double variance = 1.0 / (1.0 / (2.5 * 2.5) + 1.0 / (0.8 * 0.8));
  const double mean = variance * (21.5 / (2.5 * 2.5) + 19.0 / (0.8 * 0.8));
  CHECK(seen.band("room_celsius").p50 == doctest::Approx(mean).epsilon(0.01));
  CHECK(seen.band("room_celsius").width() ==
        doctest::Approx(2.563 * std::sqrt(variance)).epsilon(0.12));
}

TEST_CASE("aimed draws give what many draws everywhere give") {
  const std::vector<std::string> notes{"doubled at 100 min", "dough 23 C", "done at 25"};
  const Seen aimed = see(notes, 1024);
  const Seen plain = see(notes, 8192, Aiming::none);
  CHECK(aimed.weighing.effective_draws > 100);
  CHECK(aimed.setup.aim.has_value());
  for (const char* name : {"prove/0/minutes", "prove/1/minutes", "bake/minutes", "oven_offset_k",
                           "yeast_vigour", "room_celsius"}) {
    CAPTURE(name);
    const Band a = aimed.band(name);
    const Band b = plain.band(name);
    CHECK(std::fabs(a.p50 - b.p50) < 0.12 * b.width());
    CHECK(a.width() == doctest::Approx(b.width()).epsilon(0.2));
  }
}

TEST_CASE("a rise that was seen narrows its own time, and the next one's") {
  const Band before = see({}).band("prove/1/minutes");
  const Seen seen = see({"doubled at 80 min"});
  CHECK(seen.band("prove/0/minutes").p50 == doctest::Approx(80).epsilon(0.05));
  CHECK(seen.band("prove/1/minutes").width() < 0.7 * before.width());
}

TEST_CASE("a note of hours for minutes or of another scale is not believed and spoils nothing") {
  const Seen before = see({});
  for (const char* note : {"doubled at 48 hours", "core 205", "done at 3 h"}) {
    CAPTURE(note);
    const Seen seen = see({note});
    CHECK(seen.weighing.fits.front().misread > 0.95);
    CHECK(seen.weighing.effective_draws > 256);
    CHECK(seen.band("prove/0/minutes").p50 ==
          doctest::Approx(before.band("prove/0/minutes").p50).epsilon(0.1));
    CHECK(seen.band("bake/minutes").p50 ==
          doctest::Approx(before.band("bake/minutes").p50).epsilon(0.1));
  }
  // Beside good notes a wild one is outvoted.
  const Seen good = see({"doubled at 80 min", "dough 26 C"});
  const Seen mixed = see({"doubled at 80 min", "dough 26 C", "dough 79"});
  CHECK(mixed.band("prove/0/minutes").p50 ==
        doctest::Approx(good.band("prove/0/minutes").p50).epsilon(0.05));
}

TEST_CASE("the minute of a doubling is weighed by the dough's pace, a look at a minute is not") {
  const Seen before = see({});
  const auto sighting = [&](const char* note) {
    const std::vector<Observation> seen = read({note});
    return *sighting_of(before.setup, before.run.ensemble, sighting_errors(), seen.front(), seen);
  };
  CHECK(sighting("x1.6 at 60 min").pace.empty());
  CHECK(sighting("not doubled at 60 min").pace.empty());
  Sighting goal = sighting("doubled at 60 min");
  REQUIRE(goal.pace.size() == before.run.ensemble.draws());
  CHECK(dot(goal.pace, before.run.ensemble.weight) == doctest::Approx(1.0).epsilon(0.02));
  // A chance of minutes is a chance of ratios times the pace from one to the next.
  goal.misread = 0.0;
  Sighting look = goal;
  look.pace.clear();
  const std::vector<double> with = log_likelihoods(goal, {});
  const std::vector<double> without = log_likelihoods(look, {});
  for (std::size_t i = 0; i < 16; ++i) {
    CHECK(with[i] - without[i] == doctest::Approx(std::log(goal.pace[i])).epsilon(1e-6));
  }
}

TEST_CASE("what has not happened yet moves the forecast later only") {
  const Seen before = see({});
  const double late = before.band("prove/0/minutes").p90;
  const Seen seen = see({"not doubled at " + std::to_string(std::lround(late)) + " min"});
  CHECK(seen.band("prove/0/minutes").p10 > before.band("prove/0/minutes").p50);
  const Seen early = see({"not doubled at 5 min"});
  CHECK(early.band("prove/0/minutes").p50 ==
        doctest::Approx(before.band("prove/0/minutes").p50).epsilon(0.02));
}

TEST_CASE("a colour picked from the crust weighs as a wide look at its class") {
  const auto minutes = [](const std::vector<std::string>& notes) {
    return see(notes).band("bake/minutes");
  };
  // Dark at 18 minutes is done sooner, pale is done later, each a little more surely.
  const Band before = minutes({});
  const Band dark = minutes({"crust #6b4423 at 18 min"});
  const Band pale = minutes({"crust #e8cfa0 at 18 min"});
  CHECK(dark.p50 < 0.95 * before.p50);
  CHECK(pale.p50 > 1.05 * before.p50);
  // About as much as the class that it lies in, and less sure.
  const Band classed = minutes({"golden at 18 min"});
  const Band picked = minutes({"crust L 65 at 18 min"});
  CHECK(std::fabs(picked.p50 / classed.p50 - 1.0) < 0.05);
  CHECK(picked.width() > classed.width());
  CHECK(picked.width() < before.width());
  // Of the crumb it says nothing, and soot no more than that it is burnt.
  CHECK(minutes({"crumb #6b4423 at 18 min"}).p50 == doctest::Approx(before.p50));
  CHECK(minutes({"crust L 16 at 18 min"}).p50 ==
        doctest::Approx(minutes({"crust L 31 at 18 min"}).p50));
}

TEST_CASE("every kind the models can speak to is used, and the others say why not") {
  const Seen seen = see({"doubled at 55 min", "dough 25 C", "room 21", "10 g flour left", "tacky",
                         "860 g before, 770 g after", "core 92 at 18 min", "golden at 18 min",
                         "crust #b07a3c at 18 min", "done at 18", "60 mm tall", "crumb 7/9",
                         "sponge doubled at 50 min"});
  for (const SeenFit& fit : seen.weighing.fits) {
    CAPTURE(fit.observation.text);
    const bool spoken =
        fit.observation.kind != ObservationKind::score && fit.observation.prove != "preferment";
    CHECK(fit.used == spoken);
    CHECK(fit.why_not.empty() == spoken);
  }
  CHECK(seen.weighing.effective_draws >= 15);
  CHECK(seen.band("bake/minutes").p50 == doctest::Approx(18).epsilon(0.12));
}

TEST_CASE("a trial of a glaze teaches how fine the sugar is, and the amounts follow") {
  Recipe recipe = buns();
  Part glaze;
  glaze.kind = PartKind::glaze;
  glaze.name = "glaze";
  glaze.lines = {weighed_line("icing_sugar", 100), weighed_line("lemon_juice", 17)};
  recipe.parts.push_back(glaze);
  const auto liquid_for_line = [](const Ensemble& ensemble) {
    return ensemble.band("finish/glaze/glaze/liquid_for_line_g");
  };
  const auto weighed_by = [&](const std::string& note, ForecastSetup& setup, ForecastRun& run) {
    ForecastOptions options;
    options.draws = 512;
    setup = set_up_forecast(recipe, {}, whole_pantry(), options);
    run = run_forecast(setup);
    return observe(setup, run, read({note}), [](const auto& one) { return run_forecast(one); });
  };
  ForecastSetup setup;
  ForecastRun run;
  (void)weighed_by("lovely smell", setup, run);
  const Band before = liquid_for_line(run.ensemble);
  const Band packing_before = run.ensemble.band("finish/packing_limit");
  // It takes more liquid than expected to get to the thin edge of a line: finer sugar.
  const double more = std::round(before.p90 + 1.0);
  const Weighing weighing = weighed_by(
      "100 g with " + std::to_string(std::lround(more)) + " g just holds a line", setup, run);
  CHECK(weighing.fits.front().used);
  const Band after = liquid_for_line(run.ensemble);
  CHECK(after.p50 > before.p50);
  CHECK(after.width() < before.width());
  CHECK(run.ensemble.band("finish/packing_limit").p50 < packing_before.p50);
  // What was seen is the inverse's own figure: a line stands up to about what just held one.
  CHECK(after.p50 < more);
  CHECK(std::fabs(after.p50 - more) < std::fabs(before.p50 - more));
  // Their sugar is kept for the next time.
  Kitchen kitchen;
  kitchen.learnt = lessons_after(setup, weighing);
  ForecastOptions options;
  options.draws = 512;
  const Band next = liquid_for_line(
      run_forecast(set_up_forecast(recipe, kitchen, whole_pantry(), options)).ensemble);
  CHECK(next.p50 > before.p50 + 0.5 * (after.p50 - before.p50));
  // A recipe without a glaze says why the note is of no use.
  const Seen none = see({"100 g with 15 g just holds a line"});
  CHECK_FALSE(none.weighing.fits.front().used);
  CHECK(none.weighing.fits.front().why_not.find("no glaze") != std::string::npos);
}

TEST_CASE("a dough that does not move in an hour and a half is likelier dead") {
  const Seen before = see({}, 1024);
  const Seen seen = see({"not moving at 90 min", "dough 25 C"}, 1024);
  CHECK(before.run.ensemble.mean(*before.run.ensemble.column("yeast_dead")) < 0.01);
  CHECK(seen.run.ensemble.mean(*seen.run.ensemble.column("yeast_dead")) > 0.5);
  CHECK(seen.weighing.effective_draws > 50);
  const Seen slow = see({"x1.5 at 90 min", "dough 25 C"}, 1024);
  CHECK(slow.run.ensemble.mean(*slow.run.ensemble.column("yeast_dead")) < 0.01);
}

TEST_CASE("the order of the notes does not matter, and no note leaves the weights equal") {
  const Seen one = see({"doubled at 60 min", "dough 24 C"});
  const Seen two = see({"dough 24 C", "doubled at 60 min"});
  CHECK(one.band("prove/0/minutes").p50 ==
        doctest::Approx(two.band("prove/0/minutes").p50).epsilon(0.03));
  CHECK(see({}).weighing.effective_draws == doctest::Approx(512));
  CHECK(see({"lovely smell"}).weighing.fits.empty());
}
