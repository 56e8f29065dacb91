// The search for the orders of a day: how much slack, and when to begin. Private to the folder.
#pragma once

#include <vector>

#include "plan/plan.h"
#include "plan/run_day.h"

namespace maslin {

/// Minutes too short to matter.
inline constexpr double k_moment = 1e-6;
/// In what steps another hour is looked for.
inline constexpr double k_step_minutes = 30.0;

/// The oven takes someone who is up and, where it is by wire, the mains.
DayHours hours_of(const PlanRequest& request);

/// The share of the draws in which everything comes about at all.
double share_finite(const Day& day);

class DayPlanner {
 public:
  DayPlanner(const Day* day_in, const PlanRequest& request);

  /// Ready at `ready` with the wanted chance, if any level of slack does it.
  bool fit(double ready);

  /// The soonest hour that is ready with the wanted chance when one begins now.
  double soonest();

  /// The timetable of the orders now held. Where hands are short the orders leave no room for every
  /// length at one level: the timetable then takes the level with which the last step is over at
  /// `ready`.
  std::vector<TaskTimes> timetable(double ready) const;
  /// The dough stays short of its target in so many draws that the wanted chance cannot be had.
  bool may_fail() const { return may_fail_; }
  const DayOrders& orders() const { return orders_; }
  double level() const { return level_; }

 private:
  /// Orders under which all lengths at `level` end at `ready`.
  void anchor(double level, double ready);

  double end_from_now(double level);

  /// The oven goes on so that it is hot for the quicker fifth of the proves.
  void set_lags();

  const Day* day_at_;  // a planner can be taken for another
  DayOrders orders_;
  std::vector<double> lengths_;
  double level_of_all_ = 0.9;
  bool may_fail_ = false;
  double level_ = 0.9;
};

}  // namespace maslin
