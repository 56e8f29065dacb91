#include "plan/day_planner.h"

#include <algorithm>
#include <cmath>

namespace maslin {
namespace {

constexpr double k_lowest_level = 0.2;
constexpr double k_highest_level = 0.995;
/// What is made beside the dough is ready before it is needed at least so often.
constexpr double k_beside_level = 0.9;
constexpr int k_halvings = 14;
/// A chance this near to that of rising at all asks for endless waiting.
constexpr double k_nearly = 0.97;
/// How far ahead of the hour all may have to be over.
constexpr double k_longest_step_back = 1440.0;
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

}  // namespace

DayHours hours_of(const PlanRequest& request) {
  DayHours out;
  out.awake = request.awake ? OpenHours({*request.awake}) : OpenHours();
  out.oven = out.awake.with(OpenHours(request.power));
  return out;
}

double share_finite(const Day& day) {
  double out = 0.0;
  for (std::size_t i = 0; i < day.weight.size(); ++i) {
    const bool all = std::all_of(day.tasks.begin(), day.tasks.end(),
                                 [i](const DayTask& one) { return std::isfinite(one.minutes[i]); });
    out += all ? day.weight[i] : 0.0;
  }
  return out;
}

DayPlanner::DayPlanner(const Day* day_in, const PlanRequest& request) : day_at_(day_in) {
  const Day& day = *day_in;
  orders_.now = request.now.value_or(k_any_time);
  orders_.hours = hours_of(request);
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

bool DayPlanner::fit(double ready) {
  const auto lateness = [&](double level, double aim) {
    anchor(level, aim);
    return quantile_weighed(ready_times(*day_at_, orders_), day_at_->weight, level_of_all_) - ready;
  };
  const double least = lateness(k_highest_level, ready);
  if (least > k_moment) {
    // Hands that are wanted twice at once can delay more than any slack in the lengths:
    // then everything begins the earlier.
    if (orders_.hours.awake.always() && orders_.hours.oven.always()) {
      return lateness(k_highest_level, ready - least) <= k_moment;
    }
    // Over a night or a cut it may be hours.
    for (double sooner = k_step_minutes; sooner <= k_longest_step_back; sooner += k_step_minutes) {
      if (lateness(k_highest_level, ready - sooner) <= k_moment) {
        return true;
      }
    }
    return false;
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

double DayPlanner::soonest() {
  double low = k_lowest_level;
  double high = k_highest_level;
  double ready = 0.0;
  for (int i = 0; i < k_halvings; ++i) {
    const double middle = 0.5 * (low + high);
    ready = end_from_now(middle);
    anchor(middle, ready);
    const bool late = quantile_weighed(ready_times(*day_at_, orders_), day_at_->weight,
                                       level_of_all_) > ready + k_moment;
    (late ? low : high) = middle;
  }
  ready = end_from_now(high);
  anchor(high, ready);
  return ready;
}

std::vector<TaskTimes> DayPlanner::timetable(double ready) const {
  const auto at = [this](double level) {
    return run_day(day_at_->tasks, lengths_at(*day_at_, level, level), orders_);
  };
  std::vector<TaskTimes> out = run_day(day_at_->tasks, lengths_, orders_);
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

void DayPlanner::anchor(double level, double ready) {
  level_ = level;
  lengths_ = lengths_at(*day_at_, level, std::max(level, k_beside_level));
  const std::vector<TaskTimes> latest =
      latest_day(day_at_->tasks, lengths_, orders_.progress, orders_.hours, ready);
  orders_.not_before.clear();
  orders_.rank.clear();
  for (const TaskTimes& one : latest) {
    orders_.not_before.push_back(std::max(one.start, orders_.now));
    orders_.rank.push_back(one.start);
  }
}

double DayPlanner::end_from_now(double level) {
  lengths_ = lengths_at(*day_at_, level, std::max(level, k_beside_level));
  const std::vector<TaskTimes> latest =
      latest_day(day_at_->tasks, lengths_, orders_.progress, {}, 0.0);
  orders_.not_before.assign(day_at_->tasks.size(), orders_.now);
  orders_.rank.clear();
  for (const TaskTimes& one : latest) {
    orders_.rank.push_back(one.start);
  }
  return last_end(run_day(day_at_->tasks, lengths_, orders_));
}

void DayPlanner::set_lags() {
  for (const DayTask& task : day_at_->tasks) {
    double lag = 0.0;
    if (task.during) {
      lag = quantile_of(day_at_->tasks[*task.during].minutes, day_at_->weight, 0.2) -
            quantile_of(task.minutes, day_at_->weight, 0.8);
    }
    orders_.lag.push_back(std::isfinite(lag) ? std::max(lag, 0.0) : 0.0);
  }
}

}  // namespace maslin
