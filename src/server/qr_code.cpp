#include "server/qr_code.h"

#include <memory>

#if MASLIN_HAS_QRENCODE
#include <qrencode.h>
#endif

namespace maslin {

std::vector<std::string> qr_rows(std::string_view text) {
  std::vector<std::string> out;
#if MASLIN_HAS_QRENCODE
  const std::string whole(text);
  const std::unique_ptr<QRcode, decltype(&QRcode_free)> code(
      QRcode_encodeString8bit(whole.c_str(), 0, QR_ECLEVEL_M), &QRcode_free);
  if (code == nullptr) {
    return out;
  }
  const auto width = static_cast<std::size_t>(code->width);
  for (std::size_t row = 0; row < width; ++row) {
    std::string line;
    for (std::size_t column = 0; column < width; ++column) {
      line += (code->data[row * width + column] & 1) != 0 ? '1' : '0';
    }
    out.push_back(std::move(line));
  }
#else
  static_cast<void>(text);
#endif
  return out;
}

std::string qr_for_terminal(const std::vector<std::string>& rows) {
  if (rows.empty()) {
    return "";
  }
  constexpr int k_quiet = 4;
  const int size = static_cast<int>(rows.size());
  const auto dark = [&](int row, int column) {
    return row >= 0 && column >= 0 && row < size && column < size &&
           rows[static_cast<std::size_t>(row)][static_cast<std::size_t>(column)] == '1';
  };
  std::string out;
  for (int row = -k_quiet; row < size + k_quiet; row += 2) {
    // Black on white, whatever the terminal's own colours are.
    out += "  \x1b[30;107m";
    for (int column = -k_quiet; column < size + k_quiet; ++column) {
      const bool upper = dark(row, column);
      const bool lower = dark(row + 1, column);
      out += upper && lower ? "\u2588" : upper ? "\u2580" : lower ? "\u2584" : " ";
    }
    out += "\x1b[0m\n";
  }
  return out;
}

}  // namespace maslin
