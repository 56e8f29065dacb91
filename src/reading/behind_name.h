// behind_name: the name that belongs to an amount in running text, and amounts that stand behind
// the name they belong to.
#pragma once

#include <cstddef>
#include <optional>

#include "reading/token.h"

namespace maslin::reading {

/// The name that belongs to a measure: at most a few words after it.
std::optional<Match> name_near(const Text& text, std::size_t i, std::size_t to, std::size_t& where);

bool counts_whole(const Text& text, const Ingredient& ingredient);

/// "Flour, about three pound": the end of an amount that belongs to the name before it,
/// or `i` when there is none.
/// In a row where names and amounts stand by turns the next name needs no mark before it.
std::size_t amount_after(const Text& text, std::size_t i, std::size_t to, bool by_turns = false);

/// "water from the kettle let it cool a bit, bout half a mug": the end of an amount that has a
/// clause for itself, with nothing but talk between the name, which ends at `i`, and it; or `i`.
std::size_t late_amount(const Text& text, std::size_t i, std::size_t to);

/// "flour (1kg), water (620)": the end of a bracket that holds the amount of the name before it and
/// little else, or `i`. Numbers alone are taken where another such bracket has a unit.
std::size_t bracket_after(const Text& text, std::size_t i, std::size_t to);

/// "Egg x2", "eggs, x 2": the end of the count, or the name's own when there is none.
std::size_t count_after(const Text& text, const Match& name, std::size_t to);

}  // namespace maslin::reading
