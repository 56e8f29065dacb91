#include "reading/kind_told.h"

#include <algorithm>
#include <string>

#include "reading/measure.h"

namespace maslin::reading {
namespace {

/// "flour (type 550)", "yeast (fresh)": the bracket tells the kind of the same thing.
const Ingredient* kind_in_bracket(const Text& text, const Noun& noun, std::size_t to) {
  if (noun.ingredient == nullptr || !text[noun.to].is('(') ||
      (noun.ingredient->kind != IngredientKind::flour &&
       noun.ingredient->kind != IngredientKind::yeast)) {
    return noun.ingredient;
  }
  if (is_class(text, noun.to + 1, WordClass::or_) ||
      (is_class(text, noun.to + 1, WordClass::stop) &&
       !is_class(text, noun.to + 1, WordClass::rather) && !match_name(text, noun.to + 1))) {
    return noun.ingredient;  // "(NOT fresh yeast)"
  }
  // "(1 packet rapid rise)": past the amount; "(ideally type 550)".
  const auto amount = any_measure(text, noun.to + 1);
  const bool told = noun.match_to > noun.match_from + 1;  // "T45 flour (ideally strong)" is T45
  const Match rather = told ? Match{} : match(text, noun.to + 1, WordClass::rather);
  const std::size_t first = amount && amount->number ? amount->to
                            : rather                 ? rather.end
                                                     : noun.to + 1;
  for (std::size_t i = first; i < to && !text[i].is(')'); ++i) {
    const Match name = match_name(text, i);
    // "(T45 or T55)", not "(dried yeast can be used)"
    const bool whole = name && (text[name.end].is(')') || is_class(text, name.end, WordClass::or_));
    // Not "(I used bread flour)".
    const bool type = text[i].word.find_first_of("0123456789") != std::string::npos;  // "T45"
    if (whole && i <= first + 1 && (name.end > i + 1 || type) &&
        name.phrase->ingredient->kind == noun.ingredient->kind) {
      return name.phrase->ingredient;
    }
  }
  return noun.ingredient;
}

/// Past the marks and amounts behind a name; `to` when there is no amount and no bracket, so that
/// nothing is told apart from the name.
std::size_t past_amounts(const Text& text, std::size_t from, std::size_t to) {
  bool apart = false;
  std::size_t i = from;
  while (i < to) {
    if (const auto measure = any_measure(text, i); measure && measure->to > i) {
      apart = true;
      i = measure->to;
    } else if (text[i].kind == TokenKind::mark || is_class(text, i, WordClass::approx)) {
      apart = apart || text[i].is('(');
      ++i;
    } else {
      break;
    }
  }
  return apart ? i : to;
}

/// What the words behind the amount make of the noun: "wholemeal" of "flour", "glas" of "sucre".
KindTold kind_of_words(const Text& text, const Noun& noun, std::size_t to) {
  constexpr std::size_t k_most_words = 3;
  const KindTold as_named{noun.ingredient, noun.generic};
  const std::size_t first = past_amounts(text, noun.to, to);
  std::size_t last = first;
  while (last < to && text[last].kind == TokenKind::word && !is_class(text, last, WordClass::or_) &&
         !is_class(text, last, WordClass::purpose)) {
    ++last;
  }
  if (last == first || last > first + k_most_words || (last < to && text[last].is_number())) {
    return as_named;
  }
  const KindTold kind = kind_said(text, {noun.match_from, noun.match_to}, {first, last});
  const bool same = kind.ingredient != nullptr && kind.ingredient->kind == noun.ingredient->kind;
  return same ? kind : as_named;
}

}  // namespace

KindTold kind_said(const Text& text, const Span& name, const Span& said) {
  const std::string named(text.slice(name.from, name.to));
  const std::string more(text.slice(said.from, said.to));
  const Text words =
      tokenise(text.lexicon->manners.noun_first ? named + " " + more : more + " " + named,
               *text.lexicons, *text.lexicon);
  for (std::size_t i = 0; i < words.size(); ++i) {
    const Match whole = match_name(words, i);
    if (whole && whole.end == words.size() && whole.end - i > name.to - name.from) {
      return {whole.phrase->ingredient, whole.phrase->value};
    }
    // Only what is said of it may stand before: "fine sea salt".
    if (!is_class(words, i, WordClass::note) && !is_class(words, i, WordClass::packing) &&
        !is_class(words, i, WordClass::size)) {
      break;
    }
  }
  return {};
}

KindTold kind_told(const Text& text, const Noun& noun, std::size_t to) {
  const KindTold as_named{noun.ingredient, noun.generic};
  if (noun.ingredient == nullptr) {
    return as_named;
  }
  if (const Ingredient* bracket = kind_in_bracket(text, noun, to); bracket != noun.ingredient) {
    return {bracket, 0.0};
  }
  // Of eggs the words behind tell a part: "the yolks of 4, the whites of 2".
  const bool one =
      noun.match_to == noun.match_from + 1 && noun.ingredient->kind != IngredientKind::egg;
  return one ? kind_of_words(text, noun, to) : as_named;
}

}  // namespace maslin::reading
