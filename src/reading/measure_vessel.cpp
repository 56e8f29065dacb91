#include "reading/measure_vessel.h"

#include "reading/unit_at.h"

namespace maslin::reading {

namespace {

/// "1 L egg", "4 M Eier": the letter of a size, empty when it is none.
std::string_view egg_size(const Text& text, std::size_t i) {
  const std::string_view raw =
      std::string_view(text.raw).substr(text[i].begin, text[i].end - text[i].begin);
  const std::string_view size = raw == "S"   ? "small"
                                : raw == "M" ? "medium"
                                : raw == "L" ? "large"
                                             : "";
  const Match name = size.empty() ? Match{} : match_name(text, i + 1);
  return name && name.phrase->ingredient->id.starts_with("egg") ? size : "";
}

}  // namespace

std::size_t adjectives(const Text& text, std::size_t i, FoundMeasure& measure) {
  for (;;) {
    if (const Match name = match_name(text, i); name && name.end > i + 1) {
      return i;  // "mashed potatoes" is a name
    }
    if (const std::string_view letter = egg_size(text, i); !letter.empty()) {
      measure.size = letter;
      ++i;
    } else if (const Match size = match(text, i, WordClass::size)) {
      measure.size = size.phrase->means;
      i = size.end;
    } else if (const Match packing = match(text, i, WordClass::packing)) {
      // "tasse" is a cup, "tassé" packed: the letters without accents are the same.
      if (is_class(text, i, WordClass::unit) && !is_class(text, packing.end, WordClass::unit)) {
        return i;
      }
      measure.packing = packing.phrase->means.empty() ? measure.packing : packing.phrase->means;
      i = packing.end;
    } else {
      return i;
    }
    // "1 level (not heaped) tsp" does not happen; "1 lge." does.
    i += text[i].is('.') && !text[i].spaced ? 1U : 0U;
  }
}

bool is_content(std::string_view unit) {
  const UnitKind kind = unit_kind(unit);
  return kind == UnitKind::mass || kind == UnitKind::volume;
}

namespace {

struct Content {
  Range amount;
  std::string_view unit;
  std::size_t end = 0;
};

/// "7g", "14-oz", "(14 oz)" in front of a container.
std::optional<Content> content_at(const Text& text, std::size_t i) {
  const bool bracket = text[i].is('(') || text[i].is('[');
  const auto number = any_number(text, bracket ? i + 1 : i);
  if (!number || number->article) {
    return std::nullopt;
  }
  const Match unit = unit_at(text, number->end);
  if (!unit || !is_content(unit.phrase->means)) {
    return std::nullopt;
  }
  std::size_t end = unit.end;
  if (bracket) {
    if (!text[end].is(')') && !text[end].is(']')) {
      return std::nullopt;
    }
    ++end;
  }
  return Content{number->range, unit.phrase->means, end};
}

bool take_container(const Text& text, std::size_t i, const Content& content, FoundMeasure& out) {
  std::size_t at = adjectives(text, content.end, out);
  // "1 x 7g Maker's sachet": a word with a capital that nobody knows.
  for (std::size_t brand = at; brand < at + 2 && text[brand].capital && !match_name(text, brand) &&
                               !is_class(text, brand, WordClass::unit);
       ++brand) {
    if (const Match vessel = unit_at(text, brand + 1);
        vessel && unit_kind(vessel.phrase->means) == UnitKind::container) {
      at = brand + 1;
      break;
    }
  }
  const Match unit = unit_at(text, at);
  if (!unit || unit_kind(unit.phrase->means) != UnitKind::container) {
    return false;
  }
  out.unit = unit.phrase->means;
  out.word = text[at].word;
  out.content = content.amount;
  out.content_unit = content.unit;
  out.to = unit.end;
  return i < out.to;
}

}  // namespace

bool counted_containers(const Text& text, std::size_t i, FoundMeasure& out) {
  const Match times = match(text, i, WordClass::times);
  // "3 - 1 lb loaves": so many of so much each, since ranges go up.
  const bool dash = text[i].is('-') && text[i].spaced && text[i + 1].spaced;
  const std::size_t at = times ? times.end : dash ? i + 1 : i;
  const auto content = content_at(text, at);
  if (!content || (dash && (!out.number || out.number->low < content->amount.high))) {
    return false;
  }
  if (take_container(text, i, *content, out)) {
    return true;
  }
  if ((times || dash) && out.number) {  // "2 x 250 g"
    out.number =
        Range{out.number->low * content->amount.low, out.number->high * content->amount.high};
    out.unit = content->unit;
    out.to = content->end;
    return true;
  }
  return false;
}

bool tells_content(const Text& text, std::size_t i, std::size_t end, FoundMeasure& primary) {
  if (unit_kind(primary.unit) != UnitKind::container || primary.content) {
    return false;
  }
  for (std::size_t at = i + 1; at + 1 < end; ++at) {
    const bool begins = at == i + 1 || text[at - 1].is(',');
    const auto number = begins && text[at].is_number() ? any_number(text, at) : std::nullopt;
    const Match unit = number ? match(text, number->end, WordClass::unit) : Match{};
    const Match vessel = unit ? match(text, unit.end, WordClass::unit) : Match{};
    if (vessel && vessel.phrase->means == primary.unit && grams_in(unit.phrase->means) > 0.0) {
      primary.content = number->range;
      primary.content_unit = unit.phrase->means;
      return true;
    }
  }
  return false;
}

}  // namespace maslin::reading
