#pragma once

#include "reading/token.h"

namespace maslin::reading {

/// Past "1.", "2)", "Step 3:", "①": the number of a step. A bare number counts only
/// before a capital verb ("3 Knead for ten minutes").
std::size_t skip_numbering(const Text& text, std::size_t i, bool& numbered);

/// "18 ropes of about 60 g, twist": so many pieces of so much each, which is no food.
bool divides_first(const Text& text, std::size_t from, std::size_t to);

/// Whether a step's verb begins the tokens, past "then" and the like. A word that is also
/// an ingredient ("cream", "butter") counts as a verb only before what it is done to.
bool verb_first(const Text& text, std::size_t from, std::size_t to);

/// Whether a sentence ends with what is done, where verbs stand last: "… mit der Milch verrühren."
bool verb_ends(const Text& text, std::size_t from, std::size_t to);

/// Whether a time or a heat is among the tokens.
bool has_setting(const Text& text, std::size_t from, std::size_t to);

/// How many verbs of steps there are, names and purposes aside.
std::size_t verb_count(const Text& text, std::size_t from, std::size_t to);

}  // namespace maslin::reading
