// Hands that work at once, handed in from where threads may live.
#pragma once

#include <cstddef>
#include <functional>

namespace maslin {

class Team {
 public:
  virtual ~Team() = default;
  /// Runs part(0) .. part(count - 1) in any order, at once where it can; returns when all are
  /// done.
  virtual void run(std::size_t count, const std::function<void(std::size_t)>& part) = 0;
};

/// The same without a team, one after another.
template <typename Part>
void run_parts(Team* team, std::size_t count, const Part& part) {
  if (team != nullptr && count > 1) {
    team->run(count, part);
    return;
  }
  for (std::size_t i = 0; i < count; ++i) {
    part(i);
  }
}

}  // namespace maslin
