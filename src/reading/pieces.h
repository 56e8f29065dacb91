#pragma once

#include <cstdint>
#include <vector>

#include "reading/fragments.h"

namespace maslin::reading {

/// What stands before a piece of a list in one line: nothing, a comma, a mark that always parts
/// (semicolon, bar), or a joiner ("and", "+", the next amount).
enum class Cut : std::uint8_t { none, comma, hard, joined };

struct Piece {
  Span span;
  Cut cut = Cut::none;
};

/// A line cut wherever an ingredient may end.
std::vector<Piece> pieces_of(const Text& text, std::size_t from, std::size_t to);

}  // namespace maslin::reading
