#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace maslin {

/// Characters of UTF-8 text, not its bytes: columns count those.
std::size_t letters_in(std::string_view text);

/// The text with blanks behind it up to `width` characters, `least` blanks at least.
std::string padded(std::string text, std::size_t width, std::size_t least = 0);

/// The text with blanks before it up to `width` characters.
std::string right_aligned(const std::string& text, std::size_t width);

}  // namespace maslin
