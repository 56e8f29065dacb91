// Laws any day's plan obeys, over random recipes, kitchens and wanted hours: one pair of
// hands, one oven, nothing before what it needs, and the stated chance to be ready in time
// borne out by draws the plan has not seen.
#include "plan/plan.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "numerics/draws.h"
#include "pantry/pantry.h"

using namespace maslin;

namespace {

constexpr std::uint32_t k_cases = 500;
/// Every so many cases the bake is drawn too; the others plan a steamed or a stated bake
/// of the same shape, which takes a tenth of the time to draw. The slow check draws them all.
constexpr std::uint32_t k_whole_every = 20;
/// The usual check takes one case in so many, the slow one all of them.
constexpr std::uint32_t k_usual_stride = 36;
constexpr std::uint32_t k_draws = 1024;

const Pantry& pantry() {
  static const Pantry k_pantry(embedded_pantry_tables());
  return k_pantry;
}

/// Even random values of one case, each by its name.
struct Chance {
  std::uint32_t index;
  double between(const char* name, double low, double high) const {
    return low + (high - low) * draw(name_key(name), 77, index);
  }
  bool one_in(const char* name, double n) const { return between(name, 0.0, n) < 1.0; }
};

Line line(const char* id, double grams, double spread = 0.05) {
  const Ingredient* one = pantry().find(id);
  REQUIRE_MESSAGE(one != nullptr, id);
  Line out;
  out.name = one->name;
  out.text = one->name;
  out.ingredient_id = id;
  out.grams = lognormal(grams, spread);
  out.weighed = true;
  return out;
}

Step step(StepKind kind, double minutes = 0.0, const char* text = "") {
  Step out;
  out.kind = kind;
  out.text = text;
  if (minutes > 0.0) {
    out.minutes = Range{minutes, minutes};
  }
  return out;
}

Part part(PartKind kind, const char* name, std::vector<Line> lines, std::vector<Step> steps) {
  Part out;
  out.kind = kind;
  out.name = name;
  out.lines = std::move(lines);
  out.steps = std::move(steps);
  return out;
}

std::vector<Line> dough_lines(const Chance& c) {
  const double flour = c.between("flour", 300.0, 1500.0);
  const char* yeasts[] = {"instant_yeast", "active_dry_yeast", "fresh_yeast"};
  const auto kind = static_cast<std::size_t>(c.between("kind of yeast", 0.0, 2.999));
  const double dose = std::exp(c.between("yeast", std::log(0.004), std::log(0.02)));
  std::vector<Line> out = {
      line(c.one_in("strong", 2.0) ? "strong_white_flour" : "plain_flour", flour),
      line(c.one_in("milk", 2.0) ? "whole_milk" : "water", flour * c.between("wet", 0.5, 0.7)),
      line(yeasts[kind], flour * dose * (kind == 2 ? 2.5 : 1.0)),
      line("salt", flour * c.between("salt", 0.005, 0.02))};
  if (c.one_in("sweet", 2.0)) {
    out.push_back(line("caster_sugar", flour * c.between("sugar", 0.02, 0.15)));
  }
  if (c.one_in("rich", 2.0)) {
    out.push_back(line("butter", flour * c.between("butter", 0.03, 0.2)));
    out.push_back(line("egg", flour * c.between("egg", 0.05, 0.15)));
  }
  return out;
}

std::vector<Step> dough_steps(const Chance& c, bool filled, bool glazed) {
  std::vector<Step> out = {step(StepKind::mix)};
  if (c.one_in("autolyse", 3.0)) {
    out.push_back(step(StepKind::rest, c.between("autolyse minutes", 10.0, 60.0)));
  }
  if (!c.one_in("no knead", 3.0)) {
    out.push_back(step(StepKind::knead, c.between("knead", 4.0, 15.0)));
  }
  const int rises = static_cast<int>(c.between("rises", 1.0, 3.999));
  for (int i = 0; i + 1 < rises; ++i) {
    out.push_back(step(StepKind::prove, 60.0, "doubled"));
    if (i + 2 < rises) {
      out.push_back(step(StepKind::fold));
    }
  }
  out.push_back(step(StepKind::shape));
  if (filled) {
    out.push_back(step(StepKind::fill));
  }
  out.push_back(step(StepKind::prove, 40.0, "puffy"));
  if (c.one_in("brushed", 2.0)) {
    out.push_back(step(StepKind::finish));
  }
  const bool steamed = c.one_in("steamed", 4.0);
  Step heat = step(steamed ? StepKind::steam : StepKind::bake, c.between("heat", 10.0, 45.0));
  if (!steamed) {
    heat.celsius = Range{190.0, 190.0};
  }
  out.push_back(heat);
  if (c.one_in("cooled", 2.0)) {
    out.push_back(step(StepKind::cool));
  }
  if (glazed) {
    out.push_back(step(StepKind::finish));
  }
  return out;
}

Recipe random_recipe(const Chance& c) {
  const bool filled = c.one_in("filled", 3.0);
  const bool glazed = c.one_in("glazed", 3.0);
  Recipe out;
  out.title = c.one_in("loaf", 3.0) ? "Loaf" : "Buns";
  const double pieces = out.title == "Loaf" ? 1.0 : std::round(c.between("pieces", 4.0, 30.0));
  out.pieces = Range{pieces, pieces};
  out.parts.push_back(
      part(PartKind::dough, "dough", dough_lines(c), dough_steps(c, filled, glazed)));
  if (c.one_in("soaked", 3.0)) {
    out.parts.push_back(part(PartKind::soaker, "fruit", {line("raisins", 80), line("water", 60)},
                             {step(StepKind::soak, c.between("soak", 20.0, 600.0))}));
  }
  if (c.one_in("poolish", 4.0)) {
    out.parts.push_back(part(PartKind::preferment, "poolish",
                             {line("plain_flour", 100), line("water", 100)},
                             {step(StepKind::prove, c.between("ripe", 360.0, 960.0))}));
  }
  if (filled) {
    out.parts.push_back(part(PartKind::filling, "filling", {line("dates", 150), line("water", 60)},
                             {step(StepKind::boil, c.between("boil", 5.0, 25.0))}));
  }
  if (glazed) {
    out.parts.push_back(
        part(PartKind::glaze, "glaze", {line("icing_sugar", 120), line("water", 20)}, {}));
  }
  return out;
}

Kitchen random_kitchen(const Chance& c) {
  Kitchen out;
  out.room_celsius = c.between("room", 17.0, 33.0);
  const OvenKind kinds[] = {OvenKind::conventional, OvenKind::fan, OvenKind::wood, OvenKind::gas};
  out.oven = kinds[static_cast<std::size_t>(c.between("oven", 0.0, 3.999))];
  if (c.one_in("own tray", 2.0)) {
    Tin tray;
    tray.kind = "tray";
    tray.length_mm = c.between("tray", 250.0, 450.0);
    tray.width_mm = 0.75 * tray.length_mm;
    out.tins.push_back(tray);
  }
  return out;
}

struct Case {
  Recipe recipe;
  Kitchen kitchen;
  PlanRequest request;
  ForecastReach reach = ForecastReach::rise;
};

/// Hours through a week; a third of the plans forwards from now, a third held by it.
Case random_case(std::uint32_t index, std::uint32_t whole_every = k_whole_every) {
  const Chance c{index};
  Case out;
  out.recipe = random_recipe(c);
  out.kitchen = random_kitchen(c);
  out.reach = index % whole_every == 0 ? ForecastReach::whole : ForecastReach::rise;
  const double midnight = 29626560.0;  // 2026-05-01
  const double ready = midnight + std::round(c.between("hour", 0.0, 7.0 * 1440.0));
  const double way = c.between("way", 0.0, 3.0);
  out.request.chance = c.between("chance", 0.55, 0.95);
  if (way < 2.0) {
    out.request.ready_at = ready;
  }
  if (way >= 1.0) {
    out.request.now = ready - std::round(c.between("before", 60.0, 900.0));
  }
  // Half of the kitchens sleep, a few have the mains for some hours of the day.
  if (c.one_in("sleeps", 2.0)) {
    out.request.awake = DailyHours{60.0 * std::round(c.between("up", 5.0, 8.0)),
                                   60.0 * std::round(c.between("to bed", 21.0, 24.0))};
  }
  if (c.one_in("cuts", 8.0)) {
    const double on = 60.0 * std::round(c.between("on", 9.0, 16.0));
    out.request.power = {{on, on + 240.0}};
  }
  return out;
}

Day day_in(const Case& one, std::uint64_t seed) {
  const ForecastSetup setup =
      set_up_forecast(one.recipe, one.kitchen, pantry(), {seed, k_draws, one.reach});
  REQUIRE(setup.problem.empty());
  return day_of(setup, run_forecast(setup).ensemble);
}

/// Whether no two of the steps overlap, to the hundredth of a minute.
bool one_after_another(const std::vector<PlannedStep>& steps, bool PlannedStep::* takes) {
  double free = -1e12;
  for (const PlannedStep& one : steps) {
    if (one.*takes) {
      if (one.start < free - 0.01) {
        return false;
      }
      free = std::max(free, one.end);
    }
  }
  return true;
}

bool all_after_what_they_need(const std::vector<PlannedStep>& steps) {
  for (const PlannedStep& one : steps) {
    for (const std::string& name : one.after) {
      const auto before = std::find_if(
          steps.begin(), steps.end(), [&](const PlannedStep& other) { return other.name == name; });
      if (before == steps.end() || before->end > one.start + 0.01) {
        return false;
      }
    }
  }
  return true;
}

double share_by(const std::vector<double>& ready, double hour) {
  double in_time = 0.0;
  for (const double one : ready) {
    in_time += one <= hour + 1e-6 ? 1.0 : 0.0;
  }
  return in_time / static_cast<double>(ready.size());
}

/// Whether the step lies in one stretch of these hours.
bool within(const DailyHours& hours, const PlannedStep& step) {
  const double from = std::floor(step.start / 1440.0) * 1440.0 + hours.from_minutes;
  return step.start >= from - 0.01 &&
         step.end <= from + hours.to_minutes - hours.from_minutes + 0.01;
}

void chance_holds(std::uint32_t whole_every, std::uint32_t stride) {
  double worst = 0.0;
  double sum = 0.0;
  std::uint32_t met = 0;
  std::uint32_t drawn = 0;
  for (std::uint32_t i = 0; i < k_cases; i += stride) {
    ++drawn;
    const Case one = random_case(i, whole_every);
    const PlannedDay planned = plan_day_by_rule(day_in(one, 1000 + i), one.request);
    const std::vector<double> ready = ready_times(day_in(one, 5000 + i), planned.orders);
    const double hour = one.request.ready_at.value_or(planned.plan.ready);
    const double seen = share_by(ready, hour);
    CAPTURE(i);
    CAPTURE(planned.plan.chance_in_time);
    CHECK(std::fabs(seen - planned.plan.chance_in_time) < 0.05);
    worst = std::max(worst, std::fabs(seen - planned.plan.chance_in_time));
    sum += seen - planned.plan.chance_in_time;
    if (planned.plan.met && one.request.ready_at) {
      ++met;
      CHECK(planned.plan.chance_in_time > one.request.chance - 0.005);
    } else if (planned.plan.nearest) {
      // The nearest hour said instead has the wanted chance; after a night or a cut a better one.
      const double share = share_by(ready, *planned.plan.nearest);
      CHECK(share > one.request.chance - 0.05);
      const bool any_hour = !one.request.awake && one.request.power.empty();
      CHECK((!any_hour || share < one.request.chance + 0.05));
    }
  }
  MESSAGE("worst " << 100.0 * worst << " points, mean " << 100.0 * sum / drawn << ", " << met
                   << " of " << drawn << " wanted hours met");
}

}  // namespace

TEST_CASE("hands and oven do one thing at a time, and nothing begins before what it needs") {
  for (std::uint32_t i = 0; i < k_cases; ++i) {
    const Case one = random_case(i);
    CAPTURE(i);
    ForecastSetup setup =
        set_up_forecast(one.recipe, one.kitchen, pantry(), {1, 64, ForecastReach::rise});
    const DayPlan plan = plan_day(day_of(setup, run_forecast(setup).ensemble), one.request);
    REQUIRE(plan.problem.empty());
    REQUIRE(!plan.steps.empty());
    CHECK(one_after_another(plan.steps, &PlannedStep::hands));
    CHECK(one_after_another(plan.steps, &PlannedStep::oven));
    CHECK(all_after_what_they_need(plan.steps));
    for (const PlannedStep& step : plan.steps) {
      // A cut too short for the bake is said instead.
      const bool asks = step.hands || (step.oven && step.kind != TaskKind::heat_oven);
      CHECK_MESSAGE((!asks || !one.request.awake || !plan.why_not.empty() ||
                     within(*one.request.awake, step)),
                    step.name);
    }
    CHECK((!one.request.now || plan.begin >= *one.request.now - 0.01));
    CHECK((plan.met || plan.nearest || !plan.why_not.empty()));
    if (plan.met && one.request.ready_at) {
      CHECK(plan.steps.back().end <= *one.request.ready_at + 0.01);
    }
  }
}

TEST_CASE("so does every draw of a day") {
  for (std::uint32_t i = 0; i < k_cases; i += 25) {
    const Case one = random_case(i);
    const ForecastSetup setup =
        set_up_forecast(one.recipe, one.kitchen, pantry(), {1, 64, ForecastReach::rise});
    const Day day = day_of(setup, run_forecast(setup).ensemble);
    const PlannedDay planned = plan_day_by_rule(day, one.request);
    for (std::size_t draw = 0; draw < day.weight.size(); ++draw) {
      std::vector<double> minutes;
      for (const DayTask& task : day.tasks) {
        minutes.push_back(task.minutes[draw]);
      }
      const std::vector<TaskTimes> times = run_day(day.tasks, minutes, planned.orders);
      for (std::size_t a = 0; a < times.size(); ++a) {
        for (const std::size_t before : day.tasks[a].after) {
          CHECK(times[before].end <= times[a].start);
        }
        for (std::size_t b = 0; b < a; ++b) {
          const bool share = (day.tasks[a].hands && day.tasks[b].hands) ||
                             (day.tasks[a].oven && day.tasks[b].oven);
          CHECK((!share || times[a].end <= times[b].start || times[b].end <= times[a].start));
        }
      }
    }
  }
}

TEST_CASE("the stated chance to be ready in time holds within 5 points in draws not seen") {
  chance_holds(k_whole_every, k_usual_stride);
}

TEST_CASE("so it does with every case drawn through the bake" * doctest::skip()) {
  chance_holds(1, 1);
}
