#include "server/event_feed.h"

#include <utility>

namespace maslin {

std::uint64_t EventFeed::join(const std::string& device, Listener listener) {
  const std::lock_guard lock(mutex_);
  if (all_.size() >= k_most_listeners) {
    return 0;
  }
  all_[++last_] = {device, std::move(listener)};
  return last_;
}

void EventFeed::leave(std::uint64_t number) {
  const std::lock_guard lock(mutex_);
  all_.erase(number);
}

void EventFeed::tell(const std::string& name, const std::string& json) {
  const std::string event = "event: " + name + "\ndata: " + json + "\n\n";
  const std::lock_guard lock(mutex_);
  for (const auto& [number, one] : all_) {
    one.listener(event);
  }
}

void EventFeed::stop_device(const std::string& device) {
  const std::lock_guard lock(mutex_);
  for (const auto& [number, one] : all_) {
    if (one.device == device) {
      one.listener("");
    }
  }
}

std::size_t EventFeed::listeners() const {
  const std::lock_guard lock(mutex_);
  return all_.size();
}

}  // namespace maslin
