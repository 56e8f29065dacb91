// Numbers to text and back, the same on every machine and in every locale.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace maslin {

/// Reads a plain decimal number ("12", "0.5", ".75", "1e-3", "-3") that fills the
/// whole of `text`; nothing for anything else, infinities and NaN included.
std::optional<double> number_from(std::string_view text);

/// The number with at most `decimals` digits after the point (0..9), without
/// trailing zeros: 2.50 -> "2.5", 3.0 -> "3". Not finite -> "?".
std::string number_text(double value, int decimals);

/// Kitchen form of a number: quarters, thirds and eighths as fractions
/// ("1 1/2", "3/4"), anything else with two decimals. Reads back by reading/.
std::string fraction_text(double value);

}  // namespace maslin
