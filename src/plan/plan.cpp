#include "plan/plan.h"

#include <algorithm>
#include <cmath>

#include "plan/day_planner.h"
#include "plan/waiting.h"

namespace maslin {
namespace {

/// How long before bedtime at most all has to be over.
constexpr double k_longest_evening = 180.0;

/// A timetable with what its doughs do while they wait.
struct Tried {
  std::vector<TaskTimes> times;
  DrawnTimes drawn;
  std::vector<Waiting> waits;
  std::string spoils;
};

Tried tried(const Day& day, const DayPlanner& planner, double ready, double chance) {
  Tried out;
  out.times = planner.timetable(ready);
  out.drawn = drawn_times(day, planner.orders());
  out.waits = waiting_of(day, out.drawn);
  out.spoils = spoiling_wait(day, out.waits, planner.orders().hours, chance);
  return out;
}

/// Where a dough would over-prove through the night: all of it the evening before the hour or,
/// without an hour, from the morning on. What was tried stays where neither goes.
Tried around_the_night(const Day& day, const PlanRequest& request, DayPlanner& planner,
                       DayPlan& plan, Tried made) {
  const OpenHours awake = planner.orders().hours.awake;
  if (request.ready_at && plan.met) {
    const DayPlanner before = planner;
    const double bed = awake.last_close(*request.ready_at);
    for (double sooner = 0.0; sooner <= k_longest_evening; sooner += k_step_minutes) {
      if (!planner.fit(bed - sooner)) {
        continue;
      }
      Tried evening = tried(day, planner, bed - sooner, request.chance);
      if (evening.spoils.empty()) {
        plan.ready = bed - sooner;
        plan.assumed.push_back({"the night",
                                "the dough would have to wait through it and grow too "
                                "far: all is done before it"});
        return evening;
      }
    }
    planner = before;
  } else if (request.now && request.done.empty()) {
    PlanRequest later = request;
    later.now = awake.next_open(*request.now);
    DayPlanner morning(&day, later);
    const double ready = morning.soonest();
    Tried next = tried(day, morning, ready, request.chance);
    if (next.spoils.empty()) {
      planner = morning;
      plan.ready = ready;
      plan.nearest = request.ready_at ? std::optional(ready) : std::nullopt;
      plan.assumed.push_back({"the night",
                              "begun now the dough would have to wait through it and "
                              "grow too far: it is begun after it"});
      return next;
    }
  }
  return made;
}

double share_by(const std::vector<double>& ready, const std::vector<double>& weight, double hour) {
  double in_time = 0.0;
  double all = 0.0;
  for (std::size_t i = 0; i < ready.size(); ++i) {
    in_time += ready[i] <= hour + k_moment ? weight[i] : 0.0;
    all += weight[i];
  }
  return all > 0.0 ? in_time / all : 0.0;
}

StepState state_of(const TaskProgress& progress) {
  return progress.ended     ? StepState::done
         : progress.started ? StepState::under_way
                            : StepState::to_do;
}

/// The oven, once hot, is kept so until something goes in.
void keep_oven_hot(const Day& day, std::vector<TaskTimes>& times) {
  for (std::size_t i = 0; i < day.tasks.size(); ++i) {
    if (day.tasks[i].kind != TaskKind::heat_oven) {
      continue;
    }
    double kept = times[i].end;
    for (std::size_t j = 0; j < day.tasks.size(); ++j) {
      const auto& after = day.tasks[j].after;
      if (std::find(after.begin(), after.end(), i) != after.end()) {
        kept = std::max(kept, times[j].start);
      }
    }
    // A topping or a filling that is baked by itself may come between.
    for (std::size_t j = 0; j < day.tasks.size(); ++j) {
      if (j != i && day.tasks[j].oven && times[j].start >= times[i].end) {
        kept = std::min(kept, times[j].start);
      }
    }
    times[i].end = kept;
  }
}

PlannedStep step_of(const Day& day, std::size_t i, const TaskTimes& times, const DrawnTimes& drawn,
                    const TaskProgress& progress) {
  const DayTask& task = day.tasks[i];
  PlannedStep out;
  out.name = task.name;
  out.part = task.part;
  out.kind = task.kind;
  out.start = times.start;
  out.end = times.end;
  out.hands = task.hands;
  out.oven = task.oven;
  out.minutes = band_of(task.minutes, day.weight);
  out.starts_at = band_of(drawn.start[i], day.weight);
  out.ends_at = band_of(drawn.end[i], day.weight);
  out.slack_minutes = std::isfinite(out.minutes.p50)
                          ? std::max(times.end - times.start - out.minutes.p50, 0.0)
                          : 0.0;
  out.note = task.note;
  out.state = state_of(progress);
  for (const std::size_t before : task.after) {
    out.after.push_back(day.tasks[before].name);
  }
  if (task.during) {
    out.slack_minutes = 0.0;
  }
  return out;
}

std::string unknown_step(const Day& day, const PlanRequest& request) {
  for (const DoneStep& done : request.done) {
    const bool known = std::any_of(day.tasks.begin(), day.tasks.end(),
                                   [&](const DayTask& one) { return one.name == done.name; });
    if (!known) {
      return "This day has no step named \"" + done.name + "\"; use a step's name as the plan " +
             "gives it.";
    }
    if (done.started && done.ended && *done.ended < *done.started) {
      return "\"" + done.name + "\" ends before it begins; change one of the two times.";
    }
  }
  return {};
}

}  // namespace

std::vector<double> ready_times(const Day& day, const DayOrders& orders) {
  std::vector<double> out;
  std::vector<double> minutes(day.tasks.size());
  for (std::size_t draw = 0; draw < day.weight.size(); ++draw) {
    for (std::size_t i = 0; i < minutes.size(); ++i) {
      minutes[i] = day.tasks[i].minutes[draw];
    }
    out.push_back(last_end(run_day(day.tasks, minutes, orders)));
  }
  return out;
}

PlannedDay plan_day_by_rule(const Day& day, const PlanRequest& request) {
  PlannedDay out;
  DayPlan& plan = out.plan;
  plan.wanted_at = request.ready_at;
  plan.chance_wanted = request.chance;
  plan.assumed = day.assumed;
  plan.draws = static_cast<std::uint32_t>(day.weight.size());
  plan.problem =
      day.tasks.empty() ? "There is nothing to do in this recipe."
      : hours_of(request).oven.never()
          ? "The oven has no power in the hours when someone is up; change one of the two."
          : unknown_step(day, request);
  if (!plan.problem.empty()) {
    return out;
  }
  DayPlanner planner(&day, request);
  const double comes_about = share_finite(day);
  plan.met = request.ready_at && planner.fit(*request.ready_at);
  plan.ready = request.ready_at.value_or(0.0);
  if (!plan.met && request.now) {
    plan.ready = planner.soonest();
    plan.nearest = request.ready_at ? std::optional(plan.ready) : std::nullopt;
    plan.met = !request.ready_at;
  }
  if (!plan.met && !request.now) {
    plan.why_not = "No day was found that has it ready then, in the hours when it can be made.";
  }
  Tried made = tried(day, planner, plan.ready, request.chance);
  if (!made.spoils.empty()) {
    made = around_the_night(day, request, planner, plan, std::move(made));
  }
  std::vector<TaskTimes>& times = made.times;
  const DrawnTimes& drawn = made.drawn;
  plan.ready_at = band_of(drawn.ready, day.weight);
  plan.chance_in_time = share_by(drawn.ready, day.weight, request.ready_at.value_or(plan.ready));
  if (planner.may_fail()) {
    plan.met = false;
    plan.why_not = "The dough may not rise so far: it does in " +
                   std::to_string(std::lround(100.0 * comes_about)) + " of 100 draws.";
  }
  keep_oven_hot(day, times);
  if (!made.spoils.empty()) {
    plan.met = false;
    plan.why_not = made.spoils;
  }
  plan.begin = times.front().start;
  for (std::size_t i = 0; i < day.tasks.size(); ++i) {
    plan.begin = std::min(plan.begin, times[i].start);
    plan.steps.push_back(step_of(day, i, times[i], drawn, planner.orders().progress[i]));
    say_waiting(plan.steps.back(), day.tasks[i], made.waits[i]);
  }
  std::stable_sort(plan.steps.begin(), plan.steps.end(),
                   [](const PlannedStep& a, const PlannedStep& b) { return a.start < b.start; });
  out.orders = planner.orders();
  return out;
}

DayPlan plan_day(const Day& day, const PlanRequest& request) {
  return plan_day_by_rule(day, request).plan;
}

}  // namespace maslin
