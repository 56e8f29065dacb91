#include "reading/heading.h"

#include <algorithm>

#include "reading/amounts.h"
#include "reading/heading_part.h"
#include "reading/ingredient_line.h"
#include "reading/measure.h"
#include "reading/setting.h"
#include "reading/spelling.h"

namespace maslin::reading {
namespace {

SectionKind section_from(std::string_view means) {
  if (means == "ingredients") {
    return SectionKind::ingredients;
  }
  if (means == "method") {
    return SectionKind::method;
  }
  return means == "notes" ? SectionKind::notes : SectionKind::end;
}

/// A line of a list whose lines end in semicolons, not "For the filling;".
bool names_food(const Text& text, std::size_t from, std::size_t to) {
  if (is_class(text, from, WordClass::lead) || is_class(text, from, WordClass::purpose)) {
    return false;
  }
  for (std::size_t i = from; i < to; ++i) {
    const Match name = match_name(text, i);
    const auto measure = any_measure(text, i);
    if ((name && (name.end > i + 1 || !is_class(text, i, WordClass::part))) ||
        (measure && measure->number && !measure->bare_article)) {
      return true;
    }
  }
  return false;
}

/// Where the heading's own words end: a colon, or the end of a short line.
std::size_t colon_at(const Text& text, std::size_t from, std::size_t to) {
  std::size_t most = 12;
  int depth = 0;
  for (std::size_t i = from; i < std::min(to, from + most); ++i) {
    // What a bracket says does not make the heading longer: "Soaker (12 to 24 hours before):".
    depth += text[i].is('(') ? 1 : 0;
    most += depth > 0 && most < 30 ? 1U : 0U;
    depth -= text[i].is(')') && depth > 0 ? 1 : 0;
    // Old books: "Ingredients.—1 lb of flour".
    const bool dashed = text[i].is('.') && text[i + 1].is('-') && !text[i + 1].spaced && i > from;
    // "Filling - 2 tbsp jam, 50 g nuts"
    const bool arrow = text[i + 1].is('>');  // "topping -> stick of butter"
    const bool apart = text[i].is('-') && text[i].spaced && i > from &&
                       ((text[i + 1].spaced && text[i + 1].is_number()) || arrow) &&
                       is_class(text, i - 1, WordClass::part) && !names_food(text, from, i);
    if (text[i].is(':') || dashed || apart) {
      return i;
    }
    if (text[i].is(';') && i + 1 == to && i > from && !names_food(text, from, i)) {
      return i;  // "For the filling;", but not "1 tsp vanilla extract;" in a list
    }
    if (text[i].is('.') || text[i].is(';')) {
      return to;
    }
  }
  return to;
}

bool is_capitals(const Text& text, std::size_t from, std::size_t to) {
  bool any = false;
  for (std::size_t i = from; i < to; ++i) {
    if (text[i].kind == TokenKind::word) {
      if (!text[i].upper && text[i].end - text[i].begin > 1) {
        return false;
      }
      any = true;
    }
  }
  return any;
}

bool has_amount(const Text& text, std::size_t from, std::size_t to) {
  for (std::size_t i = from; i < to; ++i) {
    const auto measure = any_measure(text, i);
    if (measure && measure->number && !measure->bare_article &&
        (i == from || !measure->unit.empty())) {
      return true;
    }
  }
  return false;
}

/// Where a bracket opens at the end of a line: what it says does not make a heading longer.
std::size_t before_bracket(const Text& text, std::size_t from, std::size_t to) {
  if (to > from && text[to - 1].is(')')) {
    for (std::size_t i = from; i < to; ++i) {
      if (text[i].is('(')) {
        return i;
      }
    }
  }
  return to;
}

/// The plain word for a list, "ingredients", that begins a line with a capital.
bool is_plain_list_word(const Text& text, std::size_t i) {
  const Match section = match(text, i, WordClass::section);
  return section && section.phrase->value == 1.0 && text[i].capital;
}

std::optional<Heading> section_or_label(const Text& text, std::size_t from, std::size_t end,
                                        std::size_t line_end) {
  constexpr std::size_t k_longest_list_heading = 10;
  const std::size_t start = lead_in(text, from, end);
  // "Swirl ingredients": the part, and that its list follows.
  if (const Match part = match(text, start, WordClass::part);
      part && part.end + 1 == end && is_class(text, part.end, WordClass::section)) {
    const Match section = match(text, part.end, WordClass::section);
    if (section_from(section.phrase->means) == SectionKind::ingredients) {
      Heading out;
      out.section = SectionKind::ingredients;
      out.part = part_kind_from(part.phrase->means);
      out.name = part_name(text, start, part.end);
      out.name_end = name_end(text, start, end);
      return out;
    }
  }
  for (const std::size_t at : {from, start}) {
    if (const Match section = match(text, at, WordClass::section)) {
      const std::size_t rest =
          word_count(text, section.end, before_bracket(text, section.end, end));
      // "Ingredientes necesarios para preparar bollitos de leche": the plain word itself.
      const bool plain = is_plain_list_word(text, at) && at == from && end == line_end &&
                         rest <= k_longest_list_heading;
      if (rest <= 3 || plain) {
        Heading out;
        out.section = section_from(section.phrase->means);
        // "Ingredients for the sponge:"
        const Phrase* part = part_word(text, section.end, end);
        if (part != nullptr && out.section == SectionKind::ingredients) {
          const std::size_t named = lead_in(text, section.end, end);
          out.part = part_kind_from(part->means);
          out.name = part_name(text, named, end);
          out.name_end = name_end(text, named, end);
        }
        return out;
      }
    }
    const Match label = at == from ? match(text, at, WordClass::label) : Match{};
    const bool for_something = label && is_class(text, from, WordClass::lead) &&
                               label.end == from + 1 && !any_number(text, label.end);
    if (label && !for_something) {
      Heading out;
      out.label = label.phrase->means;
      out.end = label.end;
      return out;
    }
  }
  return std::nullopt;
}

/// "poppy seeds: 1 tbsp (optional)": a food and its amount, though seeds may be a topping too.
bool is_food_row(const Text& text, std::size_t from, std::size_t colon, std::size_t to) {
  // "2 tbsp sesame seeds: toasted, sprinkled over before baking"
  const auto amount = text[from].is_number() ? any_measure(text, from) : std::nullopt;
  const Match counted = amount && !amount->unit.empty() ? match_name(text, amount->to) : Match{};
  if (counted && counted.end == colon) {
    return true;
  }
  const Match name = match_name(text, from);
  if (!name || name.end != colon || colon + 1 >= to) {
    return false;
  }
  const Amounts amounts = amounts_at(text, colon + 1, to);
  if (!amounts.primary || !amounts.primary->number) {
    return false;
  }
  // Another row may follow at once: "9 kg Butter: …".
  const Match next = match_name(text, amounts.end);
  return !next || text[next.end].is(':');
}

}  // namespace

std::optional<Heading> read_heading(Text& text, std::size_t from, std::size_t to) {
  const std::size_t start = skip_bullets(text, from, to);
  const std::size_t colon = colon_at(text, start, to);
  const bool list_word = is_plain_list_word(text, start);
  const std::size_t words =
      word_count(text, start, list_word ? before_bracket(text, start, colon) : colon);
  const std::size_t most = list_word ? 11 : 8;
  if (start >= to || words > most || (words == 0 && colon < to)) {
    return std::nullopt;
  }
  // "Ramazan pidesi nasıl yapılır?": what a question asks stands at its end.
  if (colon == to && text[to - 1].is('?')) {
    for (std::size_t i = start; i < to; ++i) {
      const Match asked = match(text, i, WordClass::section);
      if (asked && asked.end + 1 >= to) {
        Heading out;
        out.section = section_from(asked.phrase->means);
        out.end = to;
        return out;
      }
    }
  }
  if (auto table = heading_before_gap(text, start, to); table && colon == to) {
    return table;
  }
  // "Ingredients Wholemeal flour: 9 kg Butter: …"
  if (const Match word = match(text, start, WordClass::section);
      word && word.end < colon && is_food_row(text, word.end, colon, to)) {
    Heading out;
    out.section = section_from(word.phrase->means);
    out.end = word.end;
    return out;
  }
  auto section = section_or_label(text, start, colon, to);
  if (section && !section->label.empty()) {
    section->colon = colon < to;
    section->end = section->colon ? colon + 1 : section->end;
    return section;
  }
  // A line with an amount, or that speaks of another part, is no heading.
  // "Gli ingredienti per il ripieno."
  const bool of_part = section && section->part && section->section == SectionKind::ingredients;
  if (colon == to &&
      ((is_class(text, start, WordClass::the) && !of_part) || has_amount(text, start, to))) {
    return std::nullopt;
  }
  // A line of its own has only the heading; before a colon anything may stand.
  if (section && (colon < to || words <= 5 || section->section == SectionKind::ingredients)) {
    section->colon = colon < to;
    section->end = colon < to ? colon + 1 : to;
    return section;
  }
  if (is_food_row(text, start, colon, to)) {
    return std::nullopt;
  }
  auto part = part_heading(text, start, colon);
  const Match purpose = match(text, start, WordClass::purpose);  // "To decorate"
  const bool only_purpose = purpose && purpose.end >= to && words >= 2;
  const bool alone =
      colon == to && words <= 6 && (only_purpose || is_heading_alone(text, start, to));
  if (part && (colon < to || alone)) {
    part->colon = colon < to;
    part->end = colon < to ? colon + 1 : to;
    return part;
  }
  if (colon < to || is_capitals(text, start, to)) {
    // A line that is no heading after all keeps its words.
    Text mended = text;
    if (mend_words(mended, start, colon) > 0) {
      auto again = section_or_label(mended, start, colon, to);
      again = again ? again : part_heading(mended, start, colon);
      if (again) {
        text = std::move(mended);
        again->colon = colon < to;
        again->end = colon < to ? colon + 1 : to;
        return again;
      }
    }
  }
  return std::nullopt;
}

Heading part_from_words(const Text& text, std::size_t from, std::size_t to) {
  const std::size_t start = lead_in(text, skip_bullets(text, from, to), to);
  const Phrase* word = part_word(text, from, to);
  Heading out;
  out.name = part_name(text, start < to ? start : from, to);
  out.name_end = to;
  out.part = word == nullptr ? PartKind::dough : part_kind_from(word->means);
  // "For the pesto", but not "Fruit" or "Wet", which go into the dough.
  out.guessed = word == nullptr && start > skip_bullets(text, from, to);
  out.end = to;
  return out;
}

}  // namespace maslin::reading
