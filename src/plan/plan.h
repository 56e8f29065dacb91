// plan: the day. Steps with their forecast lengths, backwards from the wanted hour or
// forwards from now; one oven, one pair of hands.
//
// A plan is a rule and a timetable. The rule: what needs nothing before it begins at its
// time on the clock; everything else begins as soon as what it needs is there and hands and
// oven are free. The timetable gives every step the time by which it is over at one level
// of probability, the same for all, chosen so that the whole is ready at the wanted hour
// with the wanted chance: a step whose length is uncertain gets the more of the slack. The
// chance is counted over the forecast's draws, each run through the day by that rule.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "forecast/forecast.h"
#include "plan/run_day.h"
#include "plan/task.h"

namespace maslin {

/// A step that is over or under way, by its name in an earlier plan. Minutes on the
/// kitchen's clock, since 1970-01-01T00:00 there.
struct DoneStep {
  std::string name;
  std::optional<double> started;
  std::optional<double> ended;
};

struct PlanRequest {
  std::optional<double> ready_at;  // none: as soon as can be, from now
  std::optional<double> now;       // nothing begins before; none: any time will do
  double chance = 0.9;             // wanted, of being ready in time; 0.5 to 0.99
  std::vector<DoneStep> done;
  std::optional<DailyHours> awake;  // when there are hands; none: always
  std::vector<DailyHours> power;    // when the oven has what heats it; none: always
};

enum class StepState : std::uint8_t { to_do, under_way, done };

struct PlannedStep {
  std::string name;
  std::string part;
  TaskKind kind = TaskKind::work;
  double start = 0.0;
  double end = 0.0;
  bool hands = false;
  bool oven = false;
  Band minutes;    // how long it takes
  Band starts_at;  // when it begins, in the draws
  Band ends_at;
  std::optional<Band> grown;       // of a prove: the ratio by the time it goes on
  double slack_minutes = 0.0;      // of end - start, beyond the middle length
  std::vector<std::string> after;  // what must be over
  std::string note;
  StepState state = StepState::to_do;
};

/// Another way through the day, and what it does.
struct PlanAlternative {
  std::string name;  // "overnight in the fridge"
  std::string does;  // one sentence
  double begin = 0.0;
  double ready = 0.0;  // with the wanted chance
  Band ready_at;
  double chance_in_time = 0.0;
  bool met = false;
  std::optional<Recipe> recipe;  // that says so, to go on with
};

struct DayPlan {
  std::string title;
  std::string problem;  // one sentence when there is no plan
  bool met = false;     // the wanted chance at the wanted hour
  std::optional<double> wanted_at;
  double chance_wanted = 0.9;
  double chance_in_time = 0.0;  // to be ready at wanted_at; without one, at `ready`
  double begin = 0.0;
  double ready = 0.0;             // the end of the timetable
  std::optional<double> nearest;  // the soonest hour with that chance, where it is not met
  std::string why_not;            // a sentence, where it is not met
  Band ready_at;
  std::vector<PlannedStep> steps;  // by their start
  std::vector<PlanAlternative> alternatives;
  std::vector<Doubt> assumed;
  std::uint32_t draws = 0;
  std::uint64_t seed = 0;
};

/// The plan of a day whose tasks and weights are given.
DayPlan plan_day(const Day& day, const PlanRequest& request);

/// A plan and the rule behind it, with which it can be held against other draws.
struct PlannedDay {
  DayPlan plan;
  DayOrders orders;
};
PlannedDay plan_day_by_rule(const Day& day, const PlanRequest& request);
/// When the last task is over in each draw of `day` by the rule.
std::vector<double> ready_times(const Day& day, const DayOrders& orders);

/// The document of `maslin plan --json` (docs/schema/plan.schema.json).
std::string plan_to_json(const DayPlan& plan);

}  // namespace maslin
