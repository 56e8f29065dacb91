// A plan in lines to read: the hour, the day as a small picture, the steps.
#pragma once

#include <string>

#include "plan/plan.h"

namespace maslin {

/// At most 100 columns wide, no terminal colours.
std::string plan_text(const DayPlan& plan);

}  // namespace maslin
