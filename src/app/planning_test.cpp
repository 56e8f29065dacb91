// The plan and the forecast of a day in a room that changes through it.
#include "app/planning.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <string>

#include "plan/clock_text.h"
#include "recipe/room_day.h"

using namespace maslin;

namespace {

constexpr const char* k_loaf =
    "Loaf\n\n500 g strong white flour\n330 g water\n9 g salt\n1 g instant yeast\n\n"
    "Mix and knead for 10 minutes.\nLeave on the table until doubled.\nShape.\nProve until "
    "doubled.\n"
    "Bake at 220C for 35 minutes.\n";

const PlannedStep& step_in(const DayPlan& plan, const std::string& name) {
  const auto found = std::find_if(plan.steps.begin(), plan.steps.end(),
                                  [&](const PlannedStep& one) { return one.name == name; });
  REQUIRE_MESSAGE(found != plan.steps.end(), name);
  return *found;
}

}  // namespace

TEST_CASE("the plan's proves are as long as a forecast from its own hour says") {
  const Tools tools;
  const Recipe recipe = read_recipe(tools, {k_loaf, "", ""}).value.value();
  DayQuestion question;
  REQUIRE(read_room("22, 12 at night", question.forecast.kitchen));
  question.forecast.options.draws = 256;
  // Mixed of an evening, so that the first prove goes through the night; hands at any hour.
  question.plan.now = *clock_from("2026-01-10T20:00").minutes;
  question.plan.awake = DailyHours{0.0, 1440.0};
  const Result<DayPlan> plan = plan_recipe(tools, recipe, question);
  REQUIRE_MESSAGE(plan.value, plan.problem);
  ForecastRequest request = question.forecast;
  request.options.begins_at = step_in(*plan.value, "weigh and mix the dough").starts_at.p50;
  const Result<ForecastSummary> forecast = forecast_recipe(tools, recipe, request);
  REQUIRE(forecast.value);
  CHECK(step_in(*plan.value, "first prove").minutes.p50 ==
        doctest::Approx(forecast.value->proves[0].minutes.p50).epsilon(0.03));
  CHECK(step_in(*plan.value, "prove after shaping").minutes.p50 ==
        doctest::Approx(forecast.value->proves[1].minutes.p50).epsilon(0.05));
  // A room of one figure would have had it ready much sooner.
  REQUIRE(read_room("22", question.forecast.kitchen));
  CHECK(plan_recipe(tools, recipe, question).value->ready < plan.value->ready - 60.0);
}

TEST_CASE("backwards from the hour the night is reckoned with: it begins sooner") {
  const Tools tools;
  const Recipe recipe = read_recipe(tools, {k_loaf, "", ""}).value.value();
  DayQuestion question;
  question.forecast.options.draws = 128;
  question.plan.ready_at = *clock_from("2026-01-10T12:00").minutes;
  question.plan.awake = DailyHours{0.0, 1440.0};
  REQUIRE(read_room("22", question.forecast.kitchen));
  const double without = plan_recipe(tools, recipe, question).value->begin;
  REQUIRE(read_room("22, 12 at night", question.forecast.kitchen));
  CHECK(plan_recipe(tools, recipe, question).value->begin < without - 60.0);
}

TEST_CASE("frozen pieces go through freezer, fridge and table in the plan") {
  const Tools tools;
  const Recipe recipe =
      read_recipe(tools,
                  {"Rolls\n\n500 g strong white flour\n330 g water\n9 g salt\n7 g instant "
                   "yeast\n\nKnead for 10 minutes. Leave to rise until doubled. Shape into 10 "
                   "rolls. Freeze the shaped rolls. Next day thaw overnight in the fridge, then "
                   "prove until doubled and bake at 220C for 15 minutes.\n",
                   "", ""})
          .value.value();
  DayQuestion question;
  question.forecast.options.draws = 128;
  question.plan.ready_at = *clock_from("2026-01-10T12:00").minutes;
  const Result<DayPlan> plan = plan_recipe(tools, recipe, question);
  REQUIRE_MESSAGE(plan.value, plan.problem);
  CHECK(plan.value->met);
  const PlannedStep& freezer = step_in(*plan.value, "in the freezer");
  const PlannedStep& thawing = step_in(*plan.value, "thawing");
  const PlannedStep& prove = step_in(*plan.value, "prove after shaping");
  CHECK(freezer.end - freezer.start >= 720.0);
  CHECK(thawing.start >= freezer.end - 1e-6);
  CHECK(prove.start >= thawing.end - 1e-6);
  // Two nights lie between the mixing and the oven.
  CHECK(plan.value->ready - plan.value->begin > 24.0 * 60.0);
}
