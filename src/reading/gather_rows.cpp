// Rows that a copied page broke in two: a line with the amount alone, a line with the name.
#include <vector>

#include "reading/gatherer.h"

namespace maslin::reading {
namespace {

constexpr std::size_t k_fewest_pairs = 3;

enum class Half : std::uint8_t { neither, amount, name };

Half half_of(const FoundLine& line, const Lexicons& lexicons, const Lexicon& lexicon) {
  if (line.quoted || line.raw.size() > 60) {
    return Half::neither;
  }
  const Text text = tokenise(line.raw, lexicons, lexicon);
  const LineLook look = look_at(text, 0, text.size());
  if (look.measure_only) {
    return Half::amount;
  }
  const bool name = look.name && !look.measure_first && !look.measure_inside && look.words <= 6;
  return name && verb_count(text, 0, text.size()) == 0 ? Half::name : Half::neither;
}

/// "· 227g" and, on a line without a sign of its own, what it is.
std::vector<FoundLine> joined_amounts(const std::vector<FoundLine>& lines, const Lexicons& lexicons,
                                      const Lexicon& lexicon) {
  constexpr std::size_t k_longest_amount = 24;
  std::vector<FoundLine> out;
  for (const FoundLine& line : lines) {
    const std::string_view sign = out.empty() ? std::string_view() : bullet_of(out.back().raw);
    if (!sign.empty() && bullet_of(line.raw).empty() && !line.blank_before &&
        out.back().raw.size() <= k_longest_amount && line.raw.size() <= 100 &&
        half_of({out.back().raw.substr(sign.size())}, lexicons, lexicon) == Half::amount) {
      out.back().raw += " " + line.raw;
    } else {
      out.push_back(line);
    }
  }
  return out;
}

}  // namespace

std::vector<FoundLine> joined_rows(const std::vector<FoundLine>& found, const Lexicons& lexicons,
                                   const Lexicon& lexicon) {
  const std::vector<FoundLine> lines = joined_amounts(found, lexicons, lexicon);
  // Cheap first: hardly any text has such rows.
  std::size_t bare = 0;
  for (const FoundLine& line : lines) {
    bare += line.raw.size() <= 16 ? 1U : 0U;
  }
  if (bare < k_fewest_pairs) {
    return lines;
  }
  std::vector<Half> halves;
  std::size_t amounts = 0;
  for (const FoundLine& line : lines) {
    halves.push_back(half_of(line, lexicons, lexicon));
    amounts += halves.back() == Half::amount ? 1U : 0U;
  }
  if (amounts < k_fewest_pairs) {
    return lines;
  }
  std::vector<FoundLine> out;
  for (std::size_t i = 0; i < lines.size();) {
    // As long as one half follows the other in the same order, they are pairs.
    std::size_t to = i;
    while (to + 1 < lines.size() && halves[to] != Half::neither &&
           halves[to + 1] != Half::neither && halves[to] == halves[i] &&
           halves[to + 1] != halves[i]) {
      to += 2;
    }
    if (to - i < 2 * k_fewest_pairs) {
      out.push_back(lines[i++]);
      continue;
    }
    for (; i < to; i += 2) {
      FoundLine row = lines[i];
      row.raw += "  " + lines[i + 1].raw;
      out.push_back(std::move(row));
    }
  }
  return out;
}

}  // namespace maslin::reading
