#pragma once

#include <optional>

#include "reading/number.h"

namespace maslin::reading {

/// A length of time, minutes: "1 hr 15 mins", "an hour and a half", "35'", "overnight".
struct Time {
  Range minutes;
  std::size_t end = 0;
};
std::optional<Time> any_time(const Text& text, std::size_t i);

enum class HeatScale : std::uint8_t { celsius, fahrenheit, unknown, gas, thermostat, stufe };

/// A temperature as written: "220C", "375 °F", "gas mark 6", "35O°".
struct Heat {
  Range value;
  HeatScale scale = HeatScale::unknown;
  std::size_t end = 0;
};
std::optional<Heat> any_heat(const Text& text, std::size_t i);

/// A size of something, mm: "20 x 30cm", "9x13-inch", "2 cm", "4\"".
struct Size {
  double length_mm = 0.0;
  double width_mm = 0.0;  // 0 when one length was given
  double depth_mm = 0.0;
  std::size_t end = 0;
};
std::optional<Size> any_size(const Text& text, std::size_t i);

}  // namespace maslin::reading
