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
  const auto measure = text[at].is_number() ? any_measure(text, at) : std::nullopt;
  return measure && !measure->unit.empty();
}

}  // namespace

std::size_t list_after_colon(const Text& text, std::size_t from, std::size_t to) {
  for (std::size_t i = from; i < std::min(to, from + 14); ++i) {
    const bool dashed = text[i].is('.') && text[i + 1].is('-') && !text[i + 1].spaced;
    if (match_name(text, i)) {
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
    look.measure_only = look.measure_first && trim_back(text, measure->to, to) <= measure->to;
    after = measure->to;
  } else if (!part_of(text, start, to).parts.empty()) {
    look.measure_first = true;
  }
  look.measure_inside = !look.measure_first && inner_measure(text, start, to) < to;
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
