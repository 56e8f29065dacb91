#pragma once

#include <vector>

#include "reading/ingredient_line.h"

namespace maslin::reading {

/// "2 eggs and juice to make 300 ml", "3 eggs, made up to 300 ml with milk", "milk to make up to
/// 300 ml" under the eggs: the last thing fills a measure that the ones before it began to fill.
/// Empty where the tokens [from, to) say nothing of the kind.
std::vector<DraftLine> read_made_up(Text& text, std::size_t from, std::size_t to);

/// Past the measure that is filled up in the clause at `from` ("2 eggs and juice to make 300 ml"
/// within a sentence); `from` where none is.
std::size_t made_up_end(const Text& text, std::size_t from, std::size_t to);

/// Takes from the line at `at`, weighed as the whole measure, what the lines before it fill of it.
void weigh_made_up(std::vector<DraftLine>& lines, std::size_t at);

}  // namespace maslin::reading
