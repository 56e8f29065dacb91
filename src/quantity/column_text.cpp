#include "quantity/column_text.h"

#include <algorithm>

namespace maslin {

std::size_t letters_in(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
  }));
}

std::string padded(std::string text, std::size_t width, std::size_t least) {
  const std::size_t letters = letters_in(text);
  text.append(std::max(letters < width ? width - letters : 0, least), ' ');
  return text;
}

std::string right_aligned(const std::string& text, std::size_t width) {
  const std::size_t letters = letters_in(text);
  return std::string(letters < width ? width - letters : 0, ' ') + text;
}

}  // namespace maslin
