#include "plan/alternatives.h"
namespace maslin {
std::vector<PlanAlternative> plan_alternatives(const PlannedForecast&, const PlanRequest&,
                                               const DayPlan&) {
  return {};
}
}  // namespace maslin
