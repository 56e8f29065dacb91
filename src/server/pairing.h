// pairing: which other devices may use this server. A device joins once with a code that
// the person reads off this machine; from then on it carries a secret of its own.
#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace maslin {

struct Device {
  std::string id;              // short; names the device in the interface
  std::string name;            // as it called itself
  std::string secret;          // what it carries; never shown again
  std::int64_t paired_ms = 0;  // since 1970-01-01T00:00Z
  std::int64_t seen_ms = 0;
};

/// What pairing needs of the world.
struct PairingWorld {
  std::function<std::int64_t()> now_ms;
  /// So many random bytes, from a source fit for secrets.
  std::function<std::string(std::size_t)> random_bytes;
  /// Called with all devices after each change of them; may be empty.
  std::function<void(const std::vector<Device>&)> keep;
};

/// Safe to use from any thread.
class Pairing {
 public:
  Pairing(PairingWorld world, std::vector<Device> known);

  /// The code to read off, "K7QM-4TXA", and how long it still holds; nothing when it was used,
  /// ran out or was guessed at too often.
  struct Code {
    std::string text;
    std::chrono::milliseconds left{0};
  };
  std::optional<Code> code() const;
  /// A new code in place of the old one.
  Code renew_code();

  enum class Outcome : std::uint8_t {
    paired,
    wrong_code,
    no_code,
    too_many_tries,
    too_many_devices
  };
  struct Joined {
    Outcome outcome = Outcome::wrong_code;
    Device device;  // when paired
  };
  /// Joins a device by the code, in any case and with or without the dash. A code holds ten
  /// minutes, for one device and five wrong tries.
  Joined join(std::string_view code, std::string_view name);

  /// The device that carries this secret; remembers that it was seen.
  std::optional<Device> device_with(std::string_view secret);
  std::vector<Device> devices() const;
  /// False when there is no such device.
  bool remove(std::string_view id);

 private:
  Code new_code();
  mutable std::mutex mutex_;
  PairingWorld world_;
  std::vector<Device> devices_;
  std::string code_;  // without its dash; empty: none holds
  std::int64_t code_ends_ms_ = 0;
  int tries_left_ = 0;
};

}  // namespace maslin
