#include "plan/task.h"

#include "plan/day_builder.h"

namespace maslin {

std::string_view task_kind_name(TaskKind kind) {
  constexpr std::string_view k_names[] = {"prepare", "mix",       "knead", "work", "prove",
                                          "stand",   "heat_oven", "bake",  "cool", "finish"};
  return k_names[static_cast<std::size_t>(kind)];
}

Day day_of(const ForecastSetup& setup, const Ensemble& ensemble) {
  return DayBuilder(setup, ensemble).build();
}

}  // namespace maslin
