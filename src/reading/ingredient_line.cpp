#include "reading/ingredient_line.h"

#include <algorithm>

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
std::optional<FoundMeasure> bracket_measure(const Text& text, std::size_t i, std::size_t end) {
  std::size_t at = i + 1;
  while (at < end && (is_class(text, at, WordClass::or_) || is_class(text, at, WordClass::approx) ||
                      text[at].is('=') || text[at].is('~'))) {
    ++at;
  }
  auto measure = any_measure(text, at);
  if (!measure || !measure->number || measure->bare_article) {
    return std::nullopt;
  }
  const std::size_t rest = end > i + 1 ? end - 1 - std::min(end - 1, measure->to) : 0;
  // "(about 2 small)", "(1 level tablesp. dried egg, dry)" say more than an amount.
  if (measure->unit.empty() && rest > 0) {
    return std::nullopt;
  }
  return measure;
}

/// Everything said about the amount around the primary measure.
struct Amounts {
  std::optional<FoundMeasure> primary;
  std::vector<FoundMeasure> others;
  std::vector<FoundMeasure> sums;
  std::size_t end = 0;  // the token after the last of them
  std::string note;     // a bracket among them that was no amount
};

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
  if (is_class(text, after, WordClass::purpose) || is_class(text, after, WordClass::stop) ||
      is_class(text, after, WordClass::note)) {
    return false;
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
  if (text[i].is('(') || text[i].is('[')) {
    const std::size_t end = bracket_end(text, i, to);
    if (auto other = bracket_measure(text, i, end)) {
      out.others.push_back(std::move(*other));
      out.end = end;
      return true;
    }
    return false;
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

/// The first measure inside [from, to) that is not at its start; a loose one ("a lot")
/// only when there is no other.
std::size_t inner_measure(const Text& text, std::size_t from, std::size_t to) {
  std::size_t loose = to;
  for (std::size_t i = from + 1; i < to; ++i) {
    if (text[i].is('(')) {
      const std::size_t end = bracket_end(text, i, to);
      if (end < to || !bracket_measure(text, i, end)) {
        i = end - 1;
        continue;
      }
      return i + 1;
    }
    if (!text[i].spaced && text[i].is_number() && text[i - 1].kind == TokenKind::word) {
      continue;  // "T65"
    }
    const auto measure = any_measure(text, i);
    if (!measure) {
      continue;
    }
    if (unit_kind(measure->unit) == UnitKind::loose) {
      loose = std::min(loose, i);
      continue;
    }
    const bool closes = measure->to >= to || text[measure->to].is('(') || !measure->size.empty();
    const bool number = measure->number && !measure->bare_article;
    if (!measure->unit.empty() || (number && closes)) {
      return i;
    }
    i = number ? measure->to - 1 : i;
  }
  return loose;
}

/// Past the dots, colons and dashes between a name and its amount.
std::size_t trim_back(const Text& text, std::size_t from, std::size_t to) {
  while (to > from && text[to - 1].kind == TokenKind::mark && !text[to - 1].is(')') &&
         !text[to - 1].is('%')) {
    --to;
  }
  while (to > from && is_class(text, to - 1, WordClass::approx)) {
    --to;
  }
  while (to > from && (text[to - 1].is('-') || text[to - 1].is(',') || text[to - 1].is(':') ||
                       text[to - 1].is('.'))) {
    --to;
  }
  return to;
}

std::string trimmed_note(std::string_view note) {
  const auto junk = [](char c) {
    return c == ' ' || c == ',' || c == ';' || c == '.' || c == '-' || c == '\t' || c == ':';
  };
  while (!note.empty() && junk(note.front())) {
    note.remove_prefix(1);
  }
  while (!note.empty() && junk(note.back())) {
    note.remove_suffix(1);
  }
  for (const std::string_view dash : {"–", "—"}) {
    if (note.starts_with(dash)) {
      return trimmed_note(note.substr(dash.size()));
    }
  }
  if (note.size() > 2 && note.front() == '(' && note.back() == ')' &&
      note.find('(', 1) == std::string_view::npos) {
    return trimmed_note(note.substr(1, note.size() - 2));
  }
  return std::string(note);
}

void add_note(std::string& note, std::string_view more) {
  const std::string trimmed = trimmed_note(more);
  if (!trimmed.empty()) {
    note += note.empty() ? "" : ", ";
    note += trimmed;
  }
}

/// Which of two amounts of one thing rules: a weight over anything else, grams over
/// ounces beside them; a container with a content keeps its count.
bool rules_over(const FoundMeasure& other, const FoundMeasure& primary) {
  const UnitKind mine = unit_kind(primary.unit);
  if (unit_kind(other.unit) != UnitKind::mass || primary.content) {
    return false;
  }
  const bool metric = other.unit == "g" || other.unit == "kg";
  const bool mine_metric = primary.unit == "g" || primary.unit == "kg";
  return mine != UnitKind::mass || (metric && !mine_metric && other.from < primary.to + 1);
}

void choose(Amounts& amounts, DraftLine& out) {
  if (!amounts.primary) {
    return;
  }
  out.measure = *amounts.primary;
  out.sums = amounts.sums;
  for (FoundMeasure& other : amounts.others) {
    if (unit_kind(other.unit) == UnitKind::percent) {
      continue;
    }
    const bool loose = unit_kind(out.measure->unit) == UnitKind::loose && !out.measure->number;
    if (rules_over(other, *out.measure) || loose) {
      out.other = *out.measure;
      out.measure = other;
      out.sums.clear();
    } else if (!out.other) {
      out.other = other;
    }
  }
}

double unit_ratio(std::string_view first, std::string_view second) {
  const double g1 = grams_in(first);
  const double g2 = grams_in(second);
  const double ml1 = fixed_ml(first);
  const double ml2 = fixed_ml(second);
  return g1 > 0 && g2 > 0 ? g2 / g1 : ml1 > 0 && ml2 > 0 ? ml2 / ml1 : first == second ? 1.0 : 0.0;
}

/// The found amount of the line: the measure that rules, with sums in its unit.
void set_found(DraftLine& out) {
  if (!out.measure) {
    return;
  }
  FoundMeasure& m = *out.measure;
  FoundAmount& found = out.line.found;
  found.number = m.number;
  found.unit = m.unit;
  found.size = m.size;
  found.packing = m.packing;
  out.portion_word = m.word;
  std::vector<FoundMeasure> left;
  for (const FoundMeasure& sum : out.sums) {
    const double ratio = unit_ratio(m.unit, sum.unit);
    if (ratio > 0.0 && found.number) {
      found.number = Range{found.number->low + ratio * sum.number->low,
                           found.number->high + ratio * sum.number->high};
    } else {
      left.push_back(sum);
    }
  }
  m.number = found.number;
  out.sums = left;
}

std::string_view purpose_in(const Text& text, std::size_t from, std::size_t to) {
  for (std::size_t i = from; i < to; ++i) {
    if (const Match purpose = match(text, i, WordClass::purpose)) {
      return purpose.phrase->means;
    }
    if (is_class(text, i, WordClass::plus)) {
      return "extra";
    }
  }
  return {};
}

/// "the size of an egg" among the words after the name.
void size_of_thing(const Text& text, std::size_t from, std::size_t to, DraftLine& out) {
  for (std::size_t i = from; i < to; ++i) {
    const Match size = match(text, i, WordClass::size_of);
    if (!size) {
      continue;
    }
    std::size_t at = size.end;
    at = is_class(text, at, WordClass::article) ? at + 1 : at;
    at = is_class(text, at, WordClass::size) ? at + 1 : at;
    if (const Match thing = match(text, at, WordClass::thing)) {
      out.portion_word = "size of " + std::string(thing.phrase->means);
      out.line.found.number = Range{1.0, 1.0};
      out.line.found.unit = "piece";
      if (!out.measure) {
        out.measure = FoundMeasure{};
      }
      out.measure->number = out.line.found.number;
      out.measure->unit = "piece";
      out.measure->word = out.portion_word;
    }
    return;
  }
}

/// "flour (type 550)", "yeast (fresh)": the bracket tells the kind of the same thing.
const Ingredient* kind_in_bracket(const Text& text, const Noun& noun, std::size_t to) {
  if (noun.ingredient == nullptr || !text[noun.to].is('(') ||
      (noun.ingredient->kind != IngredientKind::flour &&
       noun.ingredient->kind != IngredientKind::yeast)) {
    return noun.ingredient;
  }
  for (std::size_t i = noun.to + 1; i < to && !text[i].is(')'); ++i) {
    const Match name = match_name(text, i);
    if (name && name.end > i + 1 && name.phrase->ingredient->kind == noun.ingredient->kind) {
      return name.phrase->ingredient;
    }
  }
  return noun.ingredient;
}

/// "a piece of ginger", "a bunch of coriander": counted so, it is the fresh plant.
const Ingredient* counted_kind(const Text& text, const Noun& noun, const DraftLine& out) {
  const UnitKind kind = out.measure ? unit_kind(out.measure->unit) : UnitKind::none;
  const bool whole = kind == UnitKind::count || kind == UnitKind::loose;
  for (std::size_t i = noun.match_from; whole && i < noun.match_to; ++i) {
    if (const Match counted = match(text, i, WordClass::counted)) {
      return text.lexicons->pantry->find(counted.phrase->means);
    }
  }
  return nullptr;
}

void set_name(const Text& text, const Noun& noun, std::size_t to, DraftLine& out) {
  out.ingredient = kind_in_bracket(text, noun, to);
  if (const Ingredient* fresh = counted_kind(text, noun, out)) {
    out.ingredient = fresh;
  }
  out.line.ingredient_id = out.ingredient == nullptr ? "" : out.ingredient->id;
  out.line.name = trimmed_note(text.slice(noun.from, noun.to));
  out.line.found.packing =
      out.line.found.packing.empty() ? std::string(noun.packing) : out.line.found.packing;
  out.line.found.size = out.line.found.size.empty() ? std::string(noun.size) : out.line.found.size;
  out.mended = noun.mended;
  out.generic = out.ingredient == noun.ingredient ? noun.generic : 0.0;
  add_note(out.line.note, noun.note);
  add_note(out.line.note, text.slice(noun.to, to));
  out.purpose = purpose_in(text, noun.to, to);
  // Packings said after the name: "almonds, chopped", "flour, sifted".
  for (std::size_t i = noun.to; i < to;) {
    const Match packing = match(text, i, WordClass::packing);
    const Match size = match(text, i, WordClass::size);
    if (packing && out.line.found.packing.empty()) {
      out.line.found.packing = packing.phrase->means;
    }
    if (size && out.line.found.size.empty()) {
      out.line.found.size = size.phrase->means;
    }
    i = packing ? packing.end : size ? size.end : i + 1;
  }
  if (out.measure && out.measure->packing.empty()) {
    out.measure->packing = {};
  }
}

/// A weight in a bracket after the name: "1 cup mashed potatoes (200 g)".
void amounts_after(const Text& text, std::size_t from, std::size_t to, Amounts& amounts) {
  for (std::size_t i = from; i < to; ++i) {
    if (text[i].is('(') || text[i].is('[')) {
      const std::size_t end = bracket_end(text, i, to);
      if (auto other = bracket_measure(text, i, end)) {
        amounts.others.push_back(std::move(*other));
      }
      i = end - 1;
    }
  }
}

/// "+ 60 g butter" after the name: more of the same.
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

DraftLine one_line(Text& text, std::size_t from, std::size_t to, Amounts amounts, Noun noun,
                   std::size_t note_to) {
  DraftLine out;
  out.line.text = trimmed_note(text.slice(from, to));
  amounts_after(text, noun.to, note_to, amounts);
  sums_after(text, noun, note_to, amounts);
  choose(amounts, out);
  set_found(out);
  set_name(text, noun, note_to, out);
  size_of_thing(text, noun.match_to, note_to, out);
  return out;
}

/// "juice and zest of 1 lime", "yolk of an egg", "the whites of two eggs".
struct PartOf {
  std::vector<std::string_view> parts;
  std::size_t end = 0;  // after "of"
};
PartOf part_of(const Text& text, std::size_t i, std::size_t to) {
  PartOf out;
  while (i < to) {
    if (const Match part = match(text, i, WordClass::part_of)) {
      out.parts.push_back(part.phrase->means);
      i = part.end;
    } else if (is_class(text, i, WordClass::note) || is_class(text, i, WordClass::the) ||
               is_class(text, i, WordClass::article) || is_class(text, i, WordClass::packing) ||
               (is_class(text, i, WordClass::join) && !out.parts.empty()) || text[i].is('&') ||
               (is_class(text, i, WordClass::plus) && !out.parts.empty())) {
      ++i;
    } else {
      break;
    }
  }
  const Match of = match(text, i, WordClass::of);
  if (out.parts.empty() || !of) {
    return {};
  }
  out.end = of.end;
  return out;
}

std::vector<DraftLine> lines_of_parts(Text& text, std::size_t from, std::size_t to,
                                      const PartOf& parts,
                                      const std::optional<FoundMeasure>& before) {
  std::vector<DraftLine> out;
  Amounts amounts = amounts_at(text, parts.end, to);
  const std::size_t at = amounts.primary ? amounts.end : parts.end;
  const Noun noun = find_noun(text, at, to);
  if (noun.ingredient == nullptr) {
    return out;
  }
  if (amounts.primary && amounts.primary->bare_article) {
    amounts.primary->bare_article = false;
  }
  if (before && before->number) {  // "1 tsp zest of a lemon"
    amounts.primary = before;
  }
  for (const std::string_view part : parts.parts) {
    DraftLine line = one_line(text, from, to, amounts, noun, to);
    const std::string id = noun.ingredient->id + "_" + std::string(part);
    if (const Ingredient* whole = text.lexicons->pantry->find(id)) {
      line.ingredient = whole;
      line.line.ingredient_id = id;
    } else {
      line.doubts.push_back({line.line.text, "the " + std::string(part) + " of " +
                                                 noun.ingredient->name +
                                                 " is not in the pantry: weighed as the whole"});
    }
    line.line.name = std::string(part) + " of " + line.line.name;
    if (line.line.found.unit.empty() && line.line.found.number) {
      line.line.found.unit = "piece";
      line.measure->unit = "piece";
    }
    out.push_back(std::move(line));
  }
  // "the zest of an orange and of a lemon"
  std::size_t next = noun.to;
  if (is_class(text, next, WordClass::join) || text[next].is('&')) {
    next = is_class(text, next + 1, WordClass::of) ? next + 2 : next + 1;
    const auto more = any_measure(text, next);
    if (next < to && more && more->number && more->unit.empty()) {
      for (DraftLine& line : lines_of_parts(text, from, to, {parts.parts, next}, std::nullopt)) {
        out.push_back(std::move(line));
      }
    }
  }
  return out;
}

bool is_weight_total(const FoundMeasure& measure) {
  return unit_kind(measure.unit) == UnitKind::mass;
}

/// "2 eggs, plus 1 yolk": the other thing as a line of its own, unless a weight of
/// both together was given.
void further_line(Text& text, const Noun& noun, std::size_t to, std::vector<DraftLine>& out) {
  const std::size_t i = text[noun.to].is(',') ? noun.to + 1 : noun.to;
  const Match plus = match(text, i, WordClass::plus);
  const Match join = match(text, i, WordClass::join);
  if (i >= to || (!plus && !join && !text[i].is('+') && !text[i].is('&'))) {
    return;
  }
  const std::size_t at = plus ? plus.end : join ? join.end : i + 1;
  const Amounts amounts = amounts_at(text, at, to);
  if (!amounts.primary || !amounts.primary->number ||
      (out.front().measure && is_weight_total(*out.front().measure) && out.front().other)) {
    return;
  }
  Noun second = find_noun(text, amounts.end, to);
  if (second.ingredient == nullptr || second.ingredient == noun.ingredient ||
      second.match_from > amounts.end + 3) {
    return;
  }
  out.push_back(one_line(text, at, to, amounts, second, to));
}

/// An article without a unit counts only before a thing that is counted.
bool countable(const Noun& noun, const FoundMeasure& measure) {
  if (!measure.bare_article) {
    return true;
  }
  if (noun.ingredient == nullptr) {
    return false;
  }
  switch (noun.ingredient->kind) {
    case IngredientKind::egg:
    case IngredientKind::fruit:
    case IngredientKind::vegetable:
    case IngredientKind::potato:
      return true;
    default:
      return false;
  }
}

}  // namespace

std::size_t skip_bullets(const Text& text, std::size_t from, std::size_t to) {
  while (from < to && text[from].kind == TokenKind::mark && !text[from].is('(') &&
         !text[from].is('~')) {
    ++from;
  }
  if (text[from].is('~') && text[from].spaced && text[from + 1].spaced) {
    ++from;
  }
  return from;
}

std::vector<DraftLine> read_ingredient(Text& text, std::size_t from, std::size_t to) {
  std::vector<DraftLine> out;
  const std::size_t start = skip_bullets(text, from, to);
  if (const PartOf parts = part_of(text, start, to); !parts.parts.empty()) {
    return lines_of_parts(text, start, to, parts, std::nullopt);
  }
  Amounts amounts = amounts_at(text, start, to);
  if (amounts.primary) {
    if (const PartOf parts = part_of(text, amounts.end, to); !parts.parts.empty()) {
      out = lines_of_parts(text, start, to, parts, amounts.primary);
      if (!out.empty()) {
        return out;
      }
    }
    const Noun noun = find_noun(text, amounts.end, to);
    if (amounts.end < to && noun.to > noun.from && countable(noun, *amounts.primary)) {
      out.push_back(one_line(text, start, to, amounts, noun, to));
      further_line(text, noun, to, out);
      return out;
    }
    if (!amounts.primary->bare_article) {
      return out;
    }
  }
  const std::size_t inner = inner_measure(text, start, to);
  if (inner < to) {
    amounts = amounts_at(text, inner, to);
    const std::size_t name_to = trim_back(text, start, text[inner - 1].is('(') ? inner - 1 : inner);
    Noun noun = find_noun(text, start, name_to);
    DraftLine line = one_line(text, start, to, amounts, noun, name_to);
    add_note(line.line.note, text.slice(std::max(amounts.end, inner), to));
    if (const std::string_view purpose = purpose_in(text, start, to); line.purpose.empty()) {
      line.purpose = purpose;
    }
    out.push_back(std::move(line));
    return out;
  }
  const Noun noun = find_noun(text, start, to);
  if (noun.to > noun.from) {
    DraftLine line = one_line(text, start, to, {}, noun, to);
    for (std::size_t i = start; i < to; ++i) {
      line.same_as_before = line.same_as_before || is_class(text, i, WordClass::same);
    }
    out.push_back(std::move(line));
  }
  return out;
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
