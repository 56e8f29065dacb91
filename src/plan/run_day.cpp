#include "plan/run_day.h"

#include <algorithm>

namespace maslin {
namespace {

constexpr double k_long_ago = -1e12;

/// Lays the tasks out one after another, the earliest first.
class Layout {
 public:
  Layout(const std::vector<DayTask>& tasks, std::span<const double> minutes,
         const DayOrders& orders, bool backwards = false)
      : tasks_(tasks),
        minutes_(minutes),
        orders_(orders),
        backwards_(backwards),
        out_(tasks.size()) {
    placed_.assign(tasks.size(), false);
  }

  std::vector<TaskTimes> run() {
    std::size_t left = tasks_.size();
    for (std::size_t i = 0; i < tasks_.size(); ++i) {
      left -= place_known(i) ? 1U : 0U;
    }
    for (; left > 0; --left) {
      const std::size_t next = earliest();
      const double start = can_begin(next);
      place(next, start, start + minutes_[next]);
    }
    return std::move(out_);
  }

 private:
  /// What is done or under way is where it is.
  bool place_known(std::size_t i) {
    const TaskProgress& known = orders_.progress[i];
    if (!known.started && !known.ended) {
      return false;
    }
    const double start = known.started.value_or(*known.ended);
    const double end = known.ended.value_or(std::max(start + minutes_[i], orders_.now));
    place(i, start, end);
    return true;
  }

  void place(std::size_t i, double start, double end) {
    out_[i] = {start, end};
    placed_[i] = true;
    if (tasks_[i].hands) {
      hands_free_ = std::max(hands_free_, end);
    }
    if (tasks_[i].oven) {
      oven_free_ = std::max(oven_free_, end);
    }
  }

  bool ready(std::size_t i) const {
    const DayTask& task = tasks_[i];
    return std::all_of(task.after.begin(), task.after.end(),
                       [this](std::size_t one) { return placed_[one]; }) &&
           (!task.during || placed_[*task.during]) && (!task.follows || placed_[*task.follows]);
  }

  double can_begin(std::size_t i) const {
    const DayTask& task = tasks_[i];
    double start = std::max(
        orders_.now, task.after.empty() && !task.during ? orders_.not_before[i] : k_long_ago);
    for (const std::size_t one : task.after) {
      start = std::max(start, out_[one].end);
    }
    if (task.during) {
      start = std::max(start, out_[*task.during].start + orders_.lag[i]);
    }
    if (task.follows) {
      start = std::max(start, out_[*task.follows].start + task.follows_minutes);
    }
    if (task.hands) {
      start = std::max(start, hands_free_);
      return orders_.hours.awake.fit(start, 0.0, minutes_[i], minutes_straight_on(task));
    }
    if (task.oven) {
      start = std::max(start, oven_free_);
      const double lead = task.lead_minutes;
      return orders_.hours.oven.fit(start, backwards_ ? 0.0 : lead, minutes_[i],
                                    backwards_ ? lead : 0.0);
    }
    return start;
  }

  /// What comes after a task in the same stretch of hours.
  double minutes_straight_on(const DayTask& task) const {
    double out = 0.0;
    for (auto one = task.straight_on; one && !placed_[*one]; one = tasks_[*one].straight_on) {
      out += minutes_[*one];
    }
    return out;
  }

  /// Whatever is placed later begins no earlier, so that no gap is left that would do.
  std::size_t earliest() const {
    std::size_t best = tasks_.size();
    double best_start = 0.0;
    for (std::size_t i = 0; i < tasks_.size(); ++i) {
      if (placed_[i] || !ready(i)) {
        continue;
      }
      const double start = can_begin(i);
      const bool sooner = best == tasks_.size() || start < best_start ||
                          (start == best_start && orders_.rank[i] < orders_.rank[best]);
      if (sooner) {
        best = i;
        best_start = start;
      }
    }
    return best;
  }

  const std::vector<DayTask>& tasks_;
  std::span<const double> minutes_;
  const DayOrders& orders_;
  bool backwards_ = false;
  std::vector<TaskTimes> out_;
  std::vector<bool> placed_;
  double hands_free_ = k_long_ago;
  double oven_free_ = k_long_ago;
};

}  // namespace

std::vector<TaskTimes> run_day(const std::vector<DayTask>& tasks, std::span<const double> minutes,
                               const DayOrders& orders) {
  return Layout(tasks, minutes, orders).run();
}

std::vector<TaskTimes> latest_day(const std::vector<DayTask>& tasks,
                                  std::span<const double> minutes,
                                  const std::vector<TaskProgress>& progress, const DayHours& hours,
                                  double end) {
  // The day in a mirror: what needs a task comes before it, and time runs from the end.
  const std::size_t n = tasks.size();
  std::vector<DayTask> mirror(n);
  DayOrders orders;
  orders.not_before.assign(n, 0.0);
  orders.lag.assign(n, 0.0);
  orders.progress.assign(n, {});
  orders.hours = {hours.awake.mirrored(end), hours.oven.mirrored(end)};
  for (std::size_t i = 0; i < n; ++i) {
    mirror[i].hands = tasks[i].hands;
    mirror[i].oven = tasks[i].oven;
    mirror[i].lead_minutes = tasks[i].lead_minutes;
    // The dough's own way keeps the place next to the end; what is beside it gives way.
    orders.rank.push_back((tasks[i].beside ? 0.0 : -1.0) - static_cast<double>(i) * 1e-6);
    if (progress[i].started || progress[i].ended) {
      orders.progress[i] = {0.0, 0.0};
    }
    for (const std::size_t before : tasks[i].after) {
      mirror[before].after.push_back(i);
    }
    if (tasks[i].straight_on) {
      mirror[*tasks[i].straight_on].straight_on = i;
    }
  }
  std::vector<TaskTimes> out = Layout(mirror, minutes, orders, true).run();
  for (TaskTimes& one : out) {
    one = {end - one.end, end - one.start};
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

}  // namespace maslin
