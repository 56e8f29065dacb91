// Lines cut into sentences.
#include <algorithm>

#include "reading/fragments.h"

namespace maslin::reading {
namespace {

bool is_abbreviation(const Text& text, std::size_t i) {
  return is_class(text, i, WordClass::unit) || is_class(text, i, WordClass::approx) ||
         is_class(text, i, WordClass::size) || is_class(text, i, WordClass::packing) ||
         is_class(text, i, WordClass::length) || is_class(text, i, WordClass::scale) ||
         text[i].word.size() == 1 ||
         // "5 teaspoons Dr. Maker's baking powder"
         (text[i].capital && i >= 1 && text[i].word.size() <= 3 &&
          is_class(text, i - 1, WordClass::unit)) ||
         // "1 Teel. abger. Zitronenschale"
         (is_class(text, i, WordClass::note) && i >= 2 && text[i].word.size() <= 6 &&
          (is_class(text, i - 1, WordClass::unit) ||
           (text[i - 1].is('.') && is_class(text, i - 2, WordClass::unit))));
}

bool closes(const Text& text, std::size_t from, std::size_t to) {
  for (std::size_t i = from + 1; i < to; ++i) {
    if (text[i].is(')') || text[i].is('(')) {
      return text[i].is(')');
    }
  }
  return false;
}

/// "80 ml water Sugar Glaze: 2 tbsp water": where the heading begins that ends at the colon at `i`
/// in a line that runs on; `from` when there is none.
std::size_t heading_before(const Text& text, std::size_t from, std::size_t i) {
  constexpr std::size_t k_most_words = 3;
  const bool named = text[i].is(':') && match_name(text, i + 1);  // "Zum Bestreuen: Hagelzucker"
  if (!text[i].is(':') || i < from + 3 || !(text[i + 1].is_number() || named)) {
    return from;
  }
  // "… 1-2 eggs for the topping: 80 g butter", "zum Ausbacken:"
  for (std::size_t k = i - k_most_words; k < i; ++k) {
    const Match purpose = match(text, k, WordClass::purpose);
    const bool led =
        k + 1 < i && is_class(text, k, WordClass::lead) && is_class(text, i - 1, WordClass::part);
    if (k > from && ((purpose && purpose.end == i) || led)) {
      return k;
    }
  }
  if (named || !is_class(text, i - 1, WordClass::part)) {
    return from;
  }
  std::size_t head = i;
  while (head > from && head + k_most_words > i && text[head - 1].kind == TokenKind::word &&
         text[head - 1].capital) {
    --head;
  }
  const bool after_word = head > from && (text[head - 1].kind == TokenKind::word ||
                                          text[head - 1].is(')') || text[head - 1].is_number());
  return head < i && after_word ? head : from;
}

/// Whether a food's name ends before `i`, and none goes on over it.
bool ends_food(const Text& text, std::size_t from, std::size_t i) {
  bool food_ends = false;
  for (std::size_t back = i > from + 3 ? i - 3 : from; back < i; ++back) {
    const Match name = match_name(text, back);
    if (name && name.end > i) {
      return false;
    }
    food_ends = food_ends || (name && name.end == i);
  }
  return food_ends;
}

/// "… 250 ml milk Filling 100 g sugar …": a part's name alone between a food and an amount.
bool is_bare_heading(const Text& text, std::size_t from, std::size_t i) {
  const Match part = text[i].capital ? match(text, i, WordClass::part) : Match{};
  if (!part || part.end != i + 1 || !text[i + 1].is_number() || text[i - 1].is('.')) {
    return false;
  }
  return ends_food(text, from, i) && !is_class(text, i - 1, WordClass::stop);
}

}  // namespace

std::vector<Span> sentences(const Text& text, std::size_t from, std::size_t to) {
  constexpr std::size_t k_long_line = 30;
  std::vector<Span> out;
  std::size_t start = from;
  int depth = 0;
  for (std::size_t i = from; i < to; ++i) {
    // "(slightly beaten. Add …": a bracket that is never closed holds nothing back.
    depth += text[i].is('(') && closes(text, i, to) ? 1 : 0;
    depth -= text[i].is(')') && depth > 0 ? 1 : 0;
    if (const std::size_t head = heading_before(text, start, i); head > start && depth == 0) {
      out.push_back({start, head});
      start = head;
      continue;
    }
    // "… 30 loaves Ingredients Flour: 9 kg … Method 1. Mix"
    const Token& last = text[i > from ? i - 1 : i];
    const bool section = to - from > k_long_line && i > start && depth == 0 && text[i].capital &&
                         !last.capital && (last.kind == TokenKind::word || last.is_number()) &&
                         is_class(text, i, WordClass::section);
    // "… pinch of salt Mix sifted flour and salt …"
    const bool works = to - from > k_long_line && i > start + 1 && depth == 0 && text[i].capital &&
                       !text[i].upper && !last.capital && last.kind == TokenKind::word &&
                       is_class(text, i, WordClass::verb) && !match_name(text, i) &&
                       ends_food(text, start, i);
    const bool part =
        to - from > k_long_line / 2 && i > start && depth == 0 && is_bare_heading(text, start, i);
    if (section || part || works) {
      out.push_back({start, i});
      start = i;
      continue;
    }
    const bool stop = text[i].is('.') || text[i].is('!') || text[i].is('?');
    const bool dots = text[i].is('.') && (text[i + 1].is('.') || (i > from && text[i - 1].is('.')));
    if (!stop || depth > 0 || dots) {
      continue;
    }
    const Token& next = text[i + 1];
    const bool after_abbreviation = i > from && is_abbreviation(text, i - 1);
    const bool begins = next.capital || next.is_number() || next.fresh || next.is('(') ||
                        next.kind == TokenKind::end ||
                        (is_class(text, i + 1, WordClass::verb) && !match_name(text, i + 1)) ||
                        is_class(text, i + 1, WordClass::adverb) ||
                        (is_class(text, i + 1, WordClass::part) && text[i + 2].is(':'));
    // "1 tsp. Salt" goes on; "2 tbsp. Mix" does not.
    const bool verb_next = is_class(text, i + 1, WordClass::verb) && !match_name(text, i + 1);
    const bool goes_on = after_abbreviation && text[i].is('.') && !(next.capital && verb_next);
    if (next.spaced && begins && !goes_on) {
      out.push_back({start, i + 1});
      start = i + 1;
    }
  }
  if (to > start) {
    out.push_back({start, to});
  }
  return out;
}

}  // namespace maslin::reading
