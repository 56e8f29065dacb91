#include "reading/amounts.h"

#include <algorithm>
#include <cmath>

#include "reading/measure_vessel.h"
#include "reading/setting.h"

namespace maslin::reading {
namespace {

bool measures_same(const FoundMeasure& a, const FoundMeasure& b) {
  if (unit_kind(a.unit) == unit_kind(b.unit) && unit_kind(a.unit) != UnitKind::none) {
    return true;
  }
  const auto real = [](const FoundMeasure& m) {
    const UnitKind kind = unit_kind(m.unit);
    return kind == UnitKind::mass || kind == UnitKind::volume || kind == UnitKind::container;
  };
  return real(a) && real(b);
}

/// The token after the bracket that opens at `i`, at most `to`.
std::size_t bracket_end(const Text& text, std::size_t i, std::size_t to) {
  int depth = 0;
  for (; i < to; ++i) {
    depth += text[i].is('(') || text[i].is('[') ? 1 : 0;
    depth -= text[i].is(')') || text[i].is(']') ? 1 : 0;
    if (depth == 0) {
      return i + 1;
    }
  }
  return to;
}

/// A measure at the start of the bracket that opens at `i`.
/// "(type 00, 500 g)": where the weight begins that closes a bracket; `end` when none does.
std::size_t last_mass(const Text& text, std::size_t i, std::size_t end) {
  for (std::size_t comma = i + 2; comma + 1 < end; ++comma) {
    const auto last = text[comma].is(',') ? any_measure(text, comma + 1) : std::nullopt;
    if (last && last->number && grams_in(last->unit) > 0.0 && last->to + 1 >= end) {
      return comma + 1;
    }
  }
  return end;
}

std::optional<FoundMeasure> bracket_measure(const Text& text, std::size_t i, std::size_t end) {
  std::size_t at = i + 1;
  // A word for one may also say about ("una", "unas"): then it is the number.
  const bool counted =
      is_class(text, at, WordClass::number) || is_class(text, at, WordClass::article);
  while (at < end && !counted &&
         (is_class(text, at, WordClass::or_) || is_class(text, at, WordClass::approx) ||
          text[at].is('=') || text[at].is('~') ||
          (at > i + 1 && text[at].is('.') && !text[at].spaced))) {
    ++at;  // "(ca. 400 g)"
  }
  auto measure = any_measure(text, at);
  if (!measure || !measure->number || measure->bare_article || measure->unit.empty() ||
      measure->unit == "percent") {
    const std::size_t last = last_mass(text, i, end);
    measure = last < end ? any_measure(text, last) : measure;
  }
  if (!measure || !measure->number || measure->bare_article) {
    return std::nullopt;
  }
  const bool other_thing = is_class(text, i + 1, WordClass::or_) && measure->to + 1 < end;
  if (other_thing) {
    return std::nullopt;  // "(or 5 g dried yeast)"
  }
  if (!measure->unit.empty() && is_class(text, measure->to, WordClass::unit)) {
    return std::nullopt;  // "(250 ml cup)" tells of the cup
  }
  const std::size_t rest = end > i + 1 ? end - 1 - std::min(end - 1, measure->to) : 0;
  // "(about 2 small)", "(1 level tablesp. dried egg, dry)", "(100 % hydration)" say more than an
  // amount.
  if ((measure->unit.empty() || measure->unit == "percent") && rest > 0) {
    return std::nullopt;
  }
  return measure;
}

/// "(4 tbsp; 56 g)", "(1 packet / 7g)": what else a bracket says the amount is.
void bracket_others(const Text& text, std::size_t i, std::size_t end,
                    std::vector<FoundMeasure>& others) {
  auto measure = bracket_measure(text, i, end);
  while (measure) {
    const std::size_t at = measure->to;
    others.push_back(std::move(*measure));
    if (!text[at].is(';') && !text[at].is('/') && !text[at].is('=')) {
      return;
    }
    measure = any_measure(text, at + 1);
    if (measure && (measure->to >= end || !measure->number || measure->unit.empty() ||
                    measure->bare_article)) {
      return;
    }
  }
}

bool add_sum(const Text& text, std::size_t mark_end, std::size_t to, double sign, Amounts& out) {
  auto more = any_measure(text, mark_end);
  if (!more || !more->number || more->to > to || more->bare_article) {
    return false;
  }
  // "1 doz. eggs, less 4"
  const bool counts = sign < 0.0 && more->unit.empty() && out.primary->unit.empty();
  if (!counts && (more->unit.empty() || !measures_same(*out.primary, *more))) {
    return false;
  }
  // "plus 1 tbsp for brushing" is another matter; "plus 1 tsp" belongs.
  const std::size_t after = more->to;
  if (is_class(text, after, WordClass::purpose) || is_class(text, after, WordClass::stop)) {
    return false;
  }
  // "195 g or 1.25 cups + 1 tbsp": it adds to the other of the two.
  const bool to_other = !counts && !out.others.empty() &&
                        unit_kind(out.others.back().unit) == unit_kind(more->unit) &&
                        unit_kind(out.primary->unit) != unit_kind(more->unit);
  if (to_other) {
    out.end = more->to;
    return true;
  }
  more->number = Range{sign * more->number->low, sign * more->number->high};
  out.end = more->to;
  out.sums.push_back(std::move(*more));
  return true;
}

/// One more amount at `out.end`; false when there is none.
bool next_amount(const Text& text, std::size_t to, Amounts& out) {
  const std::size_t i = out.end;
  if (i >= to || match_name(text, i)) {  // "1 cup 2% milk"
    return false;
  }
  // "1 cup packed (7 ounces) brown sugar"
  if (const Match packing = match(text, i, WordClass::packing);
      packing && text[packing.end].is('(') && out.primary->packing.empty() &&
      bracket_measure(text, packing.end, bracket_end(text, packing.end, to))) {
    out.primary->packing = packing.phrase->means;
    out.end = packing.end;
    return true;
  }
  // "1/3 cup, (50 g) sugar"
  const std::size_t open = text[i].is(',') && text[i + 1].is('(') ? i + 1 : i;
  if (text[open].is('(') || text[open].is('[')) {
    const std::size_t end = bracket_end(text, open, to);
    if (out.primary && tells_content(text, open, end, *out.primary)) {
      out.end = end;
      return true;
    }
    const std::size_t before = out.others.size();
    bracket_others(text, open, end, out.others);
    out.end = out.others.size() > before ? end : i;
    return out.others.size() > before;
  }
  const bool comma = text[i].is(',');
  const std::size_t at = comma ? i + 1 : i;
  if (const Match plus = match(text, at, WordClass::plus); plus || text[at].is('+')) {
    return add_sum(text, plus ? plus.end : at + 1, to, 1.0, out);
  }
  if (const Match less = match(text, at, WordClass::less)) {
    return add_sum(text, less.end, to, -1.0, out);
  }
  if (const Match join = match(text, i, WordClass::join)) {
    return add_sum(text, join.end, to, 1.0, out);
  }
  // "1 qt., 3 cups yeast": so much of the smaller unit as is less than one of the larger.
  if (comma) {
    const auto more = text[at].is_number() ? any_measure(text, at) : std::nullopt;
    const double ratio = more && more->number && !more->unit.empty() && out.primary->number
                             ? unit_ratio(out.primary->unit, more->unit)
                             : 0.0;
    if (ratio > 0.0 && ratio < 1.0 && ratio * more->number->high < 1.0 && more->to < to &&
        out.primary->number->high == std::floor(out.primary->number->high) &&
        (match_name(text, more->to) || is_class(text, more->to, WordClass::note))) {
      return add_sum(text, at, to, 1.0, out);
    }
  }
  std::size_t next = i;
  if (text[i].is('/') || text[i].is('=') || text[i].is('|') || text[i].is(';') ||
      is_class(text, i, WordClass::or_) || text[i].is('-')) {
    next = i + 1;
  }
  auto other = any_measure(text, next);
  if (!other || !other->number || other->unit.empty() || other->bare_article || other->to > to ||
      unit_kind(other->unit) == UnitKind::loose) {
    return false;
  }
  if (next == i && !text[i].is_number()) {
    return false;
  }
  out.end = other->to;
  out.others.push_back(std::move(*other));
  return true;
}

/// "Ei 1 Ei": a table that names the thing once more as its unit.
bool says_name_again(const Text& text, std::size_t from, const FoundMeasure& measure) {
  const Match name = match_name(text, from);
  const Match again = match_name(text, measure.to);
  const std::size_t colon = name && text[name.end].is(':') ? name.end + 1 : name ? name.end : 0;
  return name && again && colon == measure.from &&
         name.phrase->ingredient->kind == again.phrase->ingredient->kind;
}

}  // namespace

Amounts amounts_at(const Text& text, std::size_t i, std::size_t to) {
  Amounts out;
  out.primary = any_measure(text, i);
  out.end = i;
  if (!out.primary || out.primary->to > to) {
    out.primary.reset();
    return out;
  }
  out.end = out.primary->to;
  while (next_amount(text, to, out)) {
  }
  return out;
}

namespace {

/// From `i` on only what is said of a thing, or a dash and something else: "70 soft", "8 - knead".
bool only_said_of(const Text& text, std::size_t i, std::size_t to) {
  if (i < to && text[i].is('-') && text[i].spaced && text[i + 1].spaced) {
    return !text[i + 1].is_number();
  }
  for (std::size_t at = i; at < to; ++at) {
    if (!is_class(text, at, WordClass::note) && !is_class(text, at, WordClass::packing) &&
        !text[at].is(',')) {
      return false;
    }
  }
  return i < to;
}

}  // namespace

std::size_t inner_measure(const Text& text, std::size_t from, std::size_t to) {
  std::size_t loose = to;
  bool heated = false;
  for (std::size_t i = from + 1; i < to; ++i) {
    if (text[i].is('(')) {
      const std::size_t end = bracket_end(text, i, to);
      if (end < to || !bracket_measure(text, i, end)) {
        i = end - 1;
        continue;
      }
      const std::size_t last = last_mass(text, i, end);
      return last < end ? last : i + 1;
    }
    if (!text[i].spaced && text[i].is_number() && text[i - 1].kind == TokenKind::word) {
      continue;  // "T65"
    }
    heated = heated || (text[i].is_number() && any_heat(text, i));
    const auto measure = any_measure(text, i);
    if (!measure) {
      continue;
    }
    if (is_class(text, measure->to, WordClass::size_of)) {
      continue;  // "lump the size of an egg"
    }
    if (measure->unit.empty() && heated) {
      continue;  // "yolk on, 190 (170 fan) for 16-18"
    }
    if (unit_kind(measure->unit) == UnitKind::loose) {
      loose = std::min(loose, i);
      continue;
    }
    const bool more = text[measure->to].is('+') || is_class(text, measure->to, WordClass::plus);
    const bool closes = measure->to >= to || text[measure->to].is('(') || !measure->size.empty() ||
                        only_said_of(text, measure->to, to) ||  // "butter 70 soft"
                        more ||  // "eggs 2 + 1 for brushing", "flour 1000 / 3000"
                        (text[measure->to].is('/') && text[measure->to + 1].is_number()) ||
                        ((text[i - 1].is(':') || text[i - 1].is('-')) &&
                         text[measure->to].is(',')) ||  // "Onion: 1, small"
                        says_name_again(text, from, *measure);
    const bool number = measure->number && !measure->bare_article;
    if (!measure->unit.empty() || (number && closes)) {
      return i;
    }
    i = number ? measure->to - 1 : i;
  }
  return loose;
}

std::size_t trim_back(const Text& text, std::size_t from, std::size_t to) {
  const Match ahead = to > from && text[to].is_number() ? unit_ahead(text, to) : Match{};
  to = ahead && ahead.end > from ? ahead.end - 1 : to;
  while (to > from && text[to - 1].kind == TokenKind::mark && !text[to - 1].is(')') &&
         !text[to - 1].is('%')) {
    --to;
  }
  // "Vitamin C – 6 g": the last word may be a name's.
  const auto ends_name = [&] {
    for (std::size_t back = to > from + 3 ? to - 3 : from; back + 1 < to; ++back) {
      if (const Match name = match_name(text, back); name && name.end == to) {
        return true;
      }
    }
    return false;
  };
  while (to > from && is_class(text, to - 1, WordClass::approx) && !ends_name()) {
    --to;
  }
  while (to > from && (text[to - 1].is('-') || text[to - 1].is(',') || text[to - 1].is(':') ||
                       text[to - 1].is('.'))) {
    --to;
  }
  return to;
}

void amounts_after(const Text& text, std::size_t from, std::size_t to, Amounts& amounts) {
  // "A bit of lard, two ounces": the figure after a loose word.
  const bool loose = amounts.primary && !amounts.primary->number;
  if (loose && (text[from].is(',') || text[from].is('-')) && from + 1 < to) {
    if (auto figure = any_measure(text, from + 1);
        figure && figure->number && !figure->unit.empty() && !figure->bare_article) {
      amounts.others.push_back(std::move(*figure));
    }
  }
  // "3 1/2 cups flour 520g", "6 tbsp butter around 90 grams": the same said again.
  std::size_t again = from;
  while (again < to && is_class(text, again, WordClass::approx)) {
    again = match(text, again, WordClass::approx).end;
  }
  if (amounts.primary && amounts.primary->number && again < to && text[again].is_number() &&
      unit_kind(amounts.primary->unit) == UnitKind::volume) {
    auto more = any_measure(text, again);
    const UnitKind kind = more ? unit_kind(more->unit) : UnitKind::none;
    const bool real = kind == UnitKind::mass || kind == UnitKind::volume;
    if (real && more->number && more->to <= to &&
        (more->to == to || text[more->to].kind == TokenKind::mark) &&
        unit_ratio(amounts.primary->unit, more->unit) == 0.0) {
      amounts.others.push_back(std::move(*more));
    }
  }
  for (std::size_t i = from; i < to; ++i) {
    if (text[i].is('(') || text[i].is('[')) {
      const std::size_t end = bracket_end(text, i, to);
      if (amounts.primary && tells_content(text, i, end, *amounts.primary)) {
        i = end - 1;
        continue;
      }
      auto other = bracket_measure(text, i, end);
      // "1 tsp kosher salt (1/2 tsp table)": of another kind of it.
      const bool kind = other && amounts.primary && unit_kind(other->unit) == UnitKind::volume &&
                        other->unit == amounts.primary->unit &&
                        text[other->to].kind == TokenKind::word &&
                        !is_class(text, other->to, WordClass::packing);
      // "2 packets dry yeast (7 g each)"
      const bool each = other && is_class(text, other->to, WordClass::each) && amounts.primary &&
                        amounts.primary->number && grams_in(other->unit) > 0.0 &&
                        unit_kind(amounts.primary->unit) != UnitKind::mass;
      if (each) {
        other->number = Range{other->number->low * amounts.primary->number->low,
                              other->number->high * amounts.primary->number->high};
      }
      if (other && !kind) {
        amounts.others.push_back(std::move(*other));
      }
      i = end - 1;
    }
  }
}

bool tells_use(const Text& text, std::size_t i) {
  return is_class(text, i, WordClass::lead) && !is_class(text, i, WordClass::of) &&
         !is_class(text, i, WordClass::article);
}

void sums_after(Text& text, const Noun& noun, std::size_t to, Amounts& amounts) {
  const std::size_t i = noun.to;
  const std::size_t at = text[i].is(',') ? i + 1 : i;
  const Match plus = match(text, at, WordClass::plus);
  const Match less = match(text, at, WordClass::less);
  if (at >= to || (!plus && !less && !text[at].is('+')) || !amounts.primary) {
    return;
  }
  if (less) {
    add_sum(text, less.end, to, -1.0, amounts);
    return;
  }
  const auto more = any_measure(text, plus ? plus.end : at + 1);
  if (!more || !more->number || more->unit.empty() || more->to > to) {
    return;
  }
  const Noun same = find_noun(text, more->to, to);
  if (same.ingredient != nullptr && same.ingredient == noun.ingredient) {
    amounts.sums.push_back(*more);
  }
}

}  // namespace maslin::reading
