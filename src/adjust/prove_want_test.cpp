// A wanted prove time is met by the yeast first, then by warmth, then by more yeast; each checked
// by asking the rise anew what the changed recipe takes.
#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "adjust/adjust.h"
#include "forecast/rise_change.h"
#include "support/larder.h"

using namespace maslin;

namespace {

Step step_of(StepKind kind, const char* until) {
  Step out;
  out.kind = kind;
  out.until = until;
  return out;
}

Recipe loaf(double yeast_grams = 5.0) {
  Recipe out;
  out.title = "Loaf";
  Part dough;
  dough.name = "dough";
  dough.lines = {weighed_line("strong_white_flour", 500.0), weighed_line("water", 325.0),
                 weighed_line("salt", 9.0)};
  if (yeast_grams > 0.0) {
    dough.lines.push_back(weighed_line("instant_yeast", yeast_grams));
  }
  dough.steps = {step_of(StepKind::knead, ""), step_of(StepKind::prove, "doubled"),
                 step_of(StepKind::shape, ""), step_of(StepKind::prove, "doubled"),
                 step_of(StepKind::bake, "golden")};
  out.parts.push_back(dough);
  return out;
}

double minutes_of(const Recipe& recipe) {
  return middle_rise_minutes(recipe, {}, whole_pantry(), {});
}

Adjustment asked(const Recipe& recipe, const char* bound, double minutes) {
  const ParsedWant parsed =
      parse_want("prove_minutes" + std::string(bound) + std::to_string(std::lround(minutes)));
  REQUIRE_MESSAGE(parsed.want.has_value(), parsed.problem);
  AdjustRequest request;
  request.wants.push_back(*parsed.want);
  return adjust_recipe(recipe, whole_pantry(), request);
}

double yeast_of(const Adjustment& adjustment) {
  return grams_of(adjustment.recipe, "instant_yeast");
}

}  // namespace

TEST_CASE("a little sooner or later is yeast alone, half to twice as much") {
  const double now = minutes_of(loaf());
  REQUIRE(now > 30.0);
  for (const double share : {0.85, 1.2}) {
    CAPTURE(share);
    const Adjustment out = asked(loaf(), share < 1.0 ? "<=" : ">=", share * now);
    REQUIRE(out.met);
    REQUIRE(out.changes.size() == 1);
    CHECK(out.changes[0].from_grams == doctest::Approx(5.0));
    CHECK((out.changes[0].to_grams > 5.0) == (share < 1.0));
    CHECK(yeast_of(out) > 2.49);
    CHECK(yeast_of(out) < 10.01);
    CHECK(out.notes.empty());
    CHECK(minutes_of(out.recipe) == doctest::Approx(share * now).epsilon(0.05));
  }
}

TEST_CASE("much later is half the yeast and a cooler place") {
  const double now = minutes_of(loaf());
  const Adjustment out = asked(loaf(), ">=", 2.5 * now);
  REQUIRE(out.met);
  CHECK(yeast_of(out) == doctest::Approx(2.5));
  REQUIRE(out.notes.size() == 1);
  CHECK(out.notes[0].find("the proves stand at ") == 0);
  for (const Step& step : out.recipe.parts[0].steps) {
    CHECK(step.celsius.has_value() == (step.kind == StepKind::prove));
  }
  CHECK(minutes_of(out.recipe) == doctest::Approx(2.5 * now).epsilon(0.05));
}

TEST_CASE("what neither reaches is said with how near it comes, and nothing is changed") {
  const Adjustment out = asked(loaf(), "<=", 5.0);
  CHECK_FALSE(out.met);
  REQUIRE(out.conflict.size() == 1);
  CHECK(out.conflict[0].nearest.find(" can take ") != std::string::npos);
  CHECK(out.recipe == loaf());
}

TEST_CASE("nothing to time, or no yeast to change, is said") {
  Recipe still = loaf();
  still.parts[0].steps.clear();
  CHECK_FALSE(asked(still, "<=", 60.0).met);
  const Adjustment flat = asked(loaf(0.0), "<=", 60.0);
  CHECK_FALSE(flat.met);
  CHECK(flat.conflict.size() == 1);
}

TEST_CASE("what it takes already is left alone") {
  const Adjustment out = asked(loaf(), "<=", 2.0 * minutes_of(loaf()));
  CHECK(out.met);
  CHECK(out.changes.empty());
  CHECK(out.recipe == loaf());
}
