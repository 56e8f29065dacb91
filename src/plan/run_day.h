// A day as it goes: every task begins once what it needs is there and hands and oven are
// free. And the same backwards: as late as can be.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "plan/open_hours.h"
#include "plan/task.h"

namespace maslin {

/// Minutes on the kitchen's clock, since 1970-01-01T00:00 there.
struct TaskTimes {
  double start = 0.0;
  double end = 0.0;
};

/// What is done already, or under way.
struct TaskProgress {
  std::optional<double> started;
  std::optional<double> ended;
};

/// When there are hands, and when the oven can be used: it takes someone who is up as well.
struct DayHours {
  OpenHours awake;
  OpenHours oven;
};

/// What the baker goes by, one entry for each task.
struct DayOrders {
  /// Tasks that need nothing before them begin at this time; the others as soon as they can.
  std::vector<double> not_before;
  /// Of two that could begin together, the one with the smaller rank does.
  std::vector<double> rank;
  /// Minutes after the beginning of the prove at which the oven is put on, for such tasks.
  std::vector<double> lag;
  std::vector<TaskProgress> progress;
  DayHours hours;
  double now = 0.0;  // nothing begins before; tasks under way end at the earliest now
};

/// One draw's day: no two tasks at once that take hands, or the oven.
std::vector<TaskTimes> run_day(const std::vector<DayTask>& tasks, std::span<const double> minutes,
                               const DayOrders& orders);

/// The latest beginnings with which everything not yet done is over at `end`.
std::vector<TaskTimes> latest_day(const std::vector<DayTask>& tasks,
                                  std::span<const double> minutes,
                                  const std::vector<TaskProgress>& progress, const DayHours& hours,
                                  double end);

/// The end of the task that is over last.
double last_end(const std::vector<TaskTimes>& times);

/// Start and end of every task in every draw: [task][draw].
struct DrawnTimes {
  std::vector<std::vector<double>> start;
  std::vector<std::vector<double>> end;
  std::vector<double> ready;
};
DrawnTimes drawn_times(const Day& day, const DayOrders& orders);

}  // namespace maslin
