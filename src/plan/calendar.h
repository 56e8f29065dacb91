// A plan as a calendar: one event for each step.
#pragma once

#include <string>

#include "plan/plan.h"

namespace maslin {

/// iCalendar text (RFC 5545): floating times, that is, on whatever clock hangs in the
/// kitchen; lines folded at 75 octets and ended by CR LF. A step that takes hands has a
/// reminder at its start. Steps that are done are left out.
std::string plan_to_calendar(const DayPlan& plan);

}  // namespace maslin
