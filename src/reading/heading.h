#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "reading/token.h"
#include "recipe/recipe.h"

namespace maslin::reading {

enum class SectionKind : std::uint8_t { none, ingredients, method, notes, end };

/// A heading at the start of a line: a section ("Method"), a part ("For the filling"),
/// or a label ("Makes"). The rest of the line begins at token `end`.
struct Heading {
  SectionKind section = SectionKind::none;
  std::optional<PartKind> part;
  std::string name;        // of the part: "orange syrup"
  std::string_view label;  // yield, time, tin, measures, total
  std::size_t end = 0;
  std::size_t name_end = 0;  // of a part: the token after its name
  bool colon = false;
  bool guessed = false;  // its words do not say what part it is
};

/// The heading that the tokens [from, to) begin with or are. `alone` lines (no colon)
/// are headings only when nothing but the heading is on the line.
std::optional<Heading> read_heading(Text& text, std::size_t from, std::size_t to);

/// An unknown short line before a list that can only be a heading: its words name a part.
Heading part_from_words(const Text& text, std::size_t from, std::size_t to);

/// The number of pieces said in [from, to): "makes 12", "about 2 dozen", "16 balls of
/// 85g"; with the mass of each and the tin.
struct YieldWords {
  std::optional<Range> pieces;
  std::optional<double> piece_grams;
  std::optional<double> total_grams;
};
/// "a total of 40 little horns": a count of what is no food and no measure.
std::optional<Range> total_count(const Text& text, std::size_t from, std::size_t to);
YieldWords read_yield(const Text& text, std::size_t from, std::size_t to, bool labelled);

/// A tin or tray with a size among the tokens.
std::optional<Tin> read_tin(const Text& text, std::size_t from, std::size_t to);

}  // namespace maslin::reading
