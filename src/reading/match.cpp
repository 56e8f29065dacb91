// Phrases of the word tables found at a token.
#include "reading/token.h"

namespace maslin::reading {
namespace {

/// Things whose kind is often put in a bracket: flour (type 550), yeast (fresh).
bool is_told_by_kind(const Phrase& phrase) {
  return phrase.ingredient != nullptr && (phrase.ingredient->kind == IngredientKind::flour ||
                                          phrase.ingredient->kind == IngredientKind::yeast);
}

/// The token after a bracket of one word or two that opens at `i`; `i` when it is longer.
std::size_t past_short_bracket(const Text& text, std::size_t i) {
  if (text[i + 1].is_number()) {
    return i;  // "packed (7 ounces) brown sugar" tells an amount
  }
  for (std::size_t at = i + 2; at < i + 4; ++at) {
    if (text[at].is(')')) {
      return at + 1;
    }
  }
  return i;
}

/// A unit that no number follows: "1 cubetto di …", not the "g" of "farina 0 g 500".
bool is_unit_before_name(const Text& text, std::size_t i) {
  const Bucket* own = text[i].own;
  return text[i].kind == TokenKind::word && own != nullptr && own->has(WordClass::unit) &&
         text[i + 1].kind == TokenKind::word;
}

// What a name's figure says of where it is one: "plain" is a flour only where no other word
// follows, "peel" is candied only behind a weight.
constexpr double k_where_it_ends = 7.0;
constexpr double k_behind_a_weight = 8.0;
constexpr double k_behind_a_measure = 9.0;  // "1 cup mash potatoes"; "mash potatoes" is a step

bool is_measure_before(const Text& text, std::size_t i, bool weight) {
  const std::size_t unit = i > 0 && text[i - 1].is('.') ? i - 2 : i - 1;
  for (const Phrase& phrase :
       i > 0 && text[unit].own != nullptr ? text[unit].own->phrases : std::vector<Phrase>()) {
    if (phrase.cls == WordClass::unit && phrase.rest.empty() &&
        (!weight || grams_in(phrase.means) > 0.0)) {
      return true;
    }
  }
  return false;
}

/// Past a comma, what is said of a thing up to its name: "plain, full-fat yogurt".
bool names_after_comma(const Text& text, std::size_t i) {
  if (!text[i].is(',') || is_class(text, i + 1, WordClass::or_)) {
    return false;
  }
  std::size_t at = i + 1;
  while (at < i + 4 && text[at].kind == TokenKind::word && !match_name(text, at)) {
    ++at;
  }
  return static_cast<bool>(match_name(text, at));
}

/// Whether the name that ends at `at` is one where it stands.
bool holds_here(const Text& text, std::size_t i, std::size_t at, double value) {
  if (value == k_where_it_ends) {
    const Token& next = text[at];
    const bool word =
        next.kind == TokenKind::word && !is_class(text, at, WordClass::stop) &&
        !is_class(text, at, WordClass::or_) && !is_class(text, at, WordClass::join) &&
        !is_class(text, at, WordClass::purpose) && !is_class(text, at, WordClass::packing) &&
        !is_class(text, at, WordClass::note) && !is_class(text, at, WordClass::plus) &&
        !is_class(text, at, WordClass::with) && !is_class(text, at, WordClass::number);
    return !word && !names_after_comma(text, at);
  }
  return (value != k_behind_a_weight && value != k_behind_a_measure) ||
         is_measure_before(text, i, value == k_behind_a_weight);
}

Match match_in(const Text& text, std::size_t i, const Bucket* bucket, WordClass cls) {
  if (bucket == nullptr || !bucket->has(cls)) {
    return {};
  }
  for (const Phrase& phrase : bucket->phrases) {
    if (phrase.cls != cls) {
      continue;
    }
    std::size_t at = i + 1;
    bool whole = true;
    bool opened = false;
    bool after_comma = false;
    for (const std::string& word : phrase.rest) {
      // "fl. oz.", but not "from the oven. Bake"
      const bool short_word = text[at - 1].word.size() <= 3 || !text[at + 1].capital;
      const bool point = text[at].is('.') && text[at + 1].kind == TokenKind::word && short_word;
      at += point ? 1U : 0U;
      at += text[at].is('%') ? 1U : 0U;
      // "c/n": short for two words
      at += text[at].is('/') && text[at - 1].word.size() == 1 && word.size() == 1 ? 1U : 0U;
      // "yeast (fresh)" is fresh yeast when the table has it in that order, and so is "yeast,
      // fresh"; but not "flour, 550 g sugar".
      const bool comma = is_told_by_kind(phrase) && text[at].is(',') && text[at + 1].word == word &&
                         !(text[at + 1].is_number() && text[at + 2].kind == TokenKind::word);
      const bool bracket = comma || (is_told_by_kind(phrase) && text[at].is('('));
      // "instant (SAF) yeast", "plain (all-purpose) flour": past what is put between.
      const bool in_name = cls == WordClass::name && text[at].is('(');
      if (const std::size_t past = in_name ? past_short_bracket(text, at) : at;
          past > at && text[past].word == word) {
        at = past + 1;
        continue;
      }
      opened = opened || bracket;
      after_comma = after_comma || comma;
      at += bracket ? 1U : 0U;
      if (bracket && !comma) {
        const Match rather = match(text, at, WordClass::rather);  // "flour (ideally type 550)"
        at = rather ? rather.end : at;
      }
      const bool goes_on =
          word.back() == '*' &&
          text[at].word.starts_with(std::string_view(word).substr(0, word.size() - 1));
      if (text[at].word != word && !goes_on) {
        // "huile tournesol" for "huile de tournesol"
        if (text.lexicon->manners.noun_first && cls == WordClass::name &&
            (word == "de" || word == "d")) {
          continue;
        }
        whole = false;
        break;
      }
      ++at;
    }
    // "400 g di farina 1/2 bicchiere di latte": no flour of type 1.
    whole = whole && !(text[at - 1].kind == TokenKind::number && text[at].is('/'));
    // "700 gr di farina1 cubetto": stuck to the name, but the next amount.
    whole = whole && !(at > i + 1 && text[at - 1].kind == TokenKind::number &&
                       !text[at - 1].spaced && is_unit_before_name(text, at));
    whole = whole && (cls != WordClass::name || phrase.value < k_where_it_ends ||
                      holds_here(text, i, at, phrase.value));
    // Not "fresh yeast (dried yeast can be used)".
    if (whole && !(opened && text[at].kind == TokenKind::word && !after_comma)) {
      return {&phrase, at};
    }
  }
  return {};
}

}  // namespace

Match match(const Text& text, std::size_t i, WordClass cls) {
  const Bucket* own = text[i].own;  // looked at before the call: most words are of no such class
  return own != nullptr && own->has(cls) ? match_in(text, i, own, cls) : Match{};
}

Match match_name(const Text& text, std::size_t i) {
  const Match own = match(text, i, WordClass::name);
  const Bucket* names = text[i].name;
  const Match pantry = names != nullptr && names->has(WordClass::name)
                           ? match_in(text, i, names, WordClass::name)
                           : Match{};
  return pantry && (!own || pantry.end > own.end) ? pantry : own;
}

bool is_class(const Text& text, std::size_t i, WordClass cls) {
  return static_cast<bool>(match(text, i, cls));
}

}  // namespace maslin::reading
