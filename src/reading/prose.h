#pragma once

#include <string>
#include <vector>

#include "reading/ingredient_line.h"
#include "reading/token.h"

namespace maslin::reading {

/// An ingredient met in running text, with where it stood.
struct Mention {
  DraftLine line;
  std::size_t from = 0;
  std::size_t to = 0;
  bool amount = true;  // false: only named, "brush with honey"
};

/// The ingredients that the running text [from, to) gives amounts of, and those it names
/// without one ("a little salt", "flour to make a soft dough", "brush with honey"). What
/// it says of things listed before ("half the butter", "the rest of") is left alone.
std::vector<Mention> read_mentions(Text& text, std::size_t from, std::size_t to);

}  // namespace maslin::reading
