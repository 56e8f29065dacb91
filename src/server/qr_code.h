// qr_code: a text as the squares of a QR code. The one place that includes libqrencode.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace maslin {

/// Rows of '1' (dark) and '0', without the quiet zone of four squares around; empty when the
/// text is too long or the program was built without the library.
std::vector<std::string> qr_rows(std::string_view text);

/// The same for a terminal, two rows a line, light on whatever the terminal's ground is.
std::string qr_for_terminal(const std::vector<std::string>& rows);

}  // namespace maslin
