// What a risen dough does while it waits for hands or the oven: it goes on rising.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plan/plan.h"
#include "plan/run_day.h"

namespace maslin {

/// Of a prove: how long it stands beyond its target before it goes on, and what it has grown
/// to by then; nothing for other tasks.
struct Waiting {
  std::optional<Band> minutes;
  std::optional<Band> ratio;
  bool too_far = false;
  double share_spoilt = 0.0;           // of the draws: hours of waiting, and too far grown
  std::optional<Band> spoilt_minutes;  // of those
  std::optional<Band> spoilt_ratio;
};

/// One entry a task.
std::vector<Waiting> waiting_of(const Day& day, const DrawnTimes& drawn);

/// Puts the ratio, and what to do where it is too much, into the prove's step.
void say_waiting(PlannedStep& step, const DayTask& task, const Waiting& waiting);

/// The sentence where a wait of hours through a night or a cut makes a dough of no use in more
/// draws than may fail at that chance, or where the oven is never on so long; else empty.
std::string spoiling_wait(const Day& day, const std::vector<Waiting>& waits, const DayHours& hours,
                          double chance);

}  // namespace maslin
