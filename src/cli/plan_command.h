// The command that plans the day.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "cli/commands.h"

namespace CLI {
class App;
}

namespace maslin {

struct PlanOptions {
  std::string ready_at;           // a time on the kitchen's clock; empty: from `now` on
  std::string now;                // the same; empty: any time will do, or the machine's clock
  std::string awake;              // hours of the day with hands; empty: the kitchen's, or 6-23
  double chance = 0.9;            // wanted, of being ready in time
  std::vector<std::string> done;  // "first prove=14:10", "knead=13:00-13:12", "first prove=14:10-"
  std::string as = "text";        // text or ics
};

/// Adds `plan` to the program; `run` is called with what was asked.
void add_plan_command(
    CLI::App& program, const std::function<void(CLI::App*)>& add_common,
    const std::function<void(const PlanOptions&, const std::vector<std::string>&)>& run);

int plan_command(const std::vector<std::string>& files, const PlanOptions& plan,
                 const CommonOptions& options);

}  // namespace maslin
