#include "reading/line_shape.h"

#include "reading/kind_told.h"
#include "reading/measure.h"
#include "reading/setting.h"

namespace maslin::reading {
namespace {

/// Small words that may stand before the verb of a step.
std::size_t skip_adverbs(const Text& text, std::size_t i, std::size_t to) {
  while (i < to && (is_class(text, i, WordClass::adverb) || is_class(text, i, WordClass::join) ||
                    text[i].is(',') || text[i].is('('))) {
    ++i;
  }
  return i;
}

}  // namespace

std::size_t skip_numbering(const Text& text, std::size_t i, bool& numbered) {
  numbered = false;
  if (text[i].circled) {
    numbered = true;
    return i + 1;
  }
  std::size_t at = i;
  const bool step_word = is_class(text, at, WordClass::step);
  at += step_word ? 1U : 0U;
  const bool bracket = text[at].is('(');
  at += bracket ? 1U : 0U;
  const bool letter = text[at].kind == TokenKind::word && text[at].word.size() == 1 &&
                      text[at + 1].is(')') && !text[at + 1].spaced && at == i;  // "a) 500 g"
  const bool digit = text[at].kind == TokenKind::number || text[at].word == "l" || letter;
  if (!digit) {
    return i;
  }
  const Token& mark = text[at + 1];
  const bool marked =
      (mark.is('.') || mark.is(')') || (step_word && mark.is(':'))) && (!mark.spaced || step_word);
  const Token& next = text[at + 2];
  const bool word = next.kind == TokenKind::word && next.capital && next.word.size() > 1;
  if (marked && next.kind != TokenKind::end && (next.spaced || word)) {  // "1.For the dough:"
    numbered = true;
    return at + 2;
  }
  const bool verb_next = text[at + 1].capital && is_class(text, at + 1, WordClass::verb) &&
                         !is_class(text, at + 1, WordClass::unit);
  if ((step_word || verb_next) && text[at].value < 40.0) {
    numbered = true;
    return at + 1 + (mark.is('.') || mark.is(':') ? 1U : 0U);
  }
  return i;
}

bool divides_first(const Text& text, std::size_t from, std::size_t to) {
  const std::size_t start = skip_bullets(text, from, to);
  const auto number = text[start].is_number() ? any_number(text, start) : std::nullopt;
  std::size_t at = number ? number->end : to;
  while (at < to && is_class(text, at, WordClass::size)) {
    ++at;
  }
  const Match piece = at < to ? match(text, at, WordClass::piece) : Match{};
  if (!piece || number->range.low < 2.0) {
    return false;
  }
  at = piece.end;
  while (at < to && (is_class(text, at, WordClass::of) || is_class(text, at, WordClass::approx) ||
                     is_class(text, at, WordClass::stop) || text[at].is('@'))) {
    ++at;
  }
  const auto each = at > piece.end && at < to ? any_measure(text, at) : std::nullopt;
  return each && each->number && unit_kind(each->unit) == UnitKind::mass &&
         (each->to >= to || text[each->to].kind == TokenKind::mark ||
          is_class(text, each->to, WordClass::each));
}

bool verb_first(const Text& text, std::size_t from, std::size_t to) {
  const std::size_t i = skip_adverbs(text, from, to);
  const Match verb = match(text, i, WordClass::verb);
  if (!verb || is_class(text, i, WordClass::purpose)) {
    return false;
  }
  const Match name = match_name(text, i);
  if (!name) {
    // "Warm ghee (3 tablespoons)" says how the ghee is.
    const Match thing = is_class(text, i, WordClass::note) ? match_name(text, verb.end) : Match{};
    if (thing && text[thing.end].is('(') && text[to - 1].is(')')) {
      return !any_measure(text, thing.end + 1).has_value();
    }
    return true;
  }
  // "Cream the yeast" against "Cream, 200 ml" and "Butter for the tin".
  const std::size_t next = verb.end;
  if (is_class(text, next, WordClass::size_of)) {
    return false;  // "butter the size of an egg"
  }
  // "Cream 2 tablespoons of butter with …" against "Cream 200 ml".
  if (const auto amount = text[next].is_number() ? any_measure(text, next) : std::nullopt;
      amount && name.end == next && amount->to < to && verb.phrase->means == "mix") {
    const std::size_t at = amount->to + (is_class(text, amount->to, WordClass::of) ? 1U : 0U);
    const Match thing = match_name(text, at);
    // "Flour 600 g rye, sifted" tells which flour.
    return thing && thing.end < to && !text[thing.end].is_number() &&
           kind_said(text, {i, name.end}, {at, thing.end}).ingredient == nullptr;
  }
  return name.end == next &&
         (is_class(text, next, WordClass::article) || is_class(text, next, WordClass::the) ||
          (text[next].kind == TokenKind::word && match_name(text, next)) ||
          is_class(text, next, WordClass::adverb));
}

bool verb_ends(const Text& text, std::size_t from, std::size_t to) {
  if (!text.lexicon->manners.verb_last || to < from + 3 || !text[to - 1].is('.')) {
    return false;
  }
  const std::size_t last = to - 2;
  const Match verb = match(text, last, WordClass::verb);
  return verb && !match_name(text, last) && !is_class(text, last, WordClass::note) &&
         !is_class(text, last, WordClass::packing) && !is_class(text, last, WordClass::unit) &&
         !is_class(text, last, WordClass::piece) && !is_class(text, last, WordClass::part) &&
         !is_class(text, last - 1, WordClass::to);
}

bool has_setting(const Text& text, std::size_t from, std::size_t to) {
  for (std::size_t i = from; i < to; ++i) {
    if (any_time(text, i) || any_heat(text, i)) {
      return true;
    }
  }
  return false;
}

std::size_t verb_count(const Text& text, std::size_t from, std::size_t to) {
  std::size_t verbs = 0;
  int depth = 0;
  for (std::size_t i = from; i < to; ++i) {
    depth += text[i].is('(') ? 1 : 0;
    depth -= text[i].is(')') && depth > 0 ? 1 : 0;
    if (depth > 0 && i > from) {
      continue;  // "2 cups (boil, then let it cool)"
    }
    if (const Match purpose = match(text, i, WordClass::purpose)) {
      i = purpose.end - 1;  // "for brushing"
      continue;
    }
    if (const Match name = match_name(text, i); name && name.end > i + 1) {
      i = name.end - 1;  // nothing within a name is a verb
      continue;
    }
    if (const Match stop = match(text, i, WordClass::stop); stop && stop.end > i + 1) {
      i = stop.end - 1;  // "give or take"
      continue;
    }
    // "I use 3/4", "like the book says": an aside on an amount does nothing.
    const Bucket* own = text[i].own;
    if (own != nullptr && (own->has(WordClass::own) || own->has(WordClass::told))) {
      const Match aside = match(text, i, WordClass::own);
      if (const Match said = aside ? aside : match(text, i, WordClass::told); said) {
        i = said.end - 1;
        continue;
      }
    }
    const Match verb = match(text, i, WordClass::verb);
    const bool noun =
        verb && (match_name(text, i) || is_class(text, i, WordClass::note) ||
                 is_class(text, i, WordClass::packing) || is_class(text, i, WordClass::unit) ||
                 is_class(text, i, WordClass::piece) ||
                 (i > from + 1 && is_class(text, i - 1, WordClass::the) &&
                  is_class(text, i - 2, WordClass::lead)));  // "per l'impasto"
    verbs += verb && !noun ? 1U : 0U;
  }
  return verbs;
}

}  // namespace maslin::reading
