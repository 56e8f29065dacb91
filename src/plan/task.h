// The things to do on a baking day: what each needs before it, whether it takes hands or
// the oven, and how long it lasts in every draw of the forecast.
#pragma once

#include <cstdint>
#include <limits>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "forecast/ensemble.h"
#include "forecast/forecast.h"

namespace maslin {

enum class TaskKind : std::uint8_t {
  prepare,  // a part made beside the dough
  mix,
  knead,
  work,  // fold, divide, shape, fill, wash
  prove,
  stand,  // rest, soak, ripen, a filling that cools
  heat_oven,
  bake,
  cool,
  finish
};
std::string_view task_kind_name(TaskKind kind);

struct DayTask {
  std::string name;  // unique in the day
  std::string part;  // of the recipe; empty for the oven
  TaskKind kind = TaskKind::work;
  bool hands = false;              // both, all the time
  bool oven = false;               // all of it
  bool beside = false;             // not on the dough's own way
  std::vector<std::size_t> after;  // tasks that must have ended
  std::vector<double> minutes;     // one for each draw; k_never where it does not come about
  /// Of heating the oven: the prove during which it begins, once the middle of the quicker
  /// draws leaves just time enough.
  std::optional<std::size_t> during;
  /// Begins at the earliest so many minutes after that task does: a later load's shaping.
  std::optional<std::size_t> follows;
  double follows_minutes = 0.0;
  /// The task on the dough that follows in one go: what is mixed is kneaded before bedtime.
  std::optional<std::size_t> straight_on;
  double lead_minutes = 0.0;         // of baking: what the oven needs ahead of it, in one go
  std::optional<std::size_t> prove;  // index in the schedule's proves
  /// Of a prove: how it grows, the ratio it is to reach, and the task up to which it goes on
  /// growing; without one, up to the first that comes after it.
  std::shared_ptr<const Trace> growth;
  double wanted_ratio = 0.0;
  std::optional<std::size_t> grows_until;
  std::string note;
};

/// Longer than any plan: a dough that does not rise so far.
inline constexpr double k_never = std::numeric_limits<double>::infinity();

struct Day {
  std::vector<DayTask> tasks;  // every task after those it needs
  std::vector<double> weight;  // of the draws
  std::vector<Doubt> assumed;  // what the recipe does not say
};

/// The day of a recipe from its forecast; the ensemble's weights are taken as they are.
/// Hands and oven have lengths of their own, drawn with the setup's seed.
Day day_of(const ForecastSetup& setup, const Ensemble& ensemble);

}  // namespace maslin
