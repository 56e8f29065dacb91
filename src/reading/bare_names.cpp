#include "reading/bare_names.h"

#include <algorithm>

namespace maslin::reading {

bool is_said_of(const Text& text, std::size_t i) {
  return is_class(text, i, WordClass::note) || is_class(text, i, WordClass::packing) ||
         is_class(text, i, WordClass::size) || is_class(text, i, WordClass::purpose) ||
         is_class(text, i, WordClass::plus) || is_class(text, i, WordClass::or_);
}

namespace {

/// Where the name begins that a piece of a list of bare names has: past "extra", "freshly ground".
std::size_t bare_name(const Text& text, std::size_t from, std::size_t to) {
  for (std::size_t i = from; i < std::min(to, from + 4); ++i) {
    if (match_name(text, i)) {
      return i;
    }
    if (!is_said_of(text, i) && !is_class(text, i, WordClass::approx)) {
      break;
    }
  }
  return to;
}

/// "Oil, olive": two names that make one when turned round.
bool turns_round(const Text& text, const Span& first, const Span& second) {
  const std::string turned = std::string(text.slice(second.from, second.to)) + " " +
                             std::string(text.slice(first.from, first.to));
  const Text words = tokenise(turned, *text.lexicons, *text.lexicon);
  const Match name = match_name(words, 0);
  return name && name.end > 1;
}

/// "Salt, sea salt": the second name is the first with a word before it.
bool is_same_told_nearer(const Text& text, const Span& first, const Span& second) {
  const Match one = match_name(text, first.from);
  const Match other = match_name(text, second.from);
  return one && other && one.end == first.to && other.end == second.to &&
         other.end - second.from > one.end - first.from &&
         one.phrase->ingredient->kind == other.phrase->ingredient->kind &&
         text[other.end - 1].word == text[one.end - 1].word;
}

/// A word or two that nobody knows, among names: "Nutella, jam, chocolate".
bool is_unknown_name(const Text& text, const Span& one) {
  constexpr std::size_t k_most_words = 2;
  if (one.to == one.from || one.to > one.from + k_most_words) {
    return false;
  }
  for (std::size_t i = one.from; i < one.to; ++i) {
    if (text[i].kind != TokenKind::word || text[i].own != nullptr || text[i].name != nullptr ||
        text[i].word.size() < 3) {
      return false;
    }
  }
  return true;
}

}  // namespace

std::vector<Span> bare_names(const Text& text, std::size_t from, std::size_t to) {
  std::vector<Span> out;
  std::size_t start = skip_bullets(text, from, to);
  // "…, to serve": what all of them are for.
  const std::size_t end = to;
  if (end > start + 3 && text[end - 1].is(')')) {
    std::size_t open = end - 1;
    while (open > start && !text[open].is('(')) {
      --open;
    }
    to = open > start ? open : to;  // "Oats and seeds (optional)"
  }
  for (std::size_t i = start + 1; i < to; ++i) {
    if (const Match purpose = match(text, i, WordClass::purpose); purpose && purpose.end >= to) {
      to = text[i - 1].is(',') ? i - 1 : i;
      break;
    }
  }
  bool joined = false;
  bool comma = false;
  for (std::size_t i = start; i <= to; ++i) {
    if (i < to && (text[i].is_number() || text[i].is('(') || is_class(text, i, WordClass::or_) ||
                   is_class(text, i, WordClass::loose) || text[i].is(':'))) {
      return {};
    }
    const Match name = i < to ? match_name(text, i) : Match{};
    if (name && name.end > i + 1) {
      i = name.end - 1;  // "half and half"
      continue;
    }
    const bool join = i < to && (text[i].is('&') || is_class(text, i, WordClass::join));
    if (i < to && !join && !text[i].is(',')) {
      continue;
    }
    if (i > start) {
      out.push_back({start, i, joined});
    }
    joined = join;
    comma = comma || (i < to && !join);
    start = i + 1;
  }
  if (out.size() == 2 && comma && is_same_told_nearer(text, out[0], out[1])) {
    return {{out[0].from, end}};
  }
  if (out.size() < 2 || (out.size() == 2 && comma && turns_round(text, out[0], out[1]))) {
    return {};
  }
  std::size_t unknown = 0;
  for (const Span& one : out) {
    if (comma && out.size() >= 3 && is_unknown_name(text, one) && 2 * ++unknown < out.size()) {
      continue;
    }
    const std::size_t name = bare_name(text, one.from, one.to);
    const Match match = name < one.to ? match_name(text, name) : Match{};
    const bool said = match && match.end < one.to;
    const bool more = said && !is_said_of(text, match.end) && match.end + 1 < one.to;
    const bool verb = name != one.from && is_class(text, one.from, WordClass::verb);
    if (!match || match.end > one.to || more || verb) {
      return {};
    }
  }
  out.back().to = end;
  return out;
}

}  // namespace maslin::reading
