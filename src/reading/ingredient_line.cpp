#include "reading/ingredient_line.h"

#include <algorithm>

#include "reading/draft_line.h"
#include "reading/fragments.h"
#include "reading/made_up.h"
#include "reading/own_amount.h"
#include "reading/turned_name.h"
#include "reading/two_at_once.h"

namespace maslin::reading {
namespace {

bool is_weight_total(const FoundMeasure& measure) {
  return unit_kind(measure.unit) == UnitKind::mass;
}

/// Past a bracket between an amount and its name: "150 ml (more or less) of water".
std::size_t past_bracket(const Text& text, std::size_t i, std::size_t to) {
  if (!text[i].is('(')) {
    return i;
  }
  std::size_t end = i;
  bool named = false;
  while (end < to && !text[end].is(')')) {
    named = named || match_name(text, end);
    ++end;
  }
  const bool of = is_class(text, end + 1, WordClass::of);
  if (of && match_name(text, end + 2)) {
    return end + 1;  // "half a pot (one of the yogurt's) of milk"
  }
  if (named) {
    return i;
  }
  return end + 1 < to && (of || match_name(text, end + 1)) ? end + 1 : i;
}

/// "oz. (45 g) lard": a page that lost the figure before its unit, but not the one in the bracket.
Amounts bracketed_alone(const Text& text, std::size_t from, std::size_t to) {
  const Match unit = match(text, from, WordClass::unit);
  std::size_t at = unit ? unit.end + (text[unit.end].is('.') ? 1U : 0U) : from;
  if (!unit || !text[at].is('(') || !text[at + 1].is_number()) {
    return {};
  }
  Amounts out = amounts_at(text, at + 1, to);
  if (!out.primary || !is_real(*out.primary) || !text[out.end].is(')')) {
    return {};
  }
  ++out.end;
  return out;
}

/// "Egg wash (1 egg and a little water)": the count of the thing itself, said in the bracket.
Amounts counted_inside(const Text& text, const Noun& noun, std::size_t to) {
  if (noun.ingredient == nullptr || noun.to >= to || !text[noun.to].is('(') ||
      !any_number(text, noun.to + 1)) {
    return {};
  }
  Amounts out;
  out.primary = any_measure(text, noun.to + 1);
  const Match name = out.primary ? match_name(text, out.primary->to) : Match{};
  if (!name || name.phrase->ingredient != noun.ingredient || !out.primary->number) {
    return {};
  }
  out.end = out.primary->to;
  return out;
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
  const std::size_t named = past_bracket(text, amounts.end, to);
  Noun second = find_noun(text, named, to);
  if (second.ingredient == nullptr || second.ingredient == noun.ingredient ||
      second.match_from > named + 3) {
    return;
  }
  out.push_back(one_line(text, at, to, amounts, second, to));
}

/// "1 cake fresh or 1 package granular yeast": the noun is said once, behind the other.
void take_first_of_two(const Text& text, std::size_t from, std::size_t to, Noun& noun) {
  std::size_t at = from;
  while (at < std::min(to, from + 3) && !is_class(text, at, WordClass::or_)) {
    ++at;
  }
  if (at == from || at >= noun.match_from || !is_class(text, at, WordClass::or_) ||
      !any_number(text, at + 1) || noun.ingredient == nullptr) {
    return;
  }
  const std::string whole = std::string(text.slice(from, at)) + " " +
                            std::string(text.slice(noun.match_to - 1, noun.match_to));
  const Text words = tokenise(whole, *text.lexicons, *text.lexicon);
  if (const Match name = match_name(words, 0);
      name && name.end == words.size() && name.phrase->ingredient->kind == noun.ingredient->kind) {
    noun.ingredient = name.phrase->ingredient;
    noun.generic = name.phrase->value;
  }
}

/// An article without a unit counts only before a thing that is counted.
bool countable(const Noun& noun, const FoundMeasure& measure) {
  if (!measure.bare_article) {
    return true;
  }
  return noun.ingredient != nullptr && is_counted(noun.ingredient->kind);
}

/// "1 yolk of an egg and 2 tbsp of water": what is joined to a part with an amount of its own.
void joined_rest(Text& text, std::size_t from, std::size_t to, std::vector<DraftLine>& out) {
  for (std::size_t i = from; i + 2 < to && out.size() == 1; ++i) {
    const auto more = is_class(text, i, WordClass::join) || text[i].is('+')
                          ? any_measure(text, i + 1)
                          : std::nullopt;
    if (!more || !more->number || !is_real(*more) || more->to >= to) {
      continue;
    }
    for (DraftLine& line : read_ingredient(text, i + 1, to)) {
      if (line.ingredient != nullptr && line.ingredient != out.front().ingredient) {
        line.purpose = line.purpose.empty() ? out.front().purpose : line.purpose;
        out.push_back(std::move(line));
      }
    }
    return;
  }
}

}  // namespace

std::vector<DraftLine> read_ingredient(Text& text, std::size_t from, std::size_t to) {
  std::vector<DraftLine> out;
  const std::size_t start = skip_bullets(text, from, to);
  if (std::vector<DraftLine> made_up = read_made_up(text, start, to); !made_up.empty()) {
    return made_up;
  }
  // "For the top 1 egg yolk": what it is for stands first.
  if (const Match purpose = match(text, start, WordClass::purpose);
      purpose && purpose.end < to && purpose.end > start && text[purpose.end].is_number()) {
    std::vector<DraftLine> lines = read_ingredient(text, purpose.end, to);
    for (DraftLine& line : lines) {
      line.line.text = std::string(text.slice(start, to));
      line.purpose = line.purpose.empty() ? purpose.phrase->means : line.purpose;
    }
    if (!lines.empty()) {
      return lines;
    }
  }
  // "Tuorlo d'uovo 1" is a name and its count; "the yolk of 1 egg" is not.
  const Match whole = match_name(text, start);
  const bool counted = whole && whole.end > start + 1 && text[whole.end].is_number() &&
                       whole.end + 1 >= to && whole.phrase->ingredient->kind == IngredientKind::egg;
  if (const PartOf parts = part_of(text, start, to); !parts.parts.empty() && !counted) {
    out = lines_of_parts(text, start, to, parts, std::nullopt);
    joined_rest(text, parts.end, to, out);
    return out;
  }
  Amounts amounts = amounts_at(text, start, to);
  if (!amounts.primary) {
    amounts = bracketed_alone(text, start, to);
  }
  while (amounts.primary && amounts.end < to && text[amounts.end].is('|')) {
    ++amounts.end;
  }
  if (amounts.primary) {
    if (text[amounts.end].is(',') && is_real(*amounts.primary) && amounts.end + 1 < to) {
      ++amounts.end;  // "2 cups, dried fruit"
    }
    amounts.end = past_bracket(text, amounts.end, to);
    if (const PartOf parts = part_of(text, amounts.end, to); !parts.parts.empty()) {
      out = lines_of_parts(text, start, to, parts, amounts.primary);
      if (!out.empty()) {
        joined_rest(text, parts.end, to, out);
        return out;
      }
    }
    Noun noun = find_noun(text, amounts.end, to);
    if (noun.to == noun.from && is_real(*amounts.primary)) {
      noun.from = amounts.end;  // "225 g strong white": only words that are said of things
      noun.to = noun_end(text, noun.from, to);
    }
    if (const auto parts = parts_after(text, noun, to); !parts.empty()) {
      out = lines_of_parts(text, start, to, {parts, start}, std::nullopt);
      if (!out.empty()) {
        return out;
      }
    }
    turn_last(text, to, noun);
    take_first_of_two(text, amounts.end, to, noun);
    if (amounts.end < to && noun.to > noun.from && countable(noun, *amounts.primary)) {
      out.push_back(one_line(text, start, to, amounts, noun, to));
      take_own_amount(text, noun.to, to, out.back());
      further_line(text, noun, to, out);
      mixed_line(text, noun, to, out);
      shared_line(text, start, amounts, noun, to, out);
      return out;
    }
    if (!amounts.primary->bare_article) {
      return out;
    }
  }
  const std::size_t cell = amount_cell(text, start, to);
  const std::size_t inner = cell < to ? cell : inner_measure(text, start, to);
  if (inner < to) {
    amounts = amounts_at(text, inner, to);
    const std::size_t name_to = trim_back(text, start, text[inner - 1].is('(') ? inner - 1 : inner);
    Noun noun = find_noun(text, start, name_to);
    turn_round(text, start, name_to, noun);
    if (noun.ingredient == nullptr && amounts.end < to) {
      // "Optional: 50 g chopped nuts": the name follows after all.
      const Noun after = find_noun(text, amounts.end, to);
      if (after.ingredient != nullptr) {
        DraftLine line = one_line(text, inner, to, amounts, after, to);
        line.line.text = std::string(text.slice(start, to));
        add_note(line.line.note, text.slice(start, name_to));
        out.push_back(std::move(line));
        return out;
      }
    }
    // "Yeast into 1/2 cup warm milk": the amount is of the milk.
    const bool into = inner > start + 1 && is_class(text, inner - 1, WordClass::into) &&
                      !is_class(text, inner - 1, WordClass::to);
    const Noun within = into && noun.ingredient != nullptr && amounts.end < to
                            ? find_noun(text, amounts.end, to)
                            : Noun{};
    if (within.ingredient != nullptr && within.ingredient != noun.ingredient) {
      out.push_back(one_line(text, start, to, {}, noun, inner - 1));
      out.push_back(one_line(text, inner, to, amounts, within, to));
      return out;
    }
    DraftLine line = one_line(text, start, to, amounts, noun, name_to, to);
    add_note(line.line.note, text.slice(std::max(amounts.end, inner), to));
    take_own_amount(text, amounts.end, to, line);
    const bool negative = inner > start + 1 && text[inner - 1].is('-') && !text[inner].spaced &&
                          text[inner - 2].is(':');
    if (negative) {
      line.doubts.push_back({line.line.text,
                             "an amount cannot be negative: it was read without "
                             "the sign"});
    }
    if (const std::string_view purpose = purpose_in(text, start, to); line.purpose.empty()) {
      line.purpose = purpose;
    }
    out.push_back(std::move(line));
    // "Fruit 12 oz, soaked in 1/2 pint of tea"
    Noun told = noun;
    told.to = amounts.end;
    mixed_line(text, told, to, out);
    // "eggs 2 + 1 yolk"
    const auto next = any_measure(text, amounts.end + 1);
    if (amounts.end + 1 < to && text[amounts.end].is('+') && !(next && tells_use(text, next->to))) {
      for (DraftLine& more : read_ingredient(text, amounts.end + 1, to)) {
        if (more.measure && more.measure->number && more.ingredient != nullptr &&
            more.ingredient != noun.ingredient) {
          out.push_back(std::move(more));
        }
      }
    }
    return out;
  }
  // "As needed flour (…)", as some languages order it
  const Match led = match(text, start, WordClass::purpose);
  Noun noun =
      find_noun(text, led && led.end < to && match_name(text, led.end) ? led.end : start, to);
  turn_last(text, to, noun);
  if (noun.to > noun.from) {
    DraftLine line = one_line(text, start, to, counted_inside(text, noun, to), noun, to);
    for (std::size_t i = start; i < to; ++i) {
      line.same_as_before = line.same_as_before || is_class(text, i, WordClass::same);
    }
    take_own_amount(text, noun.to, to, line);
    out.push_back(std::move(line));
  }
  return out;
}

std::vector<DraftLine> read_each(Text& text, std::size_t from, std::size_t to) {
  std::vector<DraftLine> out;
  const std::size_t start = skip_bullets(text, from, to);
  // "1 tsp each of A and B", or, as in German, "each 1 tsp A and B".
  const Match led = match(text, start, WordClass::each);
  const Amounts amounts = amounts_at(text, led ? led.end : start, to);
  const Match each = amounts.primary && !led ? match(text, amounts.end, WordClass::each) : led;
  const std::size_t names = led ? amounts.end : each.end;
  if (!each || !amounts.primary || names >= to) {
    return out;
  }
  for (std::size_t i = names; i < to;) {
    std::size_t end = i;
    while (end < to && !text[end].is(',') && !text[end].is('&') && !text[end].is(';') &&
           !is_class(text, end, WordClass::join)) {
      ++end;
    }
    const Noun noun = find_noun(text, skip_bullets(text, i, end), end);
    if (noun.ingredient != nullptr) {
      out.push_back(one_line(text, start, to, amounts, noun, end));
    }
    i = end + 1;
  }
  return out;
}

}  // namespace maslin::reading
