// event_feed: what one device did, told to the others while they look.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <map>
#include <mutex>
#include <string>

namespace maslin {

/// Safe to use from any thread. A listener must return at once and must not call back.
class EventFeed {
 public:
  /// Told each event as the text of a server-sent event; told nothing ("") when it is to stop.
  using Listener = std::function<void(const std::string& event)>;

  static constexpr std::size_t k_most_listeners = 48;

  /// Joins under the id of a device ("" for this machine); 0 when too many listen.
  std::uint64_t join(const std::string& device, Listener listener);
  void leave(std::uint64_t number);
  /// Tells every listener: an event's name and one line of JSON.
  void tell(const std::string& name, const std::string& json);
  /// Ends what a device that was removed listens to.
  void stop_device(const std::string& device);
  std::size_t listeners() const;

 private:
  struct One {
    std::string device;
    Listener listener;
  };
  mutable std::mutex mutex_;
  std::map<std::uint64_t, One> all_;
  std::uint64_t last_ = 0;
};

}  // namespace maslin
