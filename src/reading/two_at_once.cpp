#include "reading/two_at_once.h"

#include <algorithm>

#include "reading/made_up.h"
#include "reading/turned_name.h"

namespace maslin::reading {
namespace {

/// Past "mixed with", "dissolved in", "beaten with"; `i` when nothing of the kind stands there.
std::size_t past_mixed_with(const Text& text, std::size_t i, std::size_t to) {
  // "yeast (in 50 ml milk)", "yeast (dissolved in 50 ml milk)"
  std::size_t at = text[i].is(',') || text[i].is('(') ? i + 1 : i;
  if (text[i].is('(') && is_class(text, at, WordClass::into) &&
      !is_class(text, at, WordClass::to) && text[at + 1].is_number()) {
    return at + 1;
  }
  // "yeast cakes softened in 1/2 cup water": the word before was taken for the name's.
  if (at == i && i > 0 && is_class(text, i - 1, WordClass::note) &&
      (is_class(text, i, WordClass::with) ||
       (is_class(text, i, WordClass::into) && !is_class(text, i, WordClass::to)))) {
    return i + 1;
  }
  for (std::size_t words = 0; at < to && words < 3; ++words, ++at) {
    if (is_class(text, at, WordClass::with) || is_class(text, at, WordClass::into)) {
      // "2 t baking soda in 1 cup water"
      const bool solved = at == i && is_class(text, at, WordClass::into) &&
                          !is_class(text, at, WordClass::to) && text[at + 1].is_number();
      return words > 0 || solved ? at + 1 : i;
    }
    if (!is_class(text, at, WordClass::stop) && !is_class(text, at, WordClass::note) &&
        !is_class(text, at, WordClass::span)) {  // "soaked overnight in"
      return i;
    }
  }
  return i;
}

/// "Pumpkin and sunflower seeds": the noun is said once, behind the second.
Noun with_shared_tail(const Text& text, Noun noun, const Noun& second) {
  if (second.match_to < second.match_from + 2) {
    return noun;
  }
  const std::string whole = std::string(text.slice(noun.match_from, noun.match_to)) + " " +
                            std::string(text.slice(second.match_to - 1, second.match_to));
  const Text words = tokenise(whole, *text.lexicons, *text.lexicon);
  if (const Match name = match_name(words, 0); name && name.end == words.size()) {
    noun.ingredient = name.phrase->ingredient;
    noun.generic = name.phrase->value;
  }
  return noun;
}

void halve(FoundMeasure& measure) {
  if (measure.number) {
    measure.number = Range{0.5 * measure.number->low, 0.5 * measure.number->high};
  }
}

void doubt_halved(DraftLine& line) {
  line.doubts.push_back(
      {line.line.text, "one amount is said for both: half of it was taken for each"});
}

}  // namespace

bool is_real(const FoundMeasure& measure) {
  const UnitKind kind = unit_kind(measure.unit);
  return measure.number && (kind == UnitKind::mass || kind == UnitKind::volume);
}

void mixed_line(Text& text, const Noun& noun, std::size_t to, std::vector<DraftLine>& out) {
  const std::size_t at = past_mixed_with(text, noun.to, to);
  const Amounts amounts = at > noun.to ? amounts_at(text, at, to) : Amounts{};
  const UnitKind unit = amounts.primary ? unit_kind(amounts.primary->unit) : UnitKind::none;
  if (unit != UnitKind::volume && unit != UnitKind::mass) {
    return;
  }
  const Noun second = find_noun(text, amounts.end, to);
  if (second.ingredient == nullptr || second.ingredient == noun.ingredient ||
      second.match_from > amounts.end + 3) {
    return;
  }
  DraftLine line = one_line(text, at, to, amounts, second, to);
  line.purpose = out.front().purpose;
  out.push_back(std::move(line));
}

void shared_line(Text& text, std::size_t from, const Amounts& amounts, const Noun& noun,
                 std::size_t to, std::vector<DraftLine>& out) {
  const std::size_t at = noun.to + 1;
  if (out.size() != 1 || noun.to >= to || noun.ingredient == nullptr || !amounts.primary ||
      !amounts.primary->number || !amounts.sums.empty() ||
      (!is_class(text, noun.to, WordClass::join) && !text[noun.to].is('&')) ||
      amounts_at(text, at, to).primary || is_class(text, at, WordClass::purpose)) {
    return;
  }
  const Noun second = find_noun(text, at, to);
  if (second.ingredient == nullptr || second.ingredient == noun.ingredient || second.mended ||
      second.match_from > at + 2 || second.match_from < at) {
    return;
  }
  // "500 g flour and milk as needed": the second has its own purpose, and no share of the amount.
  const Match own = match(text, second.match_to, WordClass::purpose);
  if ((own && (own.phrase->means == "need" || own.phrase->means == "taste")) ||
      is_class(text, second.match_to, WordClass::loose)) {
    out.push_back(one_line(text, at, to, {}, second, to));
    return;
  }
  const Token& next = text[second.match_to];
  if (second.match_to < second.to && next.own == nullptr && next.name == nullptr) {
    return;  // "lemon & orange mix": a third word nobody knows is the noun
  }
  // "20 g yeast and water to dissolve it": the water has no amount, and no share of the yeast's.
  // So with "120 g oil and salt".
  const bool salted = second.ingredient->kind == IngredientKind::salt &&
                      noun.ingredient->kind != IngredientKind::salt &&
                      unit_kind(amounts.primary->unit) == UnitKind::mass;
  if (salted || (noun.ingredient->kind == IngredientKind::yeast &&
                 second.ingredient->kind != IngredientKind::yeast)) {
    out.push_back(one_line(text, at, to, {}, second, to));
    return;
  }
  const Noun first = with_shared_tail(text, noun, second);
  if (!is_real(*amounts.primary)) {
    if (amounts.primary->unit.empty() && second.ingredient->kind != noun.ingredient->kind) {
      out.push_back(one_line(text, at, to, {}, second, to));
    }
    return;
  }
  Amounts half = amounts;
  halve(*half.primary);
  std::for_each(half.others.begin(), half.others.end(), halve);
  out = {one_line(text, from, to, half, first, to), one_line(text, from, to, half, second, to)};
  std::for_each(out.begin(), out.end(), doubt_halved);
}

void halve_joined(std::vector<DraftLine>& lines) {
  if (lines.size() < 2) {
    return;
  }
  DraftLine& first = lines[lines.size() - 2];
  DraftLine& second = lines.back();
  if (first.measure || !second.measure || !second.measure->number ||
      unit_kind(second.measure->unit) != UnitKind::mass || first.ingredient == nullptr ||
      second.ingredient == nullptr || first.ingredient == second.ingredient ||
      first.ingredient->kind != second.ingredient->kind) {
    return;
  }
  halve(*second.measure);
  second.line.found.number = second.measure->number;
  first.measure = second.measure;
  first.line.found = second.line.found;
  doubt_halved(first);
  doubt_halved(second);
}

}  // namespace maslin::reading
