// Ranges of numbers: "1-2", "two or three".
#include "reading/number.h"

namespace maslin::reading {

std::size_t range_mark(const Text& text, std::size_t i) {
  if (text[i].is('-')) {
    return i + 1 + (text[i + 1].is('-') ? 1U : 0U);
  }
  // "35/40 minutes"
  const bool stroke = i > 0 && text[i].is('/') && !text[i].spaced && text[i - 1].is_number() &&
                      text[i + 1].kind == TokenKind::number && !text[i + 1].spaced &&
                      text[i + 1].value > text[i - 1].value;
  if (stroke) {
    return i + 1;
  }
  const Match to = match(text, i, WordClass::to);
  return to ? to.end : i;
}

namespace {

/// Past the bracket of "150 (100) ml milk", "4 (3) eggs": the amount for the smaller tin.
std::size_t past_other_size(const Text& text, std::size_t i) {
  if (!text[i].is('(') || !text[i + 1].is_number()) {
    return i;
  }
  const auto inside = one_number(text, i + 1);
  if (!inside || !text[inside->end].is(')')) {
    return i;
  }
  const std::size_t next = inside->end + 1;
  const Match unit = match(text, next, WordClass::unit);
  const bool holds = unit && (unit.phrase->means == "can" || unit.phrase->means == "packet" ||
                              unit.phrase->means == "jar" || unit.phrase->means == "bottle");
  return (unit && !holds) || match_name(text, next) ? next : i;
}

}  // namespace

std::optional<Number> any_number(const Text& text, std::size_t i) {
  std::size_t start = i;
  bool approximate = false;
  while (is_class(text, start, WordClass::approx) || text[start].is('~')) {
    start = text[start].is('~') ? start + 1 : match(text, start, WordClass::approx).end;
    start += text[start].is('.') ? 1U : 0U;
    approximate = true;
  }
  auto first = one_number(text, start);
  if (!first && start > i) {
    first = one_number(text, i);  // "a good pinch": no number after "a good"
    approximate = false;
  }
  if (!first) {
    return std::nullopt;
  }
  first->approximate = approximate;
  // "One (1) teaspoon"
  if (text[first->end].is('(') && text[first->end + 1].is_number() &&
      text[first->end + 1].value == first->range.low && text[first->end + 2].is(')')) {
    first->end += 3;
  }
  if (first->article) {
    return first;
  }
  first->end = past_other_size(text, first->end);
  std::size_t mark = range_mark(text, first->end);
  if (mark == first->end && (is_class(text, mark, WordClass::or_) ||
                             (approximate && is_class(text, mark, WordClass::join)))) {
    ++mark;
  }
  if (mark == first->end) {
    return first;
  }
  const auto second = one_number(text, mark);
  if (!second || second->article || second->range.low <= first->range.low ||
      second->range.low > 40.0 * first->range.low) {
    return first;
  }
  first->range.high = second->range.low;
  first->end = second->end;
  return first;
}

}  // namespace maslin::reading
