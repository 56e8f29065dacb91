// Rows that a copied page broke in two: a line with the amount alone, a line with the name.
#include <algorithm>
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
  bool numbered = false;
  const std::size_t from = skip_numbering(text, skip_bullets(text, 0, text.size()), numbered);
  const LineLook look = look_at(text, from, text.size());
  if (look.measure_only && !numbered) {
    return Half::amount;
  }
  const bool name = look.name && !look.measure_first && !look.measure_inside && look.words <= 6;
  // "Baking powder, double acting"
  const Match first = match_name(text, from);
  const bool said = first && text[first.end].is(',') && !is_class(text, from, WordClass::verb);
  return name && (said || verb_count(text, from, text.size()) == 0) ? Half::name : Half::neither;
}

/// A short line without a figure that does nothing.
bool may_be_name(const FoundLine& line, const Lexicons& lexicons, const Lexicon& lexicon) {
  constexpr std::size_t k_most_words = 4;
  const Text text = tokenise(line.raw, lexicons, lexicon);
  bool numbered = false;
  const std::size_t from = skip_numbering(text, skip_bullets(text, 0, text.size()), numbered);
  const LineLook look = look_at(text, from, text.size());
  bool figures = false;
  for (std::size_t i = from; i < text.size(); ++i) {
    figures = figures || text[i].is_number() || text[i].is(':');
  }
  return !figures && look.words >= 1 && look.words <= k_most_words &&
         verb_count(text, from, text.size()) == 0;
}

/// "10 eggs" under "Eggs, whole": a count of the thing just named.
bool says_again(std::string_view name, std::string_view amount, const Lexicons& lexicons,
                const Lexicon& lexicon) {
  const Text first = tokenise(name, lexicons, lexicon);
  const Text second = tokenise(amount, lexicons, lexicon);
  const Match named = match_name(first, 0);
  const Match again = second[0].is_number() ? match_name(second, 1) : Match{};
  return named && again && again.end >= second.size() &&
         named.phrase->ingredient == again.phrase->ingredient;
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

/// Whether the end of one line and the beginning of the next make a name that neither is
/// alone: "Custard" and "powder – 3 tsp".
bool name_over_seam(const Text& first, const Text& second) {
  if (first.size() > 2 || first[0].kind != TokenKind::word || second[0].kind != TokenKind::word ||
      second[0].capital) {
    return false;
  }
  const LineLook rest = look_at(second, 0, second.size());
  const std::string both = first.raw + " " + second.raw;
  const Text whole = tokenise(both, *first.lexicons, *first.lexicon);
  const Match name = match_name(whole, 0);
  const bool alone = match_name(first, 0) || is_class(first, 0, WordClass::verb);
  return name && name.end > first.size() && (rest.measure_inside || !alone) &&
         !match_name(second, 0);
}

/// "250 ml lauwarme", "1 pinch": an amount, with what is said of the thing, that waits for its
/// name.
bool waits_for_name(const Text& text) {
  const LineLook look = look_at(text, 0, text.size());
  if (!look.measure_first || look.name || look.words > 4) {
    return false;
  }
  const auto measure = any_measure(text, 0);
  if (!measure || measure->unit.empty() || unit_kind(measure->unit) == UnitKind::none) {
    return false;
  }
  for (std::size_t i = measure->to; i < text.size(); ++i) {
    if (!is_class(text, i, WordClass::note) && !is_class(text, i, WordClass::of) &&
        !is_class(text, i, WordClass::packing) && !is_class(text, i, WordClass::size)) {
      return false;
    }
  }
  return true;
}

/// Rows cut where no row ends: the unit on a line of its own, a dash and the amount, a name
/// of two words.
std::vector<FoundLine> joined_seams(const std::vector<FoundLine>& lines, const Lexicons& lexicons,
                                    const Lexicon& lexicon) {
  constexpr std::size_t k_longest = 40;
  std::vector<FoundLine> out;
  // Each line set apart by blank ones: a page whose rows were boxes.
  std::size_t alone = 0;
  for (const FoundLine& line : lines) {
    alone += line.blank_before && line.raw.size() <= 16 && line.raw.front() >= '0' &&
                     line.raw.front() <= '9' &&
                     waits_for_name(tokenise(line.raw, lexicons, lexicon))
                 ? 1U
                 : 0U;
  }
  const bool apart = alone >= k_fewest_pairs;
  for (const FoundLine& line : lines) {
    // After a figure alone on its line the rest may be long: "250" and "grams (2 cups) of …".
    const bool figure = !out.empty() && out.back().raw.size() <= 5 &&
                        out.back().raw.find_first_not_of("0123456789.,/") == std::string::npos;
    const bool near = !out.empty() && (!line.blank_before || apart) && !line.quoted &&
                      !line.raw.empty() && out.back().raw.size() <= k_longest &&
                      line.raw.size() <= (figure ? 100 : k_longest);
    if (!near) {
      out.push_back(line);
      continue;
    }
    const char begins = line.raw.front();
    const char last = out.back().raw.front();
    const bool digit_before = last >= '0' && last <= '9';
    const bool letter = (begins >= 'a' && begins <= 'z') || (begins >= 'A' && begins <= 'Z');
    if (digit_before && letter && out.back().raw.size() <= 24 && (!line.blank_before || apart)) {
      const Text amount = tokenise(out.back().raw, lexicons, lexicon);
      // A name alone before the amount: then the rows run name, amount.
      const bool any_before = out.size() > 1 && out[out.size() - 2].raw.size() <= k_longest;
      const bool unknown_before = any_before && out.size() > 2 &&
                                  may_be_name(out[out.size() - 2], lexicons, lexicon) &&
                                  half_of(out[out.size() - 3], lexicons, lexicon) == Half::amount;
      const bool named_before =
          any_before &&
          (unknown_before || half_of(out[out.size() - 2], lexicons, lexicon) == Half::name);
      const bool count = apart && amount.size() == 1 && amount[0].is_number();  // "1" over "egg"
      if (!named_before && (count || waits_for_name(amount)) &&
          half_of(line, lexicons, lexicon) == Half::name) {
        out.back().raw += " " + line.raw;
        continue;
      }
    }
    const bool small = begins >= 'a' && begins <= 'z';
    const bool dash = begins == '-' || line.raw.starts_with("\xE2\x80\x93");
    if ((!small && !dash) || line.blank_before) {
      out.push_back(line);
      continue;
    }
    const Text first = tokenise(out.back().raw, lexicons, lexicon);
    const Text second = tokenise(line.raw, lexicons, lexicon);
    const bool number_last = first.size() >= 1 && first[first.size() - 1].is_number();
    const bool unit_alone =
        is_class(second, 0, WordClass::unit) && (second.size() == 1 || first.size() == 1);
    const LineLook look = look_at(second, 0, second.size());
    const LineLook before = look_at(first, 0, first.size());
    const bool only = look.measure_only || (look.measure_first && !look.name && look.words <= 5);
    const bool amount = dash && only && before.words > 0 && !before.measure_first &&
                        !before.measure_inside && bullet_of(out.back().raw).empty();
    if ((number_last && unit_alone) || amount || name_over_seam(first, second)) {
      out.back().raw += " " + line.raw;
    } else {
      out.push_back(line);
    }
  }
  return out;
}

/// "… in the morning add one" and under it "egg, …": a sentence that a narrow column broke behind
/// its number.
std::vector<FoundLine> joined_numbers(const std::vector<FoundLine>& lines, const Lexicons& lexicons,
                                      const Lexicon& lexicon) {
  constexpr std::size_t k_shortest = 24;
  std::vector<FoundLine> out;
  for (const FoundLine& line : lines) {
    const bool may = !out.empty() && !line.blank_before && !line.quoted && !line.raw.empty() &&
                     line.raw.front() >= 'a' && line.raw.front() <= 'z' &&
                     out.back().raw.size() >= k_shortest;
    bool number = false;
    if (may) {
      const std::string& before = out.back().raw;
      const std::size_t blank = before.rfind(' ');
      const Text last = tokenise(std::string_view(before).substr(blank + 1), lexicons, lexicon);
      number = blank != std::string::npos && last.size() == 1 &&
               (is_class(last, 0, WordClass::number) || is_class(last, 0, WordClass::article) ||
                is_class(last, 0, WordClass::share));
      // "…, the small ones" over "three quarters of a pint of water": that has its own.
      const Text next = number ? tokenise(line.raw, lexicons, lexicon) : Text();
      const auto own = number ? any_measure(next, 0) : std::nullopt;
      number = number && !(own && own->number && !own->unit.empty());
    }
    if (number) {
      out.back().raw += " " + line.raw;
    } else {
      out.push_back(line);
    }
  }
  return out;
}

/// "Johnny Cake" and under it "Johnny Cake cups yellow corn meal": the title said again before the
/// first row.
std::vector<FoundLine> without_second_title(std::vector<FoundLine> lines) {
  constexpr std::size_t k_shortest = 5;
  if (lines.size() > 2) {
    const std::string& title = lines[0].raw;
    std::string& row = lines[1].raw;
    if (title.size() >= k_shortest && row.size() > title.size() + 2 && row.starts_with(title) &&
        row[title.size()] == ' ' && row[title.size() + 1] >= 'a' && row[title.size() + 1] <= 'z') {
      row.erase(0, title.size() + 1);
      lines[1].seam = 0;
    }
  }
  return lines;
}

/// "Rich Plum Bread ('Floss'Kirk) 1 lbs flour 8 oz sugar …": the title that a list run into one
/// line begins with, on a line of its own. It ends with a word for what is baked.
std::vector<FoundLine> with_title_apart(std::vector<FoundLine> lines, const Lexicons& lexicons,
                                        const Lexicon& lexicon) {
  constexpr std::size_t k_first_lines = 3;
  constexpr std::size_t k_shortest = 80;
  constexpr std::size_t k_longest_title = 10;
  constexpr std::size_t k_fewest_numbers = 4;
  for (std::size_t n = 0; n < std::min(lines.size(), k_first_lines); ++n) {
    if (lines[n].raw.size() < k_shortest || lines[n].quoted) {
      continue;
    }
    const Text text = tokenise(lines[n].raw, lexicons, lexicon);
    std::size_t i = 1;
    bool baked = false;
    int depth = 0;
    while (i < std::min(text.size(), k_longest_title) &&
           !(depth == 0 && (text[i].is_number() || is_class(text, i, WordClass::number)))) {
      depth += text[i].is('(') ? 1 : 0;
      depth -= text[i].is(')') ? 1 : 0;
      const bool mark = text[i].kind == TokenKind::mark;
      if (depth == 0 && ((mark && !text[i].is(')')) || (!mark && !text[i].capital))) {
        break;
      }
      const bool word = is_class(text, i, WordClass::piece) ||
                        (is_class(text, i, WordClass::part) && !is_class(text, i, WordClass::verb));
      baked = depth > 0 || mark ? baked : word;
      ++i;
    }
    const auto amount = baked && depth == 0 ? any_measure(text, i) : std::nullopt;
    std::size_t numbers = 0;
    for (std::size_t at = i; at < text.size(); ++at) {
      numbers += text[at].is_number() ? 1U : 0U;
    }
    const LineLook look = amount ? look_at(text, i, text.size()) : LineLook{};
    if (!amount || !amount->number || amount->unit.empty() || numbers < k_fewest_numbers ||
        !text[0].capital || !look.measure_first || !look.name_first) {
      continue;
    }
    FoundLine title = lines[n];
    title.raw = std::string(text.slice(0, i));
    title.seam = 0;
    lines[n].raw = std::string(text.slice(i, text.size()));
    lines[n].seam = 0;
    lines[n].blank_before = true;
    lines.insert(lines.begin() + static_cast<std::ptrdiff_t>(n), std::move(title));
    break;
  }
  return lines;
}

}  // namespace

namespace {

/// Rows of three lines, name, amount and a remark on it: the pairs from `i` on, and in `to` the
/// line after the last. Empty when there are too few.
std::vector<std::size_t> pairs_with_remarks(const std::vector<Half>& halves, std::size_t i,
                                            std::size_t& to) {
  const auto pair_at = [&](std::size_t at) {
    return at + 1 < halves.size() && halves[at] == Half::name && halves[at + 1] == Half::amount;
  };
  std::vector<std::size_t> out;
  std::size_t remarks = 0;
  std::size_t at = i;
  while (pair_at(at)) {
    out.push_back(at);
    at += 2;
    to = at;
    if (!pair_at(at) && at < halves.size() && halves[at] != Half::amount && pair_at(at + 1)) {
      ++at;
      ++remarks;
    }
  }
  return remarks > 0 && out.size() >= k_fewest_pairs ? out : std::vector<std::size_t>();
}

}  // namespace

std::vector<FoundLine> joined_rows(const std::vector<FoundLine>& found, const Lexicons& lexicons,
                                   const Lexicon& lexicon) {
  const std::vector<FoundLine> whole = joined_numbers(
      with_title_apart(without_second_title(found), lexicons, lexicon), lexicons, lexicon);
  std::vector<FoundLine> lines = answered_lines(
      joined_seams(joined_amounts(whole, lexicons, lexicon), lexicons, lexicon), lexicons, lexicon);
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
    // "Eggs, whole" and below it "10 eggs"
    if (halves.size() > 1 && halves[halves.size() - 2] == Half::name &&
        halves.back() == Half::neither &&
        says_again(lines[halves.size() - 2].raw, line.raw, lexicons, lexicon)) {
      halves.back() = Half::amount;
    }
    amounts += halves.back() == Half::amount ? 1U : 0U;
  }
  if (amounts < k_fewest_pairs) {
    return lines;
  }
  // A food that nobody knows stands between two amounts too: without it each amount would go to
  // the next name.
  for (std::size_t i = 1; i + 1 < lines.size(); ++i) {
    if (halves[i] == Half::neither && halves[i - 1] == Half::amount &&
        halves[i + 1] == Half::amount && may_be_name(lines[i], lexicons, lexicon)) {
      halves[i] = Half::name;
    }
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
    std::size_t last = i;
    const std::vector<std::size_t> rows = pairs_with_remarks(halves, i, last);
    if (last > to && !rows.empty()) {
      for (const std::size_t at : rows) {
        out.push_back(lines[at]);
        out.back().raw += "  " + lines[at + 1].raw;
      }
      i = last;
      continue;
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
