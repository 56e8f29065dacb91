#include "quantity/colour.h"

#include "numerics/lanes.h"

namespace maslin {
namespace {

/// The light of one channel: near black in proportion, else by the power of the standard.
double linear(double channel) {
  return channel <= 0.04045 ? channel / 12.92 : pow_same((channel + 0.055) / 1.055, 2.4);
}

std::optional<int> hex_digit(char c) {
  return c >= '0' && c <= '9'   ? std::optional(c - '0')
         : c >= 'a' && c <= 'f' ? std::optional(c - 'a' + 10)
         : c >= 'A' && c <= 'F' ? std::optional(c - 'A' + 10)
                                : std::nullopt;
}

}  // namespace

double relative_luminance(const Srgb& colour) {
  return 0.2126 * linear(colour.red) + 0.7152 * linear(colour.green) + 0.0722 * linear(colour.blue);
}

double cielab_lightness(double relative_luminance) {
  constexpr double k_edge = 216.0 / 24389.0;  // (6/29)^3
  constexpr double k_slope = 24389.0 / 27.0;  // (29/3)^3
  return relative_luminance <= k_edge ? k_slope * relative_luminance
                                      : 116.0 * pow_same(relative_luminance, 1.0 / 3.0) - 16.0;
}

std::optional<Srgb> srgb_from_hex(std::string_view digits) {
  constexpr double k_most = 255.0;
  const std::size_t each = digits.size() / 3;
  if (digits.size() != 3 && digits.size() != 6) {
    return std::nullopt;
  }
  double channels[3] = {};
  for (std::size_t i = 0; i < 3; ++i) {
    const auto high = hex_digit(digits[i * each]);
    const auto low = hex_digit(digits[i * each + each - 1]);
    if (!high || !low) {
      return std::nullopt;
    }
    channels[i] = (16 * *high + *low) / k_most;
  }
  return Srgb{channels[0], channels[1], channels[2]};
}

}  // namespace maslin
