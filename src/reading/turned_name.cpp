#include "reading/turned_name.h"

namespace maslin::reading {

void turn_round(const Text& text, std::size_t from, std::size_t to, Noun& noun) {
  std::size_t comma = from;
  while (comma < to && !text[comma].is(',')) {
    ++comma;
  }
  if (comma >= to || comma > from + 3) {
    return;
  }
  const auto try_name = [&](std::size_t first, std::size_t end) {
    for (std::size_t i = first; i < end; ++i) {
      end = text[i].is('(') ? i : end;
    }
    const std::string turned =
        std::string(text.slice(first, end)) + " " + std::string(text.slice(from, comma));
    Text other = tokenise(turned, *text.lexicons, *text.lexicon);
    const Noun whole = find_noun(other, 0, other.size());
    if (whole.ingredient != nullptr &&
        whole.match_to - whole.match_from > noun.match_to - noun.match_from) {
      noun.ingredient = whole.ingredient;
      noun.generic = whole.generic;
      return true;
    }
    return false;
  };
  // "Yeast, active, dry": all that follows, else the last of it ("Flour, wheat, bread").
  std::size_t last = to;
  while (last > comma + 1 && !text[last - 1].is(',')) {
    --last;
  }
  if (try_name(comma + 1, to) || (last > comma + 1 && try_name(last, to))) {
    return;
  }
  // "Milk, white, fat free": any of them.
  for (std::size_t first = comma + 1; first < to;) {
    std::size_t end = first;
    while (end < to && !text[end].is(',')) {
      ++end;
    }
    if (end > first && try_name(first, end)) {
      return;
    }
    first = end + 1;
  }
}

void turn_last(const Text& text, std::size_t to, Noun& noun) {
  constexpr std::size_t k_most = 3;
  if (noun.ingredient == nullptr || noun.to >= to || !text[noun.to].is(',') ||
      to > noun.to + 1 + k_most || noun.to + 1 >= to) {
    return;
  }
  for (std::size_t i = noun.to + 1; i < to; ++i) {
    if (text[i].kind != TokenKind::word || is_class(text, i, WordClass::packing) ||
        is_class(text, i, WordClass::or_)) {
      return;
    }
  }
  const std::string turned = std::string(text.slice(noun.to + 1, to)) + " " +
                             std::string(text.slice(noun.match_from, noun.match_to));
  const Text other = tokenise(turned, *text.lexicons, *text.lexicon);
  const Match whole = match_name(other, 0);
  if (whole && whole.end == other.size() && noun.match_to == noun.to) {
    noun.ingredient = whole.phrase->ingredient;
    noun.generic = 0.0;
  }
}

}  // namespace maslin::reading
