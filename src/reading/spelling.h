#pragma once

#include <string>
#include <string_view>

#include "reading/token.h"

namespace maslin::reading {

/// The nearest known word to a misspelt one (letters left out, put in, changed or
/// swapped: one for a word of four letters, two from seven on); empty when none is near
/// or the word is an ordinary one.
enum class Mending : std::uint8_t { any, units };  // units: only words of units and times
std::string mended_word(const Lexicons& lexicons, std::string_view word, Mending mending);

/// Mends the unknown words among the tokens [from, to) in place; how many it changed.
std::size_t mend_words(Text& text, std::size_t from, std::size_t to,
                       Mending mending = Mending::any);

}  // namespace maslin::reading
