#include "server/pairing.h"

#include <algorithm>

namespace maslin {
namespace {

// Neither 0 and O, 1, I and L, nor U: read aloud and copied by hand. 8 of 30 characters are
// 39 bits, against five tries.
constexpr std::string_view k_letters = "23456789ABCDEFGHJKMNPQRSTVWXYZ";
constexpr std::size_t k_code_length = 8;
constexpr std::int64_t k_code_ms = 10 * 60 * 1000;
constexpr int k_tries = 5;
constexpr std::size_t k_secret_bytes = 24;
constexpr std::size_t k_most_devices = 32;
constexpr std::size_t k_name_length = 40;
// When a device was last seen is kept to the hour, so that not each request writes a file.
constexpr std::int64_t k_seen_step_ms = 60 * 60 * 1000;

std::string hex(std::string_view bytes) {
  static constexpr std::string_view k_digits = "0123456789abcdef";
  std::string out;
  for (const char c : bytes) {
    const auto byte = static_cast<unsigned char>(c);
    out += k_digits[byte >> 4];
    out += k_digits[byte & 0xF];
  }
  return out;
}

std::string letters(const PairingWorld& world, std::size_t count) {
  // Bytes that would make some letters likelier are drawn again.
  const std::size_t whole = 256 / k_letters.size() * k_letters.size();
  std::string out;
  while (out.size() < count) {
    for (const char c : world.random_bytes(count)) {
      const auto byte = static_cast<unsigned char>(c);
      if (byte < whole && out.size() < count) {
        out += k_letters[byte % k_letters.size()];
      }
    }
  }
  return out;
}

std::string plain_code(std::string_view typed) {
  std::string out;
  for (const char c : typed.substr(0, 64)) {
    const char upper = c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    if (k_letters.find(upper) != std::string_view::npos) {
      out += upper;
    }
  }
  return out;
}

/// Takes as long for a near miss as for a far one.
bool same(std::string_view one, std::string_view other) {
  if (one.size() != other.size()) {
    return false;
  }
  unsigned differ = 0;
  for (std::size_t i = 0; i < one.size(); ++i) {
    differ |= static_cast<unsigned>(static_cast<unsigned char>(one[i])) ^
              static_cast<unsigned>(static_cast<unsigned char>(other[i]));
  }
  return differ == 0;
}

std::string short_name(std::string_view name) {
  std::size_t length = std::min(name.size(), k_name_length);
  // A letter of several bytes is not cut in two.
  while (length > 0 && length < name.size() &&
         (static_cast<unsigned char>(name[length]) & 0xC0) == 0x80) {
    --length;
  }
  std::string out(name.substr(0, length));
  std::replace_if(out.begin(), out.end(), [](char c) { return c >= 0 && c < 0x20; }, ' ');
  return out.find_first_not_of(' ') == std::string::npos ? "A device" : out;
}

std::string dashed(const std::string& code) {
  return code.substr(0, k_code_length / 2) + "-" + code.substr(k_code_length / 2);
}

}  // namespace

Pairing::Pairing(PairingWorld world, std::vector<Device> known)
    : world_(std::move(world)), devices_(std::move(known)) {
  new_code();
}

Pairing::Code Pairing::new_code() {
  code_ = letters(world_, k_code_length);
  code_ends_ms_ = world_.now_ms() + k_code_ms;
  tries_left_ = k_tries;
  return {dashed(code_), std::chrono::milliseconds(k_code_ms)};
}

std::optional<Pairing::Code> Pairing::code() const {
  const std::lock_guard lock(mutex_);
  const std::int64_t left = code_ends_ms_ - world_.now_ms();
  if (code_.empty() || left <= 0 || tries_left_ <= 0) {
    return std::nullopt;
  }
  return Code{dashed(code_), std::chrono::milliseconds(left)};
}

Pairing::Code Pairing::renew_code() {
  const std::lock_guard lock(mutex_);
  return new_code();
}

Pairing::Joined Pairing::join(std::string_view code, std::string_view name) {
  const std::lock_guard lock(mutex_);
  if (!code_.empty() && tries_left_ <= 0) {
    return {Outcome::too_many_tries, {}};
  }
  const std::int64_t now = world_.now_ms();
  if (code_.empty() || now >= code_ends_ms_) {
    return {Outcome::no_code, {}};
  }
  if (!same(plain_code(code), code_)) {
    --tries_left_;
    return {tries_left_ <= 0 ? Outcome::too_many_tries : Outcome::wrong_code, {}};
  }
  if (devices_.size() >= k_most_devices) {
    return {Outcome::too_many_devices, {}};
  }
  code_.clear();
  Device device{hex(world_.random_bytes(4)), short_name(name),
                hex(world_.random_bytes(k_secret_bytes)), now, now};
  devices_.push_back(device);
  if (world_.keep) {
    world_.keep(devices_);
  }
  return {Outcome::paired, std::move(device)};
}

std::optional<Device> Pairing::device_with(std::string_view secret) {
  const std::lock_guard lock(mutex_);
  if (secret.size() != 2 * k_secret_bytes) {
    return std::nullopt;
  }
  for (Device& device : devices_) {
    if (same(secret, device.secret)) {
      const std::int64_t now = world_.now_ms();
      if (now - device.seen_ms >= k_seen_step_ms) {
        device.seen_ms = now;
        if (world_.keep) {
          world_.keep(devices_);
        }
      }
      return device;
    }
  }
  return std::nullopt;
}

std::vector<Device> Pairing::devices() const {
  const std::lock_guard lock(mutex_);
  return devices_;
}

bool Pairing::remove(std::string_view id) {
  const std::lock_guard lock(mutex_);
  const auto at = std::find_if(devices_.begin(), devices_.end(),
                               [&](const Device& device) { return device.id == id; });
  if (at == devices_.end()) {
    return false;
  }
  devices_.erase(at);
  if (world_.keep) {
    world_.keep(devices_);
  }
  return true;
}

}  // namespace maslin
