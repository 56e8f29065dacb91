#include "plan/plan.h"

#include <algorithm>
#include <cmath>

namespace maslin {
namespace {

constexpr double k_lowest_level = 0.2;
constexpr double k_highest_level = 0.995;
/// What is made beside the dough is ready before it is needed at least so often.
constexpr double k_beside_level = 0.9;
constexpr int k_halvings = 14;
/// Minutes too short to matter.
constexpr double k_moment = 1e-6;
/// A chance this near to that of rising at all asks for endless waiting.
constexpr double k_nearly = 0.97;
/// A time before all planning: no "now" was given.
constexpr double k_any_time = -1e11;

/// A quantile over the draws in which the thing comes about at all: a dough that never
/// gets there in some draws is planned by those in which it does.
double finite_quantile(const std::vector<double>& minutes, const std::vector<double>& weight,
                       double level) {
  std::vector<double> value;
  std::vector<double> share;
  for (std::size_t i = 0; i < minutes.size(); ++i) {
    if (std::isfinite(minutes[i]) && weight[i] > 0.0) {
      value.push_back(minutes[i]);
      share.push_back(weight[i]);
    }
  }
  return quantile_of(value, share, level);
}

/// Draws that observations have ruled out lend no value to their neighbours.
double quantile_weighed(const std::vector<double>& values, const std::vector<double>& weight,
                        double level) {
  std::vector<double> value;
  std::vector<double> share;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (weight[i] > 0.0) {
      value.push_back(values[i]);
      share.push_back(weight[i]);
    }
  }
  return quantile_of(value, share, level);
}

/// The lengths of all tasks at one level of probability, and another for those beside.
std::vector<double> lengths_at(const Day& day, double level, double beside_level) {
  std::vector<double> out;
  for (const DayTask& task : day.tasks) {
    const double own = task.beside ? beside_level : level;
    out.push_back(finite_quantile(task.minutes, day.weight, own));
  }
  return out;
}

double last_end(const std::vector<TaskTimes>& times) {
  double out = times.front().end;
  for (const TaskTimes& one : times) {
    out = std::max(out, one.end);
  }
  return out;
}

/// The share of the draws in which everything comes about at all.
double share_finite(const Day& day) {
  double out = 0.0;
  for (std::size_t i = 0; i < day.weight.size(); ++i) {
    const bool all = std::all_of(day.tasks.begin(), day.tasks.end(),
                                 [i](const DayTask& one) { return std::isfinite(one.minutes[i]); });
    out += all ? day.weight[i] : 0.0;
  }
  return out;
}

class DayPlanner {
 public:
  DayPlanner(const Day& day, const PlanRequest& request) : day_(day) {
    orders_.now = request.now.value_or(k_any_time);
    orders_.progress.assign(day.tasks.size(), {});
    for (const DoneStep& done : request.done) {
      for (std::size_t i = 0; i < day.tasks.size(); ++i) {
        if (day.tasks[i].name == done.name) {
          orders_.progress[i] = {done.started, done.ended};
        }
      }
    }
    set_lags();
    const double comes_about = share_finite(day);
    may_fail_ = request.chance > k_nearly * comes_about;
    level_of_all_ = request.chance * (may_fail_ ? comes_about : 1.0);
  }

  /// Ready at `ready` with the wanted chance, if any level of slack does it.
  bool fit(double ready) {
    const auto lateness = [&](double level, double aim) {
      anchor(level, aim);
      return quantile_weighed(ready_times(day_, orders_), day_.weight, level_of_all_) - ready;
    };
    const double least = lateness(k_highest_level, ready);
    if (least > k_moment) {
      // Hands that are wanted twice at once can delay more than any slack in the lengths:
      // then everything begins the earlier.
      return lateness(k_highest_level, ready - least) <= k_moment;
    }
    double low = k_lowest_level;
    double high = k_highest_level;
    for (int i = 0; i < k_halvings; ++i) {
      const double middle = 0.5 * (low + high);
      (lateness(middle, ready) > k_moment ? low : high) = middle;
    }
    anchor(high, ready);
    return true;
  }

  /// The soonest hour that is ready with the wanted chance when one begins now.
  double soonest() {
    double low = k_lowest_level;
    double high = k_highest_level;
    double ready = 0.0;
    for (int i = 0; i < k_halvings; ++i) {
      const double middle = 0.5 * (low + high);
      ready = end_from_now(middle);
      anchor(middle, ready);
      const bool late = quantile_weighed(ready_times(day_, orders_), day_.weight, level_of_all_) >
                        ready + k_moment;
      (late ? low : high) = middle;
    }
    ready = end_from_now(high);
    anchor(high, ready);
    return ready;
  }

  /// The timetable of the orders now held.
  /// Where hands are short the orders leave no room for every length at one level: the
  /// timetable then takes the level with which the last step is over at `ready`.
  std::vector<TaskTimes> timetable(double ready) const {
    const auto at = [this](double level) {
      return run_day(day_.tasks, lengths_at(day_, level, level), orders_);
    };
    std::vector<TaskTimes> out = run_day(day_.tasks, lengths_, orders_);
    double low = 0.0;
    double high = level_;
    for (int i = 0; i < k_halvings && last_end(out) > ready + k_moment; ++i) {
      const double middle = 0.5 * (low + high);
      std::vector<TaskTimes> times = at(middle);
      const bool late = last_end(times) > ready + k_moment;
      (late ? high : low) = middle;
      if (i + 1 == k_halvings) {
        out = at(low);
      }
    }
    return out;
  }
  /// The dough stays short of its target in so many draws that the wanted chance cannot be had.
  bool may_fail() const { return may_fail_; }
  const DayOrders& orders() const { return orders_; }
  double level() const { return level_; }

 private:
  /// Orders under which all lengths at `level` end at `ready`.
  void anchor(double level, double ready) {
    level_ = level;
    lengths_ = lengths_at(day_, level, std::max(level, k_beside_level));
    const std::vector<TaskTimes> latest = latest_day(day_.tasks, lengths_, orders_.progress, ready);
    orders_.not_before.clear();
    orders_.rank.clear();
    for (const TaskTimes& one : latest) {
      orders_.not_before.push_back(std::max(one.start, orders_.now));
      orders_.rank.push_back(one.start);
    }
  }

  double end_from_now(double level) {
    lengths_ = lengths_at(day_, level, std::max(level, k_beside_level));
    const std::vector<TaskTimes> latest = latest_day(day_.tasks, lengths_, orders_.progress, 0.0);
    orders_.not_before.assign(day_.tasks.size(), orders_.now);
    orders_.rank.clear();
    for (const TaskTimes& one : latest) {
      orders_.rank.push_back(one.start);
    }
    return last_end(run_day(day_.tasks, lengths_, orders_));
  }

  /// The oven goes on so that it is hot for the quicker fifth of the proves.
  void set_lags() {
    for (const DayTask& task : day_.tasks) {
      double lag = 0.0;
      if (task.during) {
        lag = quantile_of(day_.tasks[*task.during].minutes, day_.weight, 0.2) -
              quantile_of(task.minutes, day_.weight, 0.8);
      }
      orders_.lag.push_back(std::isfinite(lag) ? std::max(lag, 0.0) : 0.0);
    }
  }

  const Day& day_;
  DayOrders orders_;
  std::vector<double> lengths_;
  double level_of_all_ = 0.9;
  bool may_fail_ = false;
  double level_ = 0.9;
};

/// Start and end of every task in every draw: [task][draw].
struct DrawnTimes {
  std::vector<std::vector<double>> start;
  std::vector<std::vector<double>> end;
  std::vector<double> ready;
};

DrawnTimes drawn_times(const Day& day, const DayOrders& orders) {
  DrawnTimes out;
  const std::size_t n = day.tasks.size();
  out.start.assign(n, {});
  out.end.assign(n, {});
  std::vector<double> minutes(n);
  for (std::size_t draw = 0; draw < day.weight.size(); ++draw) {
    for (std::size_t i = 0; i < n; ++i) {
      minutes[i] = day.tasks[i].minutes[draw];
    }
    const std::vector<TaskTimes> times = run_day(day.tasks, minutes, orders);
    for (std::size_t i = 0; i < n; ++i) {
      out.start[i].push_back(times[i].start);
      out.end[i].push_back(times[i].end);
    }
    out.ready.push_back(last_end(times));
  }
  return out;
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
    for (std::size_t j = 0; j < day.tasks.size(); ++j) {
      const auto& after = day.tasks[j].after;
      if (std::find(after.begin(), after.end(), i) != after.end()) {
        times[i].end = std::max(times[i].end, times[j].start);
      }
    }
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
      day.tasks.empty() ? "There is nothing to do in this recipe." : unknown_step(day, request);
  if (!plan.problem.empty()) {
    return out;
  }
  DayPlanner planner(day, request);
  const double comes_about = share_finite(day);
  plan.met = request.ready_at && planner.fit(*request.ready_at);
  plan.ready = request.ready_at.value_or(0.0);
  if (!plan.met && request.now) {
    plan.ready = planner.soonest();
    plan.nearest = request.ready_at ? std::optional(plan.ready) : std::nullopt;
    plan.met = !request.ready_at;
  }
  std::vector<TaskTimes> times = planner.timetable(plan.ready);
  const DrawnTimes drawn = drawn_times(day, planner.orders());
  plan.ready_at = band_of(drawn.ready, day.weight);
  plan.chance_in_time = share_by(drawn.ready, day.weight, request.ready_at.value_or(plan.ready));
  if (planner.may_fail()) {
    plan.met = false;
    plan.why_not = "The dough may not rise so far: it does in " +
                   std::to_string(std::lround(100.0 * comes_about)) + " of 100 draws.";
  }
  keep_oven_hot(day, times);
  plan.begin = times.front().start;
  for (std::size_t i = 0; i < day.tasks.size(); ++i) {
    plan.begin = std::min(plan.begin, times[i].start);
    plan.steps.push_back(step_of(day, i, times[i], drawn, planner.orders().progress[i]));
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
