#pragma once

#include <functional>

#include "cli/commands.h"
#include "cli/keeping_commands.h"

namespace CLI {
class App;
}

namespace maslin {

/// What main.cpp has for every command: its common options, and where its status goes.
struct CommandFrame {
  const CommonOptions& options;
  KeepingOptions& keeping;
  std::function<void(CLI::App*)> add_common;
  int& status;
};

/// Adds `library` and `trial` to the program, and what keeps kitchens to `kitchen`.
void add_keeping_commands(CLI::App& program, CLI::App& kitchen, const CommandFrame& frame);

}  // namespace maslin
