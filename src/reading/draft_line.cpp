#include "reading/draft_line.h"

#include <algorithm>

#include "quantity/number_text.h"
#include "reading/kind_told.h"

namespace maslin::reading {
namespace {

std::string trimmed_note(std::string_view note) {
  const auto junk = [](char c) {
    return c == ' ' || c == ',' || c == ';' || c == '.' || c == '-' || c == '\t' || c == ':';
  };
  while (!note.empty() && junk(note.front())) {
    note.remove_prefix(1);
  }
  while (!note.empty() &&
         (junk(note.back()) || (note.back() == ')' && note.find('(') >= note.size()))) {
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
      for (const FoundMeasure& sum : out.sums) {  // "1/2 cup + 2 tbsp (125 g)"
        const double ratio = unit_ratio(out.other->unit, sum.unit);
        if (ratio > 0.0 && out.other->number && sum.number) {
          out.other->number = Range{out.other->number->low + ratio * sum.number->low,
                                    out.other->number->high + ratio * sum.number->high};
        }
      }
      out.measure = other;
      out.sums.clear();
    } else if (!out.other) {
      out.other = other;
    }
  }
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
      // "the size of a walnut x2"
      const Match by = match(text, thing.end, WordClass::times);
      const auto count = by && by.end < to ? one_number(text, by.end) : std::nullopt;
      out.line.found.number = count && !count->article ? count->range : Range{1.0, 1.0};
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

/// "a piece of ginger", "a bunch of coriander": counted so, it is the fresh plant.
const Ingredient* counted_kind(const Text& text, const Noun& noun, const DraftLine& out) {
  const UnitKind kind = out.measure ? unit_kind(out.measure->unit) : UnitKind::none;
  const std::string_view unit =
      out.measure ? std::string_view(out.measure->unit) : std::string_view();
  const bool dried = unit == "pinch" || unit == "dash" || unit == "shake" || unit == "smidgen";
  const bool whole = kind == UnitKind::count || (kind == UnitKind::loose && !dried);
  // "¼ tsp coriander" stands among the spices; "fresh", "leaves" or "chopped" would be said.
  const bool alone =
      noun.match_to == noun.match_from + 1 && noun.note.empty() && noun.packing.empty();
  const std::string& how = out.line.found.packing;
  if (const Match spooned = match(text, noun.match_from, WordClass::spooned);
      spooned && alone && unit == "tsp" && (how.empty() || how == "crushed")) {
    return text.lexicons->pantry->find(spooned.phrase->means);
  }
  for (std::size_t i = noun.match_from; whole && i < noun.match_to; ++i) {
    if (const Match counted = match(text, i, WordClass::counted)) {
      return text.lexicons->pantry->find(counted.phrase->means);
    }
  }
  return nullptr;
}

/// "3 tbsp sugar (she says 6!!)": a second amount of the same, by someone else.
void doubt_told(const Text& text, std::size_t from, std::size_t to, DraftLine& out) {
  for (std::size_t i = from; i < to && out.line.found.number; ++i) {
    const Match told = match(text, i, WordClass::told);
    std::size_t at = told ? told.end : to;
    while (at < to && (is_class(text, at, WordClass::approx) || text[at].is(':'))) {
      ++at;
    }
    const auto other = at < to ? any_measure(text, at) : std::nullopt;
    const bool same = other && other->number && !match_name(text, other->to) &&
                      (other->unit.empty() || other->unit == out.line.found.unit) &&
                      other->number->low == out.line.found.number->low;
    if (other && other->number && !same && !other->bare_article) {
      out.doubts.push_back(
          {trimmed_note(text.slice(from, to)),
           "another amount is said of it: " + std::string(text.slice(told.end, other->to)) + "; " +
               number_text(out.line.found.number->middle(), 2) + " was taken"});
      return;
    }
  }
}

/// "10 cardamom pods", "2 celery sticks": what is counted is the last word of the name.
void count_by_name(const Text& text, const Noun& noun, DraftLine& out) {
  if (noun.ingredient == nullptr || noun.match_to < noun.match_from + 2 || !out.measure ||
      !out.measure->number || !out.measure->unit.empty() || out.measure->bare_article ||
      !out.portion_word.empty()) {
    return;
  }
  const Match unit = match(text, noun.match_to - 1, WordClass::unit);
  const bool alone = unit && match_name(text, noun.match_to - 1).end <= noun.match_to - 1;
  if (alone && unit.phrase->means == "piece") {
    out.measure->unit = "piece";
    out.measure->word = text[noun.match_to - 1].word;
    out.line.found.unit = "piece";
    out.portion_word = out.measure->word;
  }
}

void set_name(const Text& text, const Noun& noun, std::size_t to, std::size_t told_to,
              DraftLine& out) {
  const KindTold kind = kind_told(text, noun, told_to);
  out.ingredient = kind.ingredient;
  if (const Ingredient* fresh = counted_kind(text, noun, out)) {
    out.ingredient = fresh;
  }
  out.line.ingredient_id = out.ingredient == nullptr ? "" : out.ingredient->id;
  // "1 c.c. cinnamon": nobody weighs out so little of what is dry; the letters stand for a coffee
  // spoon. Common practice, no source.
  constexpr double k_most_spoons = 4.0;
  const bool dry = out.ingredient != nullptr && (out.ingredient->kind == IngredientKind::spice ||
                                                 out.ingredient->kind == IngredientKind::salt ||
                                                 out.ingredient->kind == IngredientKind::yeast ||
                                                 out.ingredient->kind == IngredientKind::leavening);
  if (dry && out.measure && out.measure->unit == "ml" && out.measure->word.starts_with('c') &&
      out.measure->number && out.measure->number->high <= k_most_spoons) {
    out.measure->unit = "tsp";
    out.line.found.unit = "tsp";
  }
  out.line.name = trimmed_note(text.slice(noun.from, noun.to));
  out.line.found.packing =
      out.line.found.packing.empty() ? std::string(noun.packing) : out.line.found.packing;
  out.line.found.size = out.line.found.size.empty() ? std::string(noun.size) : out.line.found.size;
  out.mended = noun.mended;
  out.name_words = noun.match_to - noun.match_from;
  out.generic = out.ingredient == kind.ingredient ? kind.generic : 0.0;
  add_note(out.line.note, noun.note);
  add_note(out.line.note, text.slice(noun.to, to));
  doubt_told(text, noun.to, to, out);
  out.purpose = purpose_in(text, noun.from, to);
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
  // "3 pints sifted flour": the packing stands in the name.
  for (std::size_t i = noun.from; i < noun.match_to && out.line.found.packing.empty(); ++i) {
    const Match packing = match(text, i, WordClass::packing);
    out.line.found.packing = packing && packing.phrase->means == "sifted" ? "sifted" : "";
  }
}

}  // namespace

void add_note(std::string& note, std::string_view more) {
  const std::string trimmed = trimmed_note(more);
  if (!trimmed.empty()) {
    note += note.empty() ? "" : ", ";
    note += trimmed;
  }
}

std::string_view purpose_in(const Text& text, std::size_t from, std::size_t to) {
  for (std::size_t i = from; i < to; ++i) {
    if (text[i].is('(')) {
      std::size_t end = i;
      bool part = false;
      for (; end < to && !text[end].is(')'); ++end) {
        const Match word = match(text, end, WordClass::part);
        part = part || is_class(text, end, WordClass::part_of) ||
               (word && word.phrase->means == "dough");
      }
      part = part || text[i + 1].is_number();  // "3 eggs (1 for brushing)"
      i = part ? end : i;  // "1 egg (its yolk for brushing)", "2 eggs (1 dough, 1 to brush)"
    }
    if (const Match approx = match(text, i, WordClass::approx); approx && approx.end > i + 1) {
      i = approx.end - 1;  // "just over 1 teaspoon"
      continue;
    }
    // "2 eggs and one for brushing": the purpose is of that one.
    const auto other = i > from ? any_number(text, i) : std::nullopt;
    if (other && other->end < to) {
      const Match unit = match(text, other->end, WordClass::unit);
      const std::size_t after = unit ? unit.end : other->end;
      if (is_class(text, after, WordClass::purpose) || tells_use(text, after)) {
        return "extra";
      }
    }
    if (const Match purpose = match(text, i, WordClass::purpose)) {
      // "sugar over", but not "over ripe bananas"
      const bool last = purpose.end >= to || text[purpose.end].kind == TokenKind::mark;
      if (purpose.end > i + 1 || purpose.phrase->means != "top" || last) {
        return purpose.phrase->means;
      }
    }
    if (is_class(text, i, WordClass::plus) || text[i].is('+')) {
      return "extra";
    }
  }
  return {};
}

DraftLine one_line(Text& text, std::size_t from, std::size_t to, Amounts amounts, const Noun& noun,
                   std::size_t note_to, std::size_t told_to) {
  DraftLine out;
  out.line.text = trimmed_note(text.slice(from, to));
  amounts_after(text, noun.to, note_to, amounts);
  sums_after(text, noun, note_to, amounts);
  choose(amounts, out);
  set_found(out);
  set_name(text, noun, note_to, std::max(note_to, told_to), out);
  // "200 ml guava juice"
  if (const Match part = match(text, noun.match_to, WordClass::part_of);
      part && part.phrase->means == "juice" && noun.ingredient != nullptr &&
      noun.ingredient->kind == IngredientKind::fruit && noun.match_to > noun.match_from &&
      noun.match_to < note_to) {
    (void)take_part(out, "juice", *text.lexicons->pantry);
  }
  size_of_thing(text, noun.match_to, note_to, out);
  count_by_name(text, noun, out);
  return out;
}

}  // namespace maslin::reading
