#include "app/bounded_child.h"

#include <poll.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <chrono>
#include <csignal>
#include <string_view>

namespace maslin {
namespace {

// The sanitizers reserve terabytes of addresses.
#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
constexpr bool k_limits_memory = false;
#elif defined(__has_feature)
#if __has_feature(address_sanitizer) || __has_feature(thread_sanitizer)
constexpr bool k_limits_memory = false;
#else
constexpr bool k_limits_memory = true;
#endif
#else
constexpr bool k_limits_memory = true;
#endif

void limit(int what, rlim_t most) {
  const rlimit both{most, most};
  static_cast<void>(setrlimit(static_cast<__rlimit_resource>(what), &both));
}

/// Writes all of it; the reader may have gone.
void send(int to, std::string_view text) {
  while (!text.empty()) {
    const ssize_t sent = write(to, text.data(), text.size());
    if (sent < 0 && errno == EINTR) {
      continue;
    }
    if (sent <= 0) {
      return;
    }
    text.remove_prefix(static_cast<std::size_t>(sent));
  }
}

[[noreturn]] void be_child(int to, const std::function<std::string()>& work,
                           const ChildLimits& limits) {
  static_cast<void>(std::signal(SIGPIPE, SIG_IGN));
  limit(RLIMIT_CPU, limits.cpu_seconds);
  limit(RLIMIT_CORE, 0);
  limit(RLIMIT_FSIZE, 0);
  if (k_limits_memory) {
    limit(RLIMIT_AS, limits.memory_bytes);
  }
  try {
    send(to, work() + "\n");  // the mark that it came to its end
  } catch (...) {
    _exit(1);
  }
  _exit(0);
}

/// All the child wrote before its time was up; nothing when it was not.
std::optional<std::string> received(int from, const ChildLimits& limits) {
  const auto end = std::chrono::steady_clock::now() + std::chrono::seconds(limits.wall_seconds);
  std::string out;
  std::array<char, 65536> block{};
  for (;;) {
    const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(
        end - std::chrono::steady_clock::now());
    if (left.count() <= 0 || out.size() > limits.output_bytes) {
      return std::nullopt;
    }
    pollfd one{from, POLLIN, 0};
    const int ready = poll(&one, 1, static_cast<int>(left.count()));
    if (ready < 0 && errno == EINTR) {
      continue;
    }
    if (ready <= 0) {
      return std::nullopt;
    }
    const ssize_t got = read(from, block.data(), block.size());
    if (got < 0 && errno == EINTR) {
      continue;
    }
    if (got < 0) {
      return std::nullopt;
    }
    if (got == 0) {
      return out;
    }
    out.append(block.data(), static_cast<std::size_t>(got));
  }
}

}  // namespace

std::optional<std::string> in_bounded_child(const std::function<std::string()>& work,
                                            const ChildLimits& limits) {
  std::array<int, 2> ends{};
  if (pipe(ends.data()) != 0) {
    return std::nullopt;
  }
  const pid_t child = fork();
  if (child < 0) {
    static_cast<void>(close(ends[0]));
    static_cast<void>(close(ends[1]));
    return std::nullopt;
  }
  if (child == 0) {
    static_cast<void>(close(ends[0]));
    be_child(ends[1], work, limits);
  }
  static_cast<void>(close(ends[1]));
  auto out = received(ends[0], limits);
  static_cast<void>(close(ends[0]));
  if (!out) {
    static_cast<void>(kill(child, SIGKILL));
  }
  int status = 0;
  while (waitpid(child, &status, 0) < 0 && errno == EINTR) {
  }
  if (!out || out->empty() || out->back() != '\n') {
    return std::nullopt;
  }
  out->pop_back();
  return out;
}

}  // namespace maslin
