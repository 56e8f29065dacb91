#pragma once

#include "reading/noun.h"

namespace maslin::reading {

/// "Flour, bread": the name is longer the other way round.
void turn_round(const Text& text, std::size_t from, std::size_t to, Noun& noun);

/// "1 tsp salt, coarse": words that make another name with the one before, and say nothing else.
void turn_last(const Text& text, std::size_t to, Noun& noun);

}  // namespace maslin::reading
