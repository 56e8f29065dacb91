#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>

namespace maslin {

/// What a child process may use.
struct ChildLimits {
  unsigned cpu_seconds = 10;
  unsigned wall_seconds = 60;
  std::size_t memory_bytes = std::size_t{1} << 30U;
  std::size_t output_bytes = std::size_t{8} << 20U;
};

/// What `work` returns, done in a child process that is ended when it goes over its limits; nothing
/// when it did or when it died. For libraries that read bytes from outside and know no bound of
/// their own: whatever they do, this process lives on.
std::optional<std::string> in_bounded_child(const std::function<std::string()>& work,
                                            const ChildLimits& limits);

}  // namespace maslin
