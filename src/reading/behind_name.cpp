#include "reading/behind_name.h"

#include "reading/amounts.h"
#include "reading/own_amount.h"

namespace maslin::reading {

std::optional<Match> name_near(const Text& text, std::size_t i, std::size_t to,
                               std::size_t& where) {
  // "500 gr, di farina": a print that set a comma for the point.
  i += text[i].is(',') && !text[i].spaced && is_class(text, i + 1, WordClass::of) ? 1U : 0U;
  for (std::size_t at = i; at < std::min(to, i + 6); ++at) {
    // "2 cups of warm, mashed potatoes"
    if (text[at].is(',') && at > i && is_class(text, at - 1, WordClass::note) &&
        (is_class(text, at + 1, WordClass::note) || match_name(text, at + 1))) {
      continue;
    }
    if (text[at].kind == TokenKind::mark && !text[at].is('\'')) {
      return std::nullopt;
    }
    if (const Match name = match_name(text, at)) {
      where = at;
      return name;
    }
    const bool said_of = is_class(text, at, WordClass::note) ||  // "two well beaten eggs"
                         (at > i && is_class(text, at - 1, WordClass::of) &&
                          is_class(text, at, WordClass::the));  // "a packet of that quick yeast"
    if ((is_class(text, at, WordClass::stop) && !said_of) || is_class(text, at, WordClass::each)) {
      return std::nullopt;
    }
    if (at > i && (any_measure(text, at) || is_class(text, at, WordClass::verb)) &&
        !is_class(text, at, WordClass::note) && !is_class(text, at, WordClass::packing)) {
      return std::nullopt;
    }
  }
  return std::nullopt;
}

bool counts_whole(const Text& text, const Ingredient& ingredient) {
  return is_counted(ingredient.kind) ||
         text.lexicons->pantry->portion(ingredient, "piece", "", "").has_value();
}

namespace {

/// "not 4": an amount that is denied.
bool is_no(const Text& text, std::size_t i) {
  return is_class(text, i, WordClass::stop) && !is_class(text, i, WordClass::to) &&
         !is_class(text, i, WordClass::into) && text[i + 1].is_number();
}

}  // namespace

std::size_t amount_after(const Text& text, std::size_t i, std::size_t to, bool by_turns) {
  const std::size_t at = text[i].is(',') || text[i].is(':') || text[i].is('-') ? i + 1 : i;
  const auto measure = any_measure(text, at);
  std::size_t where = 0;
  if (!measure || !measure->number || measure->to > to || measure->bare_article) {
    return i;
  }
  // "Add salt 1.5 tsp, sugar 2 tbsp", but not "flour 2 tbsp at a time".
  const Token& behind = text[measure->to];
  const bool closed = measure->to >= to || behind.is(',') || behind.is(';') || behind.is('.') ||
                      behind.is('&') || behind.is('+') ||
                      is_class(text, measure->to, WordClass::join) ||
                      is_class(text, measure->to, WordClass::told) ||
                      own_amount_end(text, measure->to, to) > measure->to ||
                      is_no(text, measure->to);  // "sugar 2 spoons not 4 like the book says"
  const UnitKind kind = unit_kind(measure->unit);
  const bool real = kind == UnitKind::mass || kind == UnitKind::volume ||
                    kind == UnitKind::container || measure->unit == "pinch";
  const auto next = name_near(text, measure->to, to, where);
  // "Flour 500 g Yeast 50 g water": names and amounts by turns.
  if (by_turns && real && at == i && next && where == measure->to && text[i].is_number()) {
    return measure->to;
  }
  if (at == i && !closed) {
    return i;
  }
  // "Flour: 500 g Sugar: 60 g": the next name has a colon and an amount of its own.
  const bool row = next && text[i].is(':') && text[next->end].is(':');
  const bool another = (next && !row) || is_class(text, measure->to, WordClass::of);
  return real && !another ? measure->to : i;
}

std::size_t late_amount(const Text& text, std::size_t i, std::size_t to) {
  constexpr std::size_t k_farthest = 12;
  for (std::size_t at = i; at < std::min(to, i + k_farthest); ++at) {
    if (match_name(text, at) || text[at].is_number() || text[at].is('.') || text[at].is(';') ||
        text[at].is('(') || is_class(text, at, WordClass::join) ||
        is_class(text, at, WordClass::plus)) {
      break;
    }
    // "some sifted flour--about half a pint in quantity"
    const bool dash = text[at].is('-') && (text[at].spaced || text[at + 1].is('-'));
    const std::size_t next = at + (dash && text[at + 1].is('-') ? 2 : 1);
    const auto measure = text[at].is(',') || dash ? any_measure(text, next) : std::nullopt;
    if (!measure || !measure->number || measure->bare_article || measure->to > to) {
      continue;
    }
    const UnitKind kind = unit_kind(measure->unit);
    const bool real =
        kind == UnitKind::mass || kind == UnitKind::volume || kind == UnitKind::container;
    const Token& behind = text[measure->to];
    const bool closed = measure->to >= to || behind.is(',') || behind.is('.') || behind.is('-') ||
                        behind.fresh || is_class(text, measure->to, WordClass::into);
    return real && closed ? measure->to : i;
  }
  return i;
}

std::size_t bracket_after(const Text& text, std::size_t i, std::size_t to) {
  if (!text[i].is('(') || i + 2 >= to || !text[i + 1].is_number()) {
    return i;
  }
  const auto measure = any_measure(text, i + 1);
  if (!measure || !measure->number || measure->to >= to ||
      !(text[measure->to].is(')') || text[measure->to].is(','))) {
    return i;
  }
  bool real =
      unit_kind(measure->unit) == UnitKind::mass || unit_kind(measure->unit) == UnitKind::volume;
  for (std::size_t at = 1; measure->unit.empty() && at + 1 < text.size() && !real; ++at) {
    const auto other = text[at].is('(') && match_name(text, at - 1) && text[at + 1].is_number()
                           ? any_measure(text, at + 1)
                           : std::nullopt;
    real = other && unit_kind(other->unit) == UnitKind::mass;
  }
  std::size_t end = measure->to;
  while (end < to && !text[end].is(')')) {
    ++end;
  }
  return real && end < to ? end + 1 : i;
}

std::size_t count_after(const Text& text, const Match& name, std::size_t to) {
  const std::size_t by = text[name.end].is(',') ? name.end + 1 : name.end;
  const Match times = match(text, by, WordClass::times);
  if (!times || times.end >= to || text[times.end].kind != TokenKind::number ||
      !counts_whole(text, *name.phrase->ingredient)) {
    return name.end;
  }
  const auto count = any_measure(text, times.end);
  return count && count->unit.empty() && !match_name(text, count->to) ? count->to : name.end;
}

}  // namespace maslin::reading
