#include "reading/heading_part.h"

#include "reading/ingredient_line.h"

namespace maslin::reading {

std::size_t lead_in(const Text& text, std::size_t i, std::size_t to) {
  while (i < to && (text[i].kind == TokenKind::mark || is_class(text, i, WordClass::lead) ||
                    is_class(text, i, WordClass::the))) {
    ++i;
  }
  return i;
}

std::size_t word_count(const Text& text, std::size_t from, std::size_t to) {
  std::size_t words = 0;
  for (std::size_t i = from; i < to; ++i) {
    words += text[i].kind == TokenKind::word ? 1U : 0U;
  }
  return words;
}

namespace {

/// "Schwarzbrotteig", "Vanillepuddingfüllung": a compound that ends with a part word.
const Phrase* last_part_word(const Text& text, std::size_t i) {
  constexpr std::size_t k_shortest = 4;
  const Token& token = text[i];
  if (!text.lexicon->manners.compounds || token.kind != TokenKind::word || !token.capital ||
      is_class(text, i, WordClass::part) || match_name(text, i)) {
    return nullptr;
  }
  const std::string_view word = token.word;
  for (std::size_t n = 3; n + k_shortest <= word.size(); ++n) {
    const auto at = text.lexicon->phrases.find(word.substr(n));
    if (at == text.lexicon->phrases.end()) {
      continue;
    }
    for (const Phrase& phrase : at->second.phrases) {
      if (phrase.cls == WordClass::part && phrase.rest.empty()) {
        return &phrase;
      }
    }
  }
  return nullptr;
}

}  // namespace

const Phrase* part_word(const Text& text, std::size_t from, std::size_t to) {
  const Phrase* found = nullptr;
  std::size_t until = 0;
  for (std::size_t i = from; i < to; ++i) {
    if (i > from && is_class(text, i, WordClass::with)) {
      break;  // "Muffins with Streusel"
    }
    const Match part = match(text, i, WordClass::part);
    if (part && part.end <= to && i >= until) {
      found = part.phrase;
      until = part.end;
    } else if (const Phrase* last = last_part_word(text, i); last != nullptr && i >= until) {
      found = last;
      until = i + 1;
    }
  }
  return found;
}

namespace {

std::string lowered(std::string_view text) {
  std::string out;
  for (const char c : text) {
    out += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  return out;
}

/// "(extract)" after the name: the kind said outright.
std::optional<PartKind> kind_in_bracket(const Text& text, std::size_t from, std::size_t to) {
  for (std::size_t i = from; i + 2 < to; ++i) {
    if (text[i].is('(') && text[i + 2].is(')')) {
      return part_kind_from(lowered(text.slice(i + 1, i + 2)));
    }
  }
  return std::nullopt;
}

}  // namespace

std::size_t name_end(const Text& text, std::size_t from, std::size_t to) {
  std::size_t end = from;
  while (end < to && !(text[end].wide && end > from) &&
         (text[end].kind != TokenKind::mark || text[end].is('&') || text[end].is('\'') ||
          text[end].is('-') || text[end].is('.'))) {
    ++end;
  }
  return end;
}

std::string part_name(const Text& text, std::size_t from, std::size_t to) {
  std::string name = lowered(text.slice(from, name_end(text, from, to)));
  while (!name.empty() && (name.back() == ' ' || name.back() == '.' || name.back() == '-')) {
    name.pop_back();
  }
  return name;
}

namespace {

/// Whether a lead ("for the") follows the name of a food: then it is the line of that food.
bool leads_on(const Text& text, std::size_t i, std::size_t to) {
  return i + 1 < to && is_class(text, i, WordClass::lead) && !is_class(text, i, WordClass::of);
}

}  // namespace

bool is_heading_alone(const Text& text, std::size_t from, std::size_t to) {
  // "İç harç için": the word that leads stands last.
  while (to > from + 1 && is_class(text, to - 1, WordClass::lead) &&
         !is_class(text, to - 1, WordClass::part)) {
    --to;
  }
  // "Garniture de la tarte flambée"
  const std::size_t first = lead_in(text, from, to);
  const Match begins = match(text, first, WordClass::part);
  if (begins && text.lexicon->manners.noun_first && is_class(text, begins.end, WordClass::of) &&
      !match_name(text, first) && text[first].capital) {
    return true;
  }
  // "For garnishing onion seeds": what it is for, then the thing.
  if (const Match purpose = match(text, from, WordClass::purpose); purpose && purpose.end < to) {
    const Match thing = match_name(text, purpose.end);
    if (thing && thing.end == to && !is_class(text, to - 1, WordClass::part)) {
      return false;
    }
  }
  std::size_t named_to = to;
  for (std::size_t i = from; i < to; ++i) {
    if (text[i].is(',') || text[i].is(';')) {
      return false;
    }
    if (const Match name = match_name(text, i)) {
      named_to = named_to == to ? name.end : named_to;
      // "Icing sugar for the glaze"
      if (leads_on(text, name.end, to)) {
        return false;
      }
      const bool whole = i <= lead_in(text, from, to) && name.end + 1 >= to;
      if (name.end > i + 1 && !whole) {
        i = name.end - 1;  // "sesame seeds" are no heading
        continue;
      }
    }
    if (is_class(text, i, WordClass::purpose) && i >= named_to && i > from) {
      return false;
    }
    if (i > from && is_class(text, i, WordClass::with)) {
      break;
    }
    if (i + 1 == to && last_part_word(text, i) != nullptr) {
      return true;
    }
    const Match part = match(text, i, WordClass::part);
    if (part && (part.end >= to || text[part.end].is('(') || text[part.end].is('.') ||
                 text[part.end].is('~') || text[part.end].is('*') || text[part.end].is('-'))) {
      return true;
    }
  }
  return kind_in_bracket(text, from, to).has_value();
}

std::optional<Heading> part_heading(const Text& text, std::size_t from, std::size_t end) {
  const std::size_t start = lead_in(text, from, end);
  const Phrase* word = part_word(text, from, end);
  auto said = kind_in_bracket(text, from, end);
  // "To decorate:", "For brushing:"
  if (const Match purpose = match(text, from, WordClass::purpose);
      word == nullptr && !said && purpose && purpose.end >= end &&
      purpose.phrase->means != "need" && purpose.phrase->means != "taste" &&
      purpose.phrase->means != "extra") {
    said = purpose.phrase->means == "wash" ? PartKind::wash : PartKind::topping;
  }
  if (word == nullptr && !said) {
    return std::nullopt;
  }
  Heading out;
  out.part = said ? said : part_kind_from(word->means);
  out.name = part_name(text, start < end ? start : from, end);
  out.name_end = name_end(text, start < end ? start : from, end);
  return out;
}

std::optional<Heading> heading_before_gap(const Text& text, std::size_t from, std::size_t to) {
  const Match part = match(text, from, WordClass::part);
  if (!part || part.end >= to || !text[part.end].wide || !look_at(text, part.end, to).name) {
    return std::nullopt;
  }
  Heading out;
  out.part = part_kind_from(part.phrase->means);
  out.name = part_name(text, from, part.end);
  out.name_end = part.end;
  out.end = part.end;
  return out;
}

}  // namespace maslin::reading
