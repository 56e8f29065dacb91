#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "reading/amounts.h"
#include "reading/ingredient_line.h"

namespace maslin::reading {

/// The line made of its amounts and its noun; what stands from the noun to `note_to` is
/// said of it. Up to `told_to`, where that is later, words may tell its kind.
DraftLine one_line(Text& text, std::size_t from, std::size_t to, Amounts amounts, const Noun& noun,
                   std::size_t note_to, std::size_t told_to = 0);

/// Adds to a note with a comma, without the dashes and brackets around it.
void add_note(std::string& note, std::string_view more);

/// What the tokens say the ingredient is for: wash, top, dust, ... or nothing.
std::string_view purpose_in(const Text& text, std::size_t from, std::size_t to);

/// Makes the line that part of its food, where the pantry has it ("lime_zest"); of a fruit without
/// a juice of its own another's figures are taken, with a doubt. False where neither goes.
bool take_part(DraftLine& line, std::string_view part, const Pantry& pantry);

/// "juice and zest of 1 lime", "yolk of an egg", "the whites of two eggs".
struct PartOf {
  std::vector<std::string_view> parts;
  std::size_t end = 0;  // after "of"
};
PartOf part_of(const Text& text, std::size_t i, std::size_t to);

/// The parts said after a fruit: "1 lemon, zest and juice".
std::vector<std::string_view> parts_after(const Text& text, const Noun& noun, std::size_t to);

/// A line for each part named; `before` is an amount said before them ("1 tsp zest of").
std::vector<DraftLine> lines_of_parts(Text& text, std::size_t from, std::size_t to,
                                      const PartOf& parts,
                                      const std::optional<FoundMeasure>& before);

}  // namespace maslin::reading
