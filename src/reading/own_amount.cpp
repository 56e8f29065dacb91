#include "reading/own_amount.h"

#include <algorithm>
#include <optional>

#include "quantity/number_text.h"
#include "reading/measure.h"

namespace maslin::reading {
namespace {

// Words between an amount and the aside on it: "1 sachet, but I use 3/4".
constexpr std::size_t k_farthest = 4;

struct Own {
  FoundMeasure measure;
  bool share = false;  // "half": of what was said
  std::size_t end = 0;
};

/// The amount that the words at `i` tell of what was named before.
std::optional<Own> own_at(const Text& text, std::size_t i, std::size_t to) {
  std::size_t at = i;
  if (const Match led = match(text, i, WordClass::own); led && led.phrase->value == 0.0) {
    at = led.end;
  } else if (led) {
    return std::nullopt;
  }
  const auto measure = any_measure(text, at);
  if (!measure || !measure->number || measure->bare_article || measure->to > to) {
    return std::nullopt;
  }
  // "half is enough"
  const Match after = at == i ? match(text, measure->to, WordClass::own) : Match{};
  if (at == i && (!after || after.phrase->value == 0.0)) {
    return std::nullopt;
  }
  // "I use 2 eggs", "I use half wholemeal" are of another thing.
  const Token& next = text[measure->to];
  const bool closed =
      measure->to >= to || next.kind != TokenKind::word ||
      (is_class(text, measure->to, WordClass::stop) && !match_name(text, measure->to));
  if (at > i && (!closed || next.is('%') || next.is_number())) {
    return std::nullopt;
  }
  return Own{*measure, measure->unit.empty() && is_class(text, at, WordClass::share),
             after ? after.end : measure->to};
}

}  // namespace

std::size_t own_amount_end(const Text& text, std::size_t i, std::size_t to) {
  for (std::size_t at = i; at < std::min(to, i + k_farthest); ++at) {
    const auto own = own_at(text, at, to);
    if (own) {
      return own->end;
    }
    if (text[at].is_number() || match_name(text, at) || text[at].is(';')) {
      break;
    }
  }
  return i;
}

void take_own_amount(const Text& text, std::size_t from, std::size_t to, DraftLine& line) {
  if (!line.sums.empty()) {
    return;
  }
  const bool stated_one = line.measure && line.measure->number;
  for (std::size_t i = from; i < to; ++i) {
    const auto own = own_at(text, i, to);
    if (!own) {
      continue;
    }
    // "Flour as needed (I used 4 cups)"
    if (!stated_one) {
      if (own->measure.unit.empty() || own->share) {
        return;
      }
      line.measure = own->measure;
      line.portion_word = own->measure.word;
      line.line.found.number = own->measure.number;
      line.line.found.unit = std::string(own->measure.unit);
      line.doubts.push_back({line.line.text, "no amount is stated: the writer's own was taken"});
      return;
    }
    FoundMeasure& stated = *line.measure;
    Range number = *own->measure.number;
    if (own->share) {
      number = {number.low * stated.number->low, number.high * stated.number->high};
    }
    const bool same_unit = own->measure.unit.empty() || own->measure.unit == stated.unit;
    if (!same_unit && unit_ratio(stated.unit, own->measure.unit) <= 0.0) {
      continue;  // "225 ml strong tea (I used 6 bags)"
    }
    if (same_unit && number.low >= stated.number->low && number.high <= stated.number->high) {
      return;
    }
    line.doubts.push_back({line.line.text, "another amount is said of it: " +
                                               number_text(stated.number->middle(), 2) +
                                               "; the writer's own was taken"});
    stated.number = number;
    if (!same_unit) {
      stated.unit = own->measure.unit;
      stated.word = own->measure.word;
      line.portion_word = stated.word;
      line.line.found.unit = std::string(stated.unit);
    }
    line.line.found.number = number;
    line.other.reset();
    return;
  }
}

}  // namespace maslin::reading
