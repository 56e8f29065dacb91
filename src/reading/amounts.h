#pragma once

#include <optional>
#include <vector>

#include "reading/measure.h"
#include "reading/noun.h"

namespace maslin::reading {

/// Everything said about the amount around the primary measure.
struct Amounts {
  std::optional<FoundMeasure> primary;
  std::vector<FoundMeasure> others;
  std::vector<FoundMeasure> sums;
  std::size_t end = 0;  // the token after the last of them
  std::string note;     // a bracket among them that was no amount
};

/// The amounts that begin at token `i`: the first with its brackets, slashes, columns and
/// sums; no primary when there is none.
Amounts amounts_at(const Text& text, std::size_t i, std::size_t to);

/// A weight in a bracket after the name: "1 cup mashed potatoes (200 g)".
void amounts_after(const Text& text, std::size_t from, std::size_t to, Amounts& amounts);

/// "+ 60 g butter" after the name, "less 4": more or less of the same.
void sums_after(Text& text, const Noun& noun, std::size_t to, Amounts& amounts);

/// Whether what stands behind an amount tells what it is for, not of what: "for the yeast".
bool tells_use(const Text& text, std::size_t i);

/// The first measure inside [from, to) that is not at its start; a loose one ("a lot")
/// only when there is no other. `to` when there is none.
std::size_t inner_measure(const Text& text, std::size_t from, std::size_t to);

/// Past the dots, colons and dashes between a name and its amount.
std::size_t trim_back(const Text& text, std::size_t from, std::size_t to);

}  // namespace maslin::reading
