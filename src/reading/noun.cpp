#include "reading/noun.h"

#include "reading/measure.h"
#include "reading/spelling.h"

namespace maslin::reading {
namespace {

bool is_mark_stop(const Token& token) {
  return token.kind == TokenKind::mark && !token.is('\'') && !token.is('"') && !token.is('.') &&
         !token.is('&') && !token.is('#') && !token.is('/') && !token.is('-') && !token.is('%');
}

bool is_word_stop(const Text& text, std::size_t i) {
  return is_class(text, i, WordClass::purpose) || is_class(text, i, WordClass::plus) ||
         is_class(text, i, WordClass::less) || is_class(text, i, WordClass::size_of) ||
         is_class(text, i, WordClass::stop) || is_class(text, i, WordClass::until);
}

struct Best {
  const Ingredient* ingredient = nullptr;
  double generic = 0.0;
  std::size_t from = 0;
  std::size_t to = 0;
};

Best best_name(const Text& text, std::size_t from, std::size_t to) {
  Best best;
  for (std::size_t i = from; i < to; ++i) {
    const Match name = match_name(text, i);
    if (!name || name.end > to) {
      continue;
    }
    const std::size_t words = name.end - i;
    const std::size_t had = best.to - best.from;
    // "Queso feta": the second says which of its kind.
    const bool nearer = best.ingredient != nullptr && words == had && i == best.to &&
                        name.phrase->ingredient->kind == IngredientKind::cheese &&
                        best.ingredient->kind == IngredientKind::cheese;
    const bool wins = words > had || nearer || (words == had && !text.lexicon->manners.noun_first);
    if (best.ingredient == nullptr || wins) {
      best = {name.phrase->ingredient, name.phrase->value, i, name.end};
    }
  }
  return best;
}

/// Leading words that are said of the ingredient: "finely chopped", "1 large ripe".
std::size_t leading(const Text& text, std::size_t i, std::size_t to, Noun& noun) {
  const std::size_t start = i;
  while (i < to) {
    const Match name = match_name(text, i);
    if (name && name.end - i > 1) {
      break;
    }
    if (const Match of = match(text, i, WordClass::of)) {
      i = of.end;
    } else if (const Match the = match(text, i, WordClass::the)) {
      i = the.end;
    } else if (const Match size = match(text, i, WordClass::size)) {
      noun.size = size.phrase->means;
      i = size.end;
    } else if (const Match packing = match(text, i, WordClass::packing)) {
      noun.packing = packing.phrase->means.empty() ? noun.packing : packing.phrase->means;
      i = packing.end;
    } else if (const Match note = match(text, i, WordClass::note)) {
      i = note.end;
    } else if (i > start &&
               (is_class(text, i, WordClass::join) || text[i].is('&') || text[i].is(','))) {
      // "peeled and grated", "warm, whole": only when another such word follows.
      const bool more =
          is_class(text, i + 1, WordClass::note) || is_class(text, i + 1, WordClass::packing);
      if (!more) {
        break;
      }
      ++i;
    } else {
      break;
    }
  }
  return i;
}

/// Words said before the name, without "of" and articles.
std::string leading_note(const Text& text, std::size_t from, std::size_t to) {
  while (from < to &&
         (is_class(text, from, WordClass::of) || is_class(text, from, WordClass::the))) {
    ++from;
  }
  return std::string(text.slice(from, to));
}

bool has_unknown(const Text& text, std::size_t from, std::size_t to) {
  for (std::size_t i = from; i < to && i < text.size(); ++i) {
    const Token& token = text[i];
    const bool unknown = token.kind == TokenKind::word && token.own == nullptr &&
                         token.name == nullptr && token.word.size() >= 4;
    if (unknown || is_class(text, i, WordClass::spelling)) {
      return true;
    }
  }
  return false;
}

Noun noun_in(const Text& text, std::size_t from, std::size_t to) {
  Noun noun;
  noun.from = leading(text, from, to, noun);
  noun.to = noun_end(text, noun.from, to);
  const Best best = best_name(text, noun.from, noun.to);
  noun.ingredient = best.ingredient;
  noun.generic = best.generic;
  noun.match_from = best.from;
  noun.match_to = best.to;
  noun.note = leading_note(text, from, noun.from);
  // Only the end of the word was known.
  noun.mended = best.ingredient != nullptr && text.lexicon->manners.compounds &&
                text[best.from].kind == TokenKind::word &&
                text.lexicon->phrases.find(text[best.from].word) == text.lexicon->phrases.end() &&
                text.lexicons->names.bucket(text[best.from].word) == nullptr;
  return noun;
}

/// "Sunflower or vegetable oil": the first of two with one noun, when it is a name.
void take_first_of_two(const Text& text, std::size_t to, Noun& noun) {
  std::size_t either = noun.from;
  while (either < noun.match_from && !is_class(text, either, WordClass::or_)) {
    ++either;
  }
  // "Sprouted wheat or spelt flour": the noun stands after the second.
  const std::size_t after = noun.match_to;
  if (noun.ingredient != nullptr && is_class(text, after, WordClass::or_)) {
    for (std::size_t i = after + 1; i < std::min(to, after + 4); ++i) {
      const Match second = match_name(text, i);
      if (!second || second.end < i + 2) {
        continue;
      }
      const std::string whole = std::string(text.slice(noun.match_from, after)) + " " +
                                std::string(text.slice(second.end - 1, second.end));
      const Text words = tokenise(whole, *text.lexicons, *text.lexicon);
      const Match first = match_name(words, 0);
      // "Butter or olive oil" is not butter oil: butter is of the kind of the second already.
      const IngredientKind kind = second.phrase->ingredient->kind;
      if (first && first.end > noun.match_to - noun.match_from && noun.ingredient->kind != kind &&
          first.phrase->ingredient->kind == kind) {
        noun.ingredient = first.phrase->ingredient;
        noun.generic = first.phrase->value;
        return;
      }
      break;
    }
  }
  if (noun.ingredient == nullptr || either >= noun.match_from || either == noun.from ||
      noun.match_to < noun.match_from + 2) {
    return;
  }
  const std::string first = std::string(text.slice(noun.from, either)) + " " +
                            std::string(text.slice(noun.match_to - 1, noun.match_to));
  const Text words = tokenise(first, *text.lexicons, *text.lexicon);
  const Best best = best_name(words, 0, words.size());
  if (best.ingredient != nullptr && best.to - best.from >= 2) {
    noun.ingredient = best.ingredient;
    noun.generic = best.generic;
  }
}

}  // namespace

bool is_counted(IngredientKind kind) {
  return kind == IngredientKind::egg || kind == IngredientKind::fruit ||
         kind == IngredientKind::vegetable || kind == IngredientKind::potato;
}

std::size_t noun_end(const Text& text, std::size_t from, std::size_t to) {
  bool named = false;
  bool opened = false;
  std::size_t named_to = from;
  for (std::size_t i = from; i < to; ++i) {
    if (const Match name = match_name(text, i); name && name.end <= to) {
      named = true;
      named_to = std::max(named_to, name.end);
    }
    if (i < named_to) {
      opened = opened || text[i].is('(');
      continue;
    }
    const Token& token = text[i];
    if (opened && token.is(')')) {
      opened = false;  // "flour (type 550)" is one name
      continue;
    }
    if (is_mark_stop(token) || is_word_stop(text, i)) {
      return i;
    }
    if (token.is('-') && (token.spaced || text[i + 1].spaced)) {
      return i;
    }
    const bool abbreviation = i > from && text[i - 1].word.size() <= 4 && i + 1 < to &&
                              text[i + 1].kind == TokenKind::word && !text[i + 1].capital;
    if (token.is('.') && !abbreviation &&
        (text[i + 1].spaced || i + 1 >= to || text[i + 1].is('.'))) {
      return i;  // "veg. oil" goes on
    }
    const bool joins = is_class(text, i, WordClass::or_) || is_class(text, i, WordClass::join) ||
                       token.is('&') || token.is('/');
    const bool counts = is_class(text, i, WordClass::number);  // "loaves of bread three quarts"
    if (named && (joins || token.is_number() || counts)) {
      return i;
    }
    if (named && token.wide) {
      return i;
    }
  }
  return to;
}

Noun find_noun(Text& text, std::size_t from, std::size_t to) {
  Noun noun = noun_in(text, from, to);
  // "warm (110 to 115 degrees F) water": the name stands behind the bracket.
  if (noun.to == noun.from && noun.from < to && text[noun.from].is('(')) {
    std::size_t close = noun.from;
    while (close < to && !text[close].is(')')) {
      ++close;
    }
    if (close + 1 < to && match_name(text, close + 1)) {
      const std::string said = leading_note(text, from, noun.from);
      noun = noun_in(text, close + 1, to);
      noun.note = said;
    }
  }
  take_first_of_two(text, to, noun);
  if (has_unknown(text, noun.from, noun.to)) {
    // Misspelt words: only when mending leads to a longer name.
    Text mended = text;
    if (mend_words(mended, noun.from, noun.to) > 0) {
      Noun better = noun_in(mended, from, to);
      const std::size_t had = noun.match_to - noun.match_from;
      if (better.ingredient != nullptr && better.match_to - better.match_from > had) {
        text = std::move(mended);
        better.mended = true;
        return better;
      }
    }
  }
  if (noun.ingredient != nullptr) {
    return noun;
  }
  // Past the comma: "1 cup warm, whole milk".
  const Best later = best_name(text, noun.to, to);
  if (later.ingredient != nullptr && later.from <= noun.to + 6) {
    noun.ingredient = later.ingredient;
    noun.match_from = later.from;
    noun.match_to = later.to;
    noun.to = later.to;
  }
  return noun;
}

}  // namespace maslin::reading
