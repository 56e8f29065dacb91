#include <algorithm>

#include "reading/amounts.h"
#include "reading/draft_line.h"
#include "reading/ingredient_line.h"

namespace maslin::reading {

std::size_t skip_bullets(const Text& text, std::size_t from, std::size_t to) {
  while (from < to && text[from].kind == TokenKind::mark && !text[from].is('(') &&
         !text[from].is('~')) {
    ++from;
  }
  if (text[from].is('~') && text[from].spaced && text[from + 1].spaced) {
    ++from;
  }
  // "and 400 ml milk" on a line of its own
  if (is_class(text, from, WordClass::join) && text[from + 1].is_number()) {
    ++from;
  }
  // "To every 2 lbs. of flour allow 6 oz. of sugar"
  if (is_class(text, from, WordClass::to) && is_class(text, from + 1, WordClass::each) &&
      text[from + 2].is_number()) {
    from += 2;
  }
  return from;
}

namespace {

/// "Milk 1 cup", "flour (500 g)", "strong flour: 500 g"
bool names_then_measures(const Text& text, std::size_t i) {
  Match name = match_name(text, i);
  name = name ? name : match_name(text, i + 1);
  if (!name) {
    return false;
  }
  std::size_t at = name.end;
  while (text[at].kind == TokenKind::mark && at < name.end + 2) {
    ++at;
  }
  // "Farina, g. 200"
  std::size_t number = at;
  while (!text[number].is_number() && number < at + 2 &&
         (is_class(text, number, WordClass::unit) || text[number].is('.'))) {
    ++number;
  }
  at = number > at && text[number].is_number() && unit_ahead(text, number) ? number : at;
  const auto measure = text[at].is_number() ? any_measure(text, at) : std::nullopt;
  return measure && !measure->unit.empty();
}

/// "Caramel: 50 g sugar, 30 g butter": two things with amounts after the colon.
bool is_made_of(const Text& text, std::size_t i, std::size_t to) {
  std::size_t colon = i;
  while (colon < std::min(to, i + 8) && !text[colon].is(':')) {
    if (text[colon].kind == TokenKind::mark || text[colon].is_number()) {
      return false;
    }
    ++colon;
  }
  std::size_t things = 0;
  for (std::size_t at = colon; text[colon].is(':') && at < to; ++at) {
    // "levain: 20 starter 40 water 40 flour" has no commas.
    if (at != colon && !text[at].is(',') && !match_name(text, at)) {
      continue;
    }
    const LineLook look = look_at(text, at + 1, to);
    things += text[at + 1].is_number() && look.measure_first && look.name_first ? 1U : 0U;
  }
  return things >= 2;
}

/// "HARD GINGER SNAPS.—One pound of flour": capitals up to the stop and the dash.
bool is_printed_head(const Text& text, std::size_t i, std::size_t to) {
  constexpr std::size_t k_longest = 6;
  for (std::size_t at = i; at + 1 < std::min(to, i + k_longest); ++at) {
    if (text[at].is('.') && text[at + 1].is('-') && !text[at + 1].spaced) {
      return true;
    }
    if (!text[at].upper) {
      return false;
    }
  }
  return false;
}

}  // namespace

std::size_t list_after_colon(const Text& text, std::size_t from, std::size_t to) {
  // "You will require 12 oz of currants, 8 oz of butter, …"
  for (std::size_t i = from; i < std::min(to, from + 6); ++i) {
    const Match section = match(text, i, WordClass::section);
    if (!section || section.phrase->means != "ingredients") {
      // "To make 1 loaf you will need …"
      const bool pieces = text[i].is_number() && is_class(text, i + 1, WordClass::piece);
      if (match_name(text, i) || (text[i].is_number() && !pieces)) {
        break;
      }
      i += pieces ? 1U : 0U;
      continue;
    }
    const LineLook look = look_at(text, section.end, to);
    std::size_t commas = 0;
    for (std::size_t at = section.end; at < to && !text[at].is('.'); ++at) {
      commas += text[at].is(',') ? 1U : 0U;
    }
    const bool first = look.measure_first || (commas >= 4 && look.name_first);
    if (!text[section.end].is(':') && commas >= 2 && first && look.name && !look.measure_only) {
      return section.end;
    }
    break;
  }
  for (std::size_t i = from; i < std::min(to, from + 14); ++i) {
    const bool dashed = text[i].is('.') && text[i + 1].is('-') && !text[i + 1].spaced;
    if (match_name(text, i) && !is_made_of(text, i, to) && !is_printed_head(text, i, to)) {
      return from;  // "Yeast: 20 g fresh"
    }
    if (!text[i].is(':') && !dashed) {
      continue;
    }
    const LineLook after = look_at(text, i + 1, to);
    // "Ingredients needed: Milk 1 cup Sugar 2 tsp", "Ingredients: flour (500 g), …"
    const bool pair = after.name_first && !after.measure_first && names_then_measures(text, i + 1);
    if ((after.measure_first || pair) && after.name && !after.measure_only) {
      return i + 1;
    }
  }
  return from;
}

LineLook look_at(const Text& text, std::size_t from, std::size_t to) {
  LineLook look;
  const std::size_t start = skip_bullets(text, from, to);
  std::size_t after = start;
  if (const auto measure = any_measure(text, start); measure && measure->to <= to) {
    const bool unit = !measure->unit.empty();
    std::size_t at = measure->to;
    while (at < to &&
           (is_class(text, at, WordClass::note) || is_class(text, at, WordClass::of) ||
            is_class(text, at, WordClass::packing) || is_class(text, at, WordClass::size))) {
      ++at;
    }
    const bool named =
        static_cast<bool>(match_name(text, at)) || static_cast<bool>(match_name(text, at + 1));
    look.measure_first = unit || named;
    const std::size_t amounts = std::max(measure->to, amounts_at(text, start, to).end);
    look.measure_only = look.measure_first && trim_back(text, measure->to, to) <= amounts;
    after = measure->to;
  } else if (!part_of(text, start, to).parts.empty()) {
    look.measure_first = true;
  }
  look.measure_inside = !look.measure_first && inner_measure(text, start, to) < to;
  // "Butter, the size of an egg"
  for (std::size_t i = start + 1; i < to && !look.measure_first && !look.measure_inside; ++i) {
    const Match size = match(text, i, WordClass::size_of);
    std::size_t thing = size ? size.end : to;
    thing += thing < to && is_class(text, thing, WordClass::article) ? 1U : 0U;
    thing += thing < to && is_class(text, thing, WordClass::size) ? 1U : 0U;
    look.measure_inside = thing < to && is_class(text, thing, WordClass::thing);
  }
  for (std::size_t i = start; i < to; ++i) {
    look.words += text[i].kind == TokenKind::word ? 1U : 0U;
    look.or_inside = look.or_inside || is_class(text, i, WordClass::or_);
    if (!look.name && match_name(text, i)) {
      look.name = true;
      look.name_first = i <= start + 1 || i <= after + 1;
    }
  }
  return look;
}

}  // namespace maslin::reading
