// Headings that name a part of the recipe.
#pragma once

#include <optional>
#include <string>

#include "reading/heading.h"

namespace maslin::reading {

/// Past the words that only lead to the noun of a heading: "for the", "to make the".
std::size_t lead_in(const Text& text, std::size_t i, std::size_t to);

std::size_t word_count(const Text& text, std::size_t from, std::size_t to);

/// The last part word of a heading is its noun: "bun dough", "egg wash"; null when there is none.
const Phrase* part_word(const Text& text, std::size_t from, std::size_t to);

/// Where the words of a heading's name end, and those words in small letters.
std::size_t name_end(const Text& text, std::size_t from, std::size_t to);
std::string part_name(const Text& text, std::size_t from, std::size_t to);

/// Without a colon a heading ends with its part word and is no ingredient with a
/// purpose: "Lemon icing" and "For the filling", but not "icing sugar for dusting".
bool is_heading_alone(const Text& text, std::size_t from, std::size_t to);

/// The part that the tokens before a colon name.
std::optional<Heading> part_heading(const Text& text, std::size_t from, std::size_t end);

/// "YUDANE    bread flour 75": a part's name, a gap, and what goes into it.
std::optional<Heading> heading_before_gap(const Text& text, std::size_t from, std::size_t to);

}  // namespace maslin::reading
