#include "reading/measure.h"

#include <algorithm>
#include <array>

#include "reading/measure_vessel.h"
#include "reading/setting.h"
#include "reading/unit_at.h"

namespace maslin::reading {
namespace {

bool is_litres(std::string_view unit) {
  return unit == "ml" || unit == "cl" || unit == "dl" || unit == "l";
}

/// Grams this near to ounces beside them are those ounces, rounded. Common practice, no source.
constexpr double k_twin = 0.15;

/// "1 lb 2 oz": a smaller unit of the same kind right after.
void compound(const Text& text, FoundMeasure& out) {
  if (out.number->low != out.number->high || text[out.to].kind == TokenKind::mark) {
    return;
  }
  const auto number = one_number(text, out.to);
  if (!number || number->article) {
    return;
  }
  const Match unit = unit_at(text, number->end);
  if (!unit || text[out.to].wide) {
    return;
  }
  // "1 tablespoon 15ml Sugar": the same said in metric, not a sum.
  if (is_litres(unit.phrase->means) && !is_litres(out.unit) &&
      unit_kind(out.unit) == UnitKind::volume) {
    out.to = unit.end;
    return;
  }
  const double ratio = unit_ratio(out.unit, unit.phrase->means);
  // "4 oz 112 g water": the same again in grams.
  const bool metric = unit.phrase->means == "g" || unit.phrase->means == "kg";
  const bool twin = metric && (out.unit == "oz" || out.unit == "lb") &&
                    std::abs(number->range.low * ratio / out.number->low - 1.0) < k_twin;
  if (twin) {
    out.to = unit.end;
    return;
  }
  if (ratio > 0.0 && ratio < 1.0) {
    const double sum = out.number->low + number->range.low * ratio;
    out.number = Range{sum, sum};
    out.to = unit.end;
  }
}

/// "450g-500g": the unit said twice.
void second_end(const Text& text, FoundMeasure& out) {
  const std::size_t mark = range_mark(text, out.to);
  if (mark == out.to || out.number->low != out.number->high) {
    return;
  }
  const auto number = one_number(text, mark);
  const Match unit = number ? unit_at(text, number->end) : Match{};
  // "6 tablespoons to 3/4 cup": in the first unit.
  const double ratio = unit ? unit_ratio(out.unit, unit.phrase->means) : 0.0;
  if (unit && ratio > 0.0 && ratio * number->range.low > out.number->low &&
      (unit.phrase->means == out.unit || !number->article)) {
    out.number->high = ratio * number->range.low;
    out.to = unit.end;
  }
}

bool is_setting(const Text& text, std::size_t i) {
  if (const auto size = any_size(text, i); size && size->end > i) {
    // "100 centímetros cúbicos" are no length.
    const auto number = any_number(text, i);
    const Match unit = number ? unit_at(text, number->end) : Match{};
    return !unit || unit.end <= size->end;
  }
  return any_time(text, i).has_value() || any_heat(text, i).has_value();
}

std::optional<FoundMeasure> loose(const Text& text, std::size_t i, std::size_t start) {
  FoundMeasure out;
  out.from = start;
  const std::size_t at = adjectives(text, i, out);
  const Match word = match(text, at, WordClass::loose);
  if (!word) {
    return std::nullopt;
  }
  out.unit = word.phrase->means;
  out.word = text[at].word;
  out.to = word.end;
  return out;
}

/// "2 condensed milk tins of flour": the unit stands after the name of what was in it.
std::size_t past_own_content(const Text& text, std::size_t i) {
  if (is_class(text, i, WordClass::unit)) {
    return i;  // "tea-spoonful of"
  }
  const Match name = match_name(text, i);
  const Match vessel = name ? unit_at(text, name.end) : Match{};
  return vessel && is_class(text, vessel.end, WordClass::of) ? name.end : i;
}

/// A packing said of the spoon, not of what is in it: level, heaped, rounded.
bool is_of_spoon(const Match& packing) {
  const std::string_view means = packing.phrase->means;
  return means.empty() || means == "heaped" || means == "rounded";
}

/// The unit and what goes with it after the number.
bool with_unit(const Text& text, std::size_t i, FoundMeasure& out) {
  std::size_t first = i + (text[i].is('+') && unit_at(text, i + 1) ? 1U : 0U);  // "1/8 + cup"
  // "Half of a teaspoonful", "1/3 de tasse".
  if (out.number && out.number->low < 1.0 && is_class(text, i, WordClass::of)) {
    first += is_class(text, i + 1, WordClass::article) ? 2U : 1U;
    first = is_class(text, first, WordClass::unit) && !match_name(text, first) ? first : i;
  }
  // "1 y un poquito más cucharadita"
  if (is_class(text, i, WordClass::join) && is_class(text, i + 1, WordClass::article) &&
      is_class(text, i + 2, WordClass::loose) && is_class(text, i + 4, WordClass::unit)) {
    first = i + 4;
  }
  // "2 and a bit tablespoons"
  if (is_class(text, i, WordClass::join) && is_class(text, i + 1, WordClass::article) &&
      is_class(text, i + 2, WordClass::loose) && is_class(text, i + 3, WordClass::unit)) {
    first = i + 3;
  }
  const std::size_t at = past_own_content(text, adjectives(text, first, out));
  const Match unit = unit_at(text, at);
  if (!unit) {
    return false;
  }
  // "1 gousse de vanille" is a vanilla pod, no piece of vanilla.
  if (const Match whole = match_name(text, at); whole && text.lexicon->manners.noun_first &&
                                                whole.end > unit.end &&
                                                unit_kind(unit.phrase->means) == UnitKind::count) {
    return false;
  }
  out.unit = unit.phrase->means;
  out.word = text[at].word;
  out.to = unit.end;
  // A unit that is a share of another: the German pound is half a kilogram.
  if (const double share = unit.phrase->value; share > 0.0 && share < 1.0) {
    out.number = Range{out.number->low * share, out.number->high * share};
  }
  if (const auto share = trailing_share(text, out.to)) {
    out.number = Range{out.number->low + share->range.low, out.number->high + share->range.low};
    out.to = share->end;
  }
  compound(text, out);
  second_end(text, out);
  // "1 kg bag flour", "7 g sachet yeast": the vessel says no more than the weight.
  const Match name = match_name(text, out.to);
  const bool named = name && name.end > out.to + 1;  // "cake flour"
  const Match vessel = is_content(out.unit) && !named ? unit_at(text, out.to) : Match{};
  if (vessel && unit_kind(vessel.phrase->means) == UnitKind::container &&
      text[out.to].kind == TokenKind::word) {
    out.to = vessel.end;
  }
  // "1 càc 1/2 de sel"
  if (out.number && text[out.to].is_number() && !match_name(text, out.to)) {
    const auto half = one_number(text, out.to);
    if (half && half->range.high < 1.0 && is_class(text, half->end, WordClass::of)) {
      out.number = Range{out.number->low + half->range.low, out.number->high + half->range.low};
      out.to = half->end;
    }
  }
  // "2 tsp level", "1 tbsp heaped"
  // "4 glasses whole wheat": a word of the name says nothing of the spoon.
  const Match thing = match_name(text, out.to);
  if (const Match how = match(text, out.to, WordClass::packing);
      how && is_of_spoon(how) && !(thing && thing.end > how.end)) {
    out.packing = how.phrase->means.empty() ? out.packing : how.phrase->means;
    out.to = how.end;
  }
  return true;
}

/// "Scant ½ pint", "generous 2 cups": said before the number.
std::optional<FoundMeasure> led_by_packing(const Text& text, std::size_t i) {
  const Match packing = match(text, i, WordClass::packing);
  if (!packing || !is_of_spoon(packing) || !text[packing.end].is_number()) {
    return std::nullopt;
  }
  auto measure = any_measure(text, packing.end);
  if (!measure || measure->unit.empty()) {
    return std::nullopt;
  }
  measure->from = i;
  measure->packing = packing.phrase->means.empty() ? measure->packing : packing.phrase->means;
  return measure;
}

}  // namespace

std::optional<FoundMeasure> any_measure(const Text& text, std::size_t i) {
  if (text[i].kind == TokenKind::mark && !text[i].is('~') && !text[i].is('.')) {
    return std::nullopt;
  }
  if (is_setting(text, i)) {
    return std::nullopt;
  }
  // "1:64" is a ratio.
  const bool ratio = text[i].is_number() &&
                     ((text[i + 1].is(':') && !text[i + 1].spaced && text[i + 2].is_number() &&
                       !text[i + 2].spaced) ||
                      (i > 1 && text[i - 1].is(':') && !text[i].spaced && text[i - 2].is_number()));
  if (ratio) {
    return std::nullopt;
  }
  if (text[i].is_number() && match_name(text, i)) {
    return std::nullopt;  // "00 flour"
  }
  if (const Match name = match_name(text, i);
      name && name.end > i + 1 && is_class(text, i, WordClass::number)) {
    return std::nullopt;  // "quatre-épices", "seven grain cereal"
  }
  if (auto led = led_by_packing(text, i)) {
    return led;
  }
  // "x2 yolks"
  if (const Match times = match(text, i, WordClass::times);
      times && text[times.end].kind == TokenKind::number && !text[times.end].spaced) {
    auto measure = any_measure(text, times.end);
    if (measure) {
      measure->from = i;
    }
    return measure;
  }
  const auto number = any_number(text, i);
  if (!number) {
    // "some", "handful chopped parsley"; "mug of warm water", "glug oil"
    if (auto out = loose(text, i, i)) {
      return out;
    }
    FoundMeasure out;
    out.from = i;
    out.number = Range{1.0, 1.0};
    const std::size_t at = adjectives(text, i, out);
    Match unit = unit_at(text, at);
    if (const Match name = unit ? match_name(text, at) : Match{};
        name && name.end > unit.end && !is_class(text, unit.end, WordClass::of)) {
      unit = {};  // "noce moscata" is no nut of something
    }
    // "tsp salt" in a list without numbers
    const bool heaped = at > i && (out.packing == "heaped" || out.packing == "rounded");
    const bool begins = i == 0 || text[i - 1].kind == TokenKind::mark || text[i].fresh || heaped;
    // "salt tsp": the name before, the line's end behind.
    const bool ends = unit && i > 0 && text[i - 1].name != nullptr &&
                      unit_kind(unit.phrase->means) == UnitKind::volume &&
                      text[at].word.size() > 1 && text[unit.end].kind == TokenKind::end;
    const bool bare = unit && (ends || is_class(text, unit.end, WordClass::of) ||
                               (unit.phrase->value == 1.0 && text[at].word.size() > 1) ||
                               trailing_share(text, unit.end) ||  // "ounce and a half of yeast"
                               (begins && match_name(text, unit.end) && text[at].word.size() > 1));
    return bare && with_unit(text, i, out) ? std::optional(out) : std::nullopt;
  }
  FoundMeasure out;
  out.from = i;
  out.number = number->range;
  out.to = number->end;
  // "1/2 -cup", "1 -package"
  if (text[out.to].is('-') && !text[out.to + 1].spaced && !number->article &&
      is_class(text, out.to + 1, WordClass::unit) && with_unit(text, out.to + 1, out)) {
    return out;
  }
  out.approximate = number->approximate;
  if (number->article) {
    if (auto some = loose(text, number->end, i)) {
      return some;
    }
  }
  // "1n envelope": a letter that slipped in.
  const Token& stray = text[number->end];
  if (!number->article && stray.kind == TokenKind::word && !stray.spaced &&
      stray.word.size() == 1 && !is_class(text, number->end, WordClass::unit) &&
      unit_at(text, number->end + 1) && with_unit(text, number->end + 1, out)) {
    return out;
  }
  if (counted_containers(text, adjectives(text, number->end, out), out)) {
    return out;
  }
  // "2x sachets"
  if (const Match times = match(text, number->end, WordClass::times);
      times && unit_at(text, times.end) && with_unit(text, times.end, out)) {
    return out;
  }
  // "2 + 1 tablespoons": the unit is said once, at the end.
  if (text[number->end].is('+') && !number->article) {
    const auto more = one_number(text, number->end + 1);
    if (more && !more->article && unit_at(text, more->end) && with_unit(text, more->end, out)) {
      out.number = Range{number->range.low + more->range.low, number->range.high + more->range.low};
      return out;
    }
  }
  // "9, quarts flour": a comma that a scan put in.
  if (text[number->end].is(',') && !text[number->end].spaced && !number->article) {
    const Match unit = unit_at(text, number->end + 1);
    const UnitKind kind = unit ? unit_kind(unit.phrase->means) : UnitKind::none;
    const bool real = (kind == UnitKind::mass || kind == UnitKind::volume) &&
                      text[number->end + 1].word.size() > 2;
    const std::size_t after =
        unit ? unit.end + (is_class(text, unit.end, WordClass::of) ? 1U : 0U) : 0;
    if (real && match_name(text, after) && with_unit(text, number->end + 1, out)) {
      return out;
    }
  }
  if (text[number->end].is('%')) {
    out.unit = "percent";
    out.to = number->end + 1;
    return out;
  }
  if (with_unit(text, number->end, out)) {
    return out;
  }
  // "1 Schuss Rum", "2 good glugs of oil": counted, though nobody measures one.
  if (!number->article && number->range.high <= 6.0) {
    if (auto some = loose(text, number->end, i); some && some->unit != "some") {
      const bool named = match_name(text, some->to) || is_class(text, some->to, WordClass::of);
      if (named && !match_name(text, some->to - 1)) {
        some->number = number->range;
        return some;
      }
    }
  }
  // "Latte ml 150", "Burro, grammi 100.": the unit said before its number.
  // "g. 15 lievito": where a line begins with it, the name may follow.
  const Match ahead = unit_ahead(text, i);
  const std::size_t unit_from = ahead ? ahead.end - 1 : i;
  const bool leads = ahead && (unit_from == 0 || text[unit_from - 1].kind == TokenKind::mark ||
                               text[unit_from].fresh);
  if (ahead && (leads || !match_name(text, number->end))) {
    out.from = ahead.end - 1;
    out.unit = ahead.phrase->means;
    out.word = text[out.from].word;
    return out;
  }
  out.to = adjectives(text, number->end, out);
  out.bare_article = number->article;
  return out;
}

Match unit_ahead(const Text& text, std::size_t i) {
  constexpr std::array<std::string_view, 6> k_metric{"g", "kg", "ml", "cl", "dl", "l"};
  const std::size_t end = i > 1 && text[i - 1].is('.') && !text[i - 1].spaced ? i - 1 : i;
  const Match unit = end > 0 ? match(text, end - 1, WordClass::unit) : Match{};
  const bool metric =
      unit && unit.end == end && unit.phrase->value == 0.0 &&
      std::find(k_metric.begin(), k_metric.end(), unit.phrase->means) != k_metric.end();
  return metric && !(end > 1 && text[end - 2].is_number()) ? unit : Match{};
}

}  // namespace maslin::reading
