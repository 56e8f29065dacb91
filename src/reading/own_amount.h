// own_amount: what the writer takes of a thing whose amount was said before: "1 sachet... I use
// 3/4", "a cube (half is enough)".
#pragma once

#include <cstddef>

#include "reading/ingredient_line.h"
#include "reading/token.h"

namespace maslin::reading {

/// The end of an aside that tells the writer's own amount, right behind an amount that ends at `i`;
/// `i` when there is none.
std::size_t own_amount_end(const Text& text, std::size_t i, std::size_t to);

/// Where the words from `from` on tell the writer's own amount of the line, that one is taken, with
/// a doubt that names the other. One within a stated range only confirms it.
void take_own_amount(const Text& text, std::size_t from, std::size_t to, DraftLine& line);

}  // namespace maslin::reading
