// The things to do on a baking day: what each needs before it, whether it takes hands or
// the oven, and how long it lasts in every draw of the forecast.
#pragma once

#include <cstdint>
#include <limits>
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
  std::optional<std::size_t> prove;  // index in the schedule's proves
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
