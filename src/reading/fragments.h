#pragma once

#include <vector>

#include "reading/ingredient_line.h"
#include "reading/token.h"

namespace maslin::reading {

struct Span {
  std::size_t from = 0;
  std::size_t to = 0;
  bool joined = false;  // by "and" to the one before: a purpose said last is of both
};

/// Of a table's row "Flour, all purpose | 3 quarts + 1 pint |" the token where the amount's cell
/// begins; `to` when the line is no such row.
std::size_t amount_cell(const Text& text, std::size_t from, std::size_t to);

/// "8 equal parts", "12 balls" alone: how many it makes, no food.
std::optional<Range> count_of_pieces(const Text& text, const Span& span, bool in_method = false);

/// A line cut where pictures and bullets stand between its parts.
std::vector<Span> segments(const Text& text, std::size_t from, std::size_t to);

/// A segment cut into sentences; full stops of abbreviations do not end one.
std::vector<Span> sentences(const Text& text, std::size_t from, std::size_t to);

/// A list in one line cut into its ingredients: "450g flour, 2 tsp yeast, salt". What is
/// only said of an ingredient ("butter, softened") stays with it.
std::vector<Span> ingredient_spans(const Text& text, std::size_t from, std::size_t to);

}  // namespace maslin::reading
