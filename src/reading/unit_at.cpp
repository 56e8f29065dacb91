#include "reading/unit_at.h"

namespace maslin::reading {
namespace {

/// The unit that the word alone means, null when it means none.
const Phrase* unit_word(const Text& text, std::string_view word) {
  const Bucket* bucket = text.lexicon->bucket(word);
  for (std::size_t n = 0; bucket != nullptr && n < bucket->phrases.size(); ++n) {
    const Phrase& phrase = bucket->phrases[n];
    if (phrase.cls == WordClass::unit && phrase.rest.empty()) {
      return &phrase;
    }
  }
  return nullptr;
}

}  // namespace

Match unit_at(const Text& text, std::size_t i) {
  if (text[i].is('#') && !text[i].spaced && i > 0 && text[i - 1].is_number()) {
    if (const Phrase* pound = unit_word(text, "lb")) {
      return {pound, i + 1};  // "5# flour"
    }
  }
  Match unit = match(text, i, WordClass::unit);
  if (!unit) {
    return {};
  }
  // "1 pot de yaourt nature" is a pot of yogurt, "2 pots de yaourt de sucre" is two of sugar.
  const bool holds_name = unit.end > i + 2 && match_name(text, unit.end - 1);
  const Match full = match(text, unit.end, WordClass::packing);  // "llenos de azúcar"
  const bool of =
      is_class(text, unit.end, WordClass::of) || (full && is_class(text, full.end, WordClass::of));
  if (holds_name && !of) {
    if (const Phrase* vessel = unit_word(text, text[i].word)) {
      unit = {vessel, i + 1};
    }
  }
  // "T" is a tablespoon, "t" a teaspoon.
  if (text[i].word == "t" && text[i].capital && unit.phrase->means == "tsp") {
    if (const Phrase* big = unit_word(text, "tb")) {
      unit.phrase = big;
    }
  }
  for (std::size_t dots = 0; dots < 2 && text[unit.end].is('.') && !text[unit.end].spaced; ++dots) {
    ++unit.end;  // "2 oz.. flour" is a slip
  }
  return unit;
}

}  // namespace maslin::reading
