#include "plan/plan.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <string>

#include "plan/calendar.h"
#include "plan/clock_text.h"
#include "plan/plan_text.h"
#include "plan/step_owner.h"

using namespace maslin;

namespace {

DayTask task(const char* name, std::vector<double> minutes, std::vector<std::size_t> after) {
  DayTask out;
  out.name = name;
  out.minutes = std::move(minutes);
  out.after = std::move(after);
  return out;
}

/// Knead 10, rise 60 or 100, bake 20; a filling of 15 minutes' work beside it.
Day small_day() {
  Day out;
  out.weight = {0.5, 0.5};
  out.tasks = {task("filling", {15, 15}, {}), task("knead", {10, 10}, {}),
               task("rise", {60, 100}, {1}), task("shape", {5, 5}, {0, 2}),
               task("bake", {20, 20}, {3})};
  out.tasks[0].hands = out.tasks[1].hands = out.tasks[3].hands = true;
  out.tasks[0].beside = true;
  out.tasks[4].oven = true;
  return out;
}

const PlannedStep& step(const DayPlan& plan, const std::string& name) {
  const auto found = std::find_if(plan.steps.begin(), plan.steps.end(),
                                  [&](const PlannedStep& one) { return one.name == name; });
  REQUIRE(found != plan.steps.end());
  return *found;
}

constexpr double k_four = 29627520.0;  // 2026-05-01T16:00

}  // namespace

TEST_CASE("an oven kept hot is not in use while something else is baked in it") {
  Day day = small_day();
  DayTask heat = task("heat", {18, 18}, {});
  heat.kind = TaskKind::heat_oven;
  DayTask roast = task("roast", {30, 30}, {0});
  heat.oven = roast.oven = true;
  heat.beside = roast.beside = true;
  day.tasks.push_back(heat);
  day.tasks.push_back(roast);
  day.tasks[4].after = {3, 5, 6};
  PlanRequest request;
  request.ready_at = k_four;
  const DayPlan plan = plan_day(day, request);
  double free = 0.0;
  for (const PlannedStep& one : plan.steps) {
    if (one.oven) {
      CHECK_MESSAGE(one.start >= free, one.name);
      free = one.end;
    }
  }
  CHECK(step(plan, "heat").end <= step(plan, "bake").start);
}

TEST_CASE("times of the clock are read, written and told apart from none") {
  CHECK(clock_from("2026-05-01T16:00").minutes == k_four);
  CHECK(clock_text(k_four) == "2026-05-01T16:00");
  CHECK(hour_text(k_four - 0.4) == "16:00");
  CHECK(day_text(k_four) == "Fri 1 May");
  CHECK(clock_text(k_never) == "never");
  CHECK(!clock_from("2026-05-01T16:00Z").problem.empty());
  CHECK(!clock_from("soon").problem.empty());
  // 2026-05-01 is a Friday.
  CHECK(clock_said("17:30", k_four).minutes == k_four + 90.0);
  CHECK(clock_said("7:30", k_four).minutes == k_four + 930.0);
  CHECK(clock_said("tomorrow 16:00", k_four).minutes == k_four + 1440.0);
  CHECK(clock_said("Sat 12:00", k_four).minutes == k_four + 1200.0);
  CHECK(clock_said("friday 16:00", k_four).minutes == k_four + 7.0 * 1440.0);
  CHECK(clock_said("2026-05-01T16:00", 0.0).minutes == k_four);
  for (const char* words : {"25:00", "soon", "someday 12:00", "12:5", ":30", ""}) {
    CHECK_MESSAGE(!clock_said(words, k_four).problem.empty(), words);
  }
}

TEST_CASE("a sure plan allows for the slower draw, and what is beside it is made meanwhile") {
  PlanRequest request;
  request.ready_at = k_four;
  request.chance = 0.95;
  const DayPlan plan = plan_day(small_day(), request);
  CHECK(plan.met);
  CHECK(plan.chance_in_time == doctest::Approx(1.0));
  CHECK(plan.begin == doctest::Approx(k_four - 135.0).epsilon(1e-9));
  CHECK(step(plan, "filling").start >= step(plan, "knead").end);
  CHECK(step(plan, "filling").end <= step(plan, "shape").start);
  CHECK(step(plan, "rise").slack_minutes > 10.0);
  CHECK(step(plan, "bake").slack_minutes == doctest::Approx(0.0));
}

TEST_CASE("an hour that is too near is said, with the nearest that can be") {
  PlanRequest request;
  request.ready_at = k_four;
  request.now = k_four - 60.0;
  const DayPlan plan = plan_day(small_day(), request);
  CHECK(!plan.met);
  CHECK(plan.chance_in_time == 0.0);
  REQUIRE(plan.nearest.has_value());
  CHECK(*plan.nearest == doctest::Approx(k_four + 75.0).epsilon(1e-9));
  CHECK(plan_text(plan).find("cannot be met") != std::string::npos);
}

TEST_CASE("what was seen moves the rest: a rise that is over lets the shaping begin now") {
  PlanRequest request;
  request.ready_at = k_four;
  request.now = k_four - 60.0;
  request.done = {{"knead", k_four - 150.0, k_four - 140.0},
                  {"rise", k_four - 140.0, k_four - 62.0},
                  {"filling", k_four - 100.0, k_four - 80.0}};
  const DayPlan plan = plan_day(small_day(), request);
  CHECK(plan.met);
  CHECK(step(plan, "shape").start == doctest::Approx(k_four - 60.0).epsilon(1e-9));
  CHECK(step(plan, "rise").state == StepState::done);
  request.done.back().name = "dance";
  CHECK(!plan_day(small_day(), request).problem.empty());
}

TEST_CASE("weights of the draws decide how long is allowed") {
  Day day = small_day();
  day.weight = {1.0, 0.0};
  PlanRequest request;
  request.ready_at = k_four;
  CHECK(plan_day(day, request).begin == doctest::Approx(k_four - 95.0).epsilon(1e-9));
}

TEST_CASE("a dough that may never get there does not promise the hour") {
  Day day = small_day();
  day.tasks[2].minutes[1] = k_never;
  PlanRequest request;
  request.ready_at = k_four;
  const DayPlan plan = plan_day(day, request);
  CHECK(!plan.met);
  CHECK(plan.chance_in_time == doctest::Approx(0.5));
  CHECK(!plan.why_not.empty());
}

TEST_CASE("steps among the dough's belong to the part whose things they name") {
  Recipe recipe;
  Part dough;
  dough.name = "dough";
  Part filling;
  filling.kind = PartKind::filling;
  filling.name = "filling";
  const auto line = [](const char* name) {
    Line out;
    out.name = name;
    return out;
  };
  const auto says = [](StepKind kind, const char* text) {
    Step out;
    out.kind = kind;
    out.text = text;
    return out;
  };
  dough.lines = {line("flour"), line("butter")};
  filling.lines = {line("dates"), line("butter")};
  dough.steps = {says(StepKind::boil, "Simmer the dates."), says(StepKind::cool, "Leave to cool."),
                 says(StepKind::mix, "Rub the butter into the flour."),
                 says(StepKind::bake, "Bake."), says(StepKind::cool, "Leave to cool.")};
  recipe.parts = {dough, filling};
  std::vector<std::size_t> owners;
  for (const OwnedStep& one : owned_steps(recipe, 0)) {
    owners.push_back(one.part);
  }
  CHECK(owners == std::vector<std::size_t>{1, 1, 0, 0, 0});
}

TEST_CASE("a calendar folds and escapes what it says") {
  PlanRequest request;
  request.ready_at = k_four;
  DayPlan plan = plan_day(small_day(), request);
  plan.title = "Buns; with é, and a title so long that its line must be folded at least one time";
  const std::string text = plan_to_calendar(plan);
  CHECK(text.find("Buns\\; with é\\, and") != std::string::npos);
  CHECK(text.find("\r\n ") != std::string::npos);
  CHECK(text.find("DTEND:20260501T160000\r\n") != std::string::npos);
}

TEST_CASE("a bake stated past all sense is planned as never, not as a number that overflowed") {
  Day day = small_day();
  day.tasks[4].minutes = {6e21, 6e21};
  PlanRequest request;
  request.ready_at = k_four;
  const DayPlan plan = plan_day(day, request);
  const std::string said = plan_text(plan) + plan_to_calendar(plan);
  CHECK(said.find("never") != std::string::npos);
  CHECK(said.find("9223372036854775") == std::string::npos);
}
