// Hours with hands and with power, and what a dough does that waits for them.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <string>

#include "plan/open_hours.h"
#include "plan/plan.h"

using namespace maslin;

namespace {

constexpr double k_midnight = 29626560.0;  // 2026-05-01
double at(double hour) {
  return k_midnight + 60.0 * hour;
}

DayTask task(const char* name, TaskKind kind, double minutes, std::vector<std::size_t> after) {
  DayTask out;
  out.name = name;
  out.kind = kind;
  out.minutes = {minutes, minutes};
  out.after = std::move(after);
  out.hands = kind == TaskKind::mix || kind == TaskKind::work;
  out.oven = kind == TaskKind::bake || kind == TaskKind::heat_oven;
  return out;
}

/// Mix 20, rise 90 to double, shape 15, rise 45, bake 25. What rises goes on by a hundredth of
/// its first volume a minute.
Day day_of_buns() {
  Day out;
  out.weight = {0.5, 0.5};
  out.tasks = {
      task("mix", TaskKind::mix, 20, {}),        task("first prove", TaskKind::prove, 90, {0}),
      task("shape", TaskKind::work, 15, {1}),    task("last prove", TaskKind::prove, 45, {2}),
      task("heat", TaskKind::heat_oven, 20, {}), task("bake", TaskKind::bake, 25, {3, 4})};
  out.tasks[4].during = 3;
  out.tasks[5].lead_minutes = 20;
  Trace growth;
  growth.step_minutes = 1.0;
  for (int minute = 0; minute <= 600; ++minute) {
    growth.samples.push_back({1.0 + minute / 90.0, 1.0 + minute / 90.0});
  }
  for (const std::size_t prove : {1U, 3U}) {
    out.tasks[prove].growth = std::make_shared<const Trace>(growth);
    out.tasks[prove].wanted_ratio = prove == 1 ? 2.0 : 1.5;
  }
  out.tasks[3].grows_until = 5;
  return out;
}

const PlannedStep& step(const DayPlan& plan, const std::string& name) {
  const auto found = std::find_if(plan.steps.begin(), plan.steps.end(),
                                  [&](const PlannedStep& one) { return one.name == name; });
  REQUIRE(found != plan.steps.end());
  return *found;
}

}  // namespace

TEST_CASE("open hours give the next stretch that holds it all, also past midnight") {
  const OpenHours day({{6 * 60.0, 23 * 60.0}});
  CHECK(day.fit(at(10), 0, 30, 0) == at(10));
  CHECK(day.fit(at(22.75), 0, 30, 0) == at(30));
  CHECK(day.fit(at(3), 0, 30, 0) == at(6));
  CHECK(day.fit(at(3), 20, 30, 0) == doctest::Approx(at(6) + 20));
  const OpenHours late({{18 * 60.0, 60.0}});
  CHECK(late.fit(at(24.5), 0, 20, 0) == at(24.5));
  CHECK(late.fit(at(24.9), 0, 20, 0) == at(42));
  CHECK(late.longest() == 420.0);
  CHECK(OpenHours({{0.0, 1440.0}}).always());
  CHECK(OpenHours({{0.0, 720.0}, {720.0, 1440.0}}).always());
  CHECK(day.with(late).fit(at(24), 0, 10, 0) == at(42));
  CHECK(OpenHours({{0.0, 60.0}}).with(OpenHours({{120.0, 180.0}})).never());
}

TEST_CASE("open hours seen backwards are the same hours") {
  const OpenHours day({{6 * 60.0, 23 * 60.0}, {60.0, 90.0}});
  const double end = at(31.3);
  for (double minute = 0.0; minute < 1440.0; minute += 7.0) {
    const double backwards = day.mirrored(end).fit(end - at(0) - minute - 1.0, 0, 1.0, 0);
    const bool open_back = backwards == end - at(0) - minute - 1.0;
    const bool open = day.fit(at(0) + minute, 0, 1.0, 0) == at(0) + minute;
    CHECK(open == open_back);
  }
}

TEST_CASE("what is mixed is kneaded before bedtime, not in the morning") {
  Day day = day_of_buns();
  // The bowl at the very end of the evening would fit by itself.
  day.tasks.insert(day.tasks.begin() + 1, task("knead", TaskKind::work, 30, {0}));
  for (std::size_t i = 2; i < day.tasks.size(); ++i) {
    for (std::size_t& before : day.tasks[i].after) {
      before += 1;
    }
    for (auto* at : {&day.tasks[i].during, &day.tasks[i].grows_until}) {
      *at = *at ? std::optional(**at + 1) : std::nullopt;
    }
  }
  day.tasks[0].straight_on = 1;
  DayOrders orders;
  orders.not_before.assign(day.tasks.size(), at(22.5));
  orders.rank.assign(day.tasks.size(), 0.0);
  orders.lag.assign(day.tasks.size(), 0.0);
  orders.progress.assign(day.tasks.size(), {});
  orders.hours.awake = OpenHours({{6 * 60.0, 23 * 60.0}});
  orders.hours.oven = orders.hours.awake;
  orders.now = at(22.5);
  std::vector<double> minutes;
  for (const DayTask& one : day.tasks) {
    minutes.push_back(one.minutes[0]);
  }
  const std::vector<TaskTimes> on = run_day(day.tasks, minutes, orders);
  CHECK(on[0].start == at(30));
  CHECK(on[1].start == on[0].end);
  // Backwards too: over by a quarter past six, both are done the evening before.
  const std::vector<DayTask> bowl(day.tasks.begin(), day.tasks.begin() + 2);
  const std::vector<TaskTimes> back =
      latest_day(bowl, std::span(minutes).first(2), {{}, {}}, orders.hours, at(30.6));
  CHECK(back[1].end == at(23));
  CHECK(back[0].end == back[1].start);
}

TEST_CASE(
    "no hands are asked for while the kitchen sleeps, and a dough left to the morning is said") {
  PlanRequest request;
  request.ready_at = at(31);  // seven in the morning
  request.chance = 0.9;
  CHECK(plan_day(day_of_buns(), request).met);
  request.awake = DailyHours{6 * 60.0, 23 * 60.0};
  const DayPlan plan = plan_day(day_of_buns(), request);
  for (const PlannedStep& one : plan.steps) {
    if (one.hands || one.oven) {
      const double hour = std::fmod(one.start - k_midnight, 1440.0) / 60.0;
      const double end = hour + (one.end - one.start) / 60.0;
      CHECK_MESSAGE((hour >= 6.0 - 1e-6 && end <= 23.0 + 1e-6), one.name);
    }
  }
  CHECK(plan.ready <= *request.ready_at + 1e-6);
  // What would wait through the night is made before it.
  CHECK(plan.met);
  CHECK(step(plan, "bake").end <= at(23) + 1e-6);
  CHECK(plan.begin >= at(18));
}

TEST_CASE(
    "begun in the evening it waits for the morning, and mixed already it is said what it grows "
    "to") {
  PlanRequest request;
  request.now = at(22.5);
  request.awake = DailyHours{6 * 60.0, 23 * 60.0};
  const DayPlan later = plan_day(day_of_buns(), request);
  CHECK(later.met);
  CHECK(later.begin == doctest::Approx(at(30)));
  request.done = {{"mix", at(22.1), at(22.5)}};
  const DayPlan plan = plan_day(day_of_buns(), request);
  CHECK(!plan.met);
  // From half past ten to six in the morning it stands 450 minutes: 1 + 450 / 90.
  REQUIRE(step(plan, "first prove").grown.has_value());
  CHECK(step(plan, "first prove").grown->p50 == doctest::Approx(6.0).epsilon(0.001));
  CHECK(plan.why_not.find("\u00d76") != std::string::npos);
  CHECK(step(plan, "first prove").note.find("keep it cold") != std::string::npos);
  CHECK(step(plan, "shape").start == doctest::Approx(at(30)));
}

TEST_CASE("an oven by wire is heated and baked in within one stretch of power") {
  PlanRequest request;
  request.ready_at = at(20);
  request.power = {{8 * 60.0, 10 * 60.0}, {18 * 60.0, 20 * 60.0}};
  const DayPlan plan = plan_day(day_of_buns(), request);
  CHECK(plan.met);
  CHECK(step(plan, "heat").start >= at(18) - 1e-6);
  CHECK(step(plan, "bake").end <= at(20) + 1e-6);
  request.ready_at = at(17);
  const DayPlan earlier = plan_day(day_of_buns(), request);
  CHECK(step(earlier, "bake").end <= at(10) + 1e-6);
  CHECK(step(earlier, "heat").start >= at(8) - 1e-6);
  request.power = {{8 * 60.0, 8 * 60.0 + 30.0}};
  CHECK(plan_day(day_of_buns(), request).why_not.find("longer than it has power") !=
        std::string::npos);
  request.power = {{60.0, 120.0}};
  request.awake = DailyHours{6 * 60.0, 23 * 60.0};
  CHECK(!plan_day(day_of_buns(), request).problem.empty());
}
