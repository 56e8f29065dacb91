// How light a colour looks that a screen or a camera gives as red, green and blue.
#pragma once

#include <optional>
#include <string_view>

namespace maslin {

/// sRGB, each 0 to 1.
struct Srgb {
  double red = 0.0;
  double green = 0.0;
  double blue = 0.0;
};

/// Light that a colour sends, as a share of white's: IEC 61966-2-1 (from memory).
double relative_luminance(const Srgb& colour);
/// CIELAB L*, 0 black to 100 white, of such a share: CIE 15 (from memory). The white is the
/// same on both sides (D65), so that only the light counts.
double cielab_lightness(double relative_luminance);

/// "a0622d" or "a62", without its sign; nothing when it is neither.
std::optional<Srgb> srgb_from_hex(std::string_view digits);

}  // namespace maslin
