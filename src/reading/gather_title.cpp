// The title of a gathered text, and how many pieces it makes.
#include <algorithm>

#include "reading/gatherer.h"
#include "reading/join_lines.h"
#include "reading/setting.h"

namespace maslin::reading {

void Gatherer::take_yield(const Text& text, std::size_t from, std::size_t to, bool labelled) {
  const YieldWords yield = read_yield(text, from, to, labelled);
  draft_.pieces = draft_.pieces ? draft_.pieces : yield.pieces;
  draft_.piece_grams = draft_.piece_grams ? draft_.piece_grams : yield.piece_grams;
  draft_.total_grams = draft_.total_grams ? draft_.total_grams : yield.total_grams;
}

/// A first line set apart that says how many pieces there are: "Slipper bread   batch: 4
/// loaves @ 420 g" is a title, though it has a name and a weight.
bool Gatherer::tells_yield(const LineState& state) const {
  const Text& text = *state.text;
  const bool apart = at_ == 0 && lines_.size() > 1 && lines_[1].blank_before;
  for (std::size_t i = state.from; at_ == 0 && i < state.to; ++i) {
    const Match label = match(text, i, WordClass::label);
    const bool yield = label && label.phrase->means == "yield" && i > state.from;
    // "HOT DOG BUNS - YIELDS 100"
    if (yield && text[i - 1].is('-') && text[label.end].is_number() &&
        text[label.end + 1].kind == TokenKind::end) {
      return true;
    }
    if (!apart) {
      continue;
    }
    if (yield || (text[i].is_number() && is_class(text, i + 1, WordClass::piece) &&
                  !is_class(text, i + 1, WordClass::unit))) {
      return true;
    }
  }
  return false;
}

bool Gatherer::tells_times(const LineState& state) const {
  constexpr std::size_t k_most_words = 6;  // to a time
  // Among steps "Ruhezeit 30 Minuten" is one of them.
  if (std::any_of(draft_.parts.begin(), draft_.parts.end(),
                  [](const DraftPart& part) { return !part.steps.empty(); })) {
    return false;
  }
  const Text& text = *state.text;
  // What leads says how long each takes: "Ruhezeit ca. 1 Stunde; Koch-/Backzeit ca. 35 Minuten".
  bool leads = false;
  for (std::size_t i = state.from; i < std::min(state.to, state.from + 4) && !leads; ++i) {
    const Match label = match(text, i, WordClass::label);
    const bool deed = is_class(text, i, WordClass::verb) && label.end < state.to &&
                      text[label.end].kind == TokenKind::word &&
                      !is_class(text, label.end, WordClass::approx);  // "Cook in the oven"
    leads = label && label.phrase->means == "time" && !deed && !any_time(text, i);
  }
  if (!leads) {
    return false;
  }
  std::size_t labels = 0;
  std::size_t times = 0;
  for (std::size_t i = state.from; i < state.to; ++i) {
    const Match label = match(text, i, WordClass::label);
    labels += label && label.phrase->means == "time" ? 1U : 0U;
    if (const auto time = any_time(text, i)) {
      ++times;
      i = time->end - 1;
    } else if (text[i].is_number()) {
      return false;
    }
  }
  return times > 0 && labels >= times &&
         look_at(text, state.from, state.to).words <= k_most_words * times;
}

bool Gatherer::title(const LineState& state) {
  if (!draft_.title.empty() || (state.listed && !tells_yield(state)) || !draft_.parts.empty()) {
    return false;
  }
  const Text& text = *state.text;
  const LineLook look = look_at(text, state.from, state.to);
  // "1 yellow cake mix" at the head of the list
  if (at_ > 0 && text[state.from].is_number() && next_listed() && !lines_[at_ + 1].blank_before) {
    return false;
  }
  if (section_ == SectionKind::ingredients && at_ > 0) {
    return false;  // under "Ingredients" stands the list
  }
  // A message in one line, or that begins with what to do and how much, or how hot.
  if ((state.steplike && has_heat(text, {state.from, state.to})) || lines_.size() == 1 ||
      (state.steplike && look.name && look.measure_inside)) {
    return false;
  }
  // "Self-raising flour, to dust" at the head of the list
  if (look.name_first && !text[state.from].is_number() && next_listed() &&
      has_purpose(text, {state.from, state.to})) {
    return false;
  }
  // "3 cups flour (do not use self-raising)"
  const auto measure = any_measure(text, state.from);
  const UnitKind kind = measure ? unit_kind(measure->unit) : UnitKind::none;
  if (look.name && !state.titled && (kind == UnitKind::volume || kind == UnitKind::mass)) {
    return false;
  }
  // A first line set apart, however long: what the writer says of it.
  const bool apart = at_ == 0 && lines_.size() > 1 && lines_[1].blank_before &&
                     !look.measure_inside && text.raw.back() != '.';
  constexpr std::size_t k_longest = 16;
  constexpr std::size_t k_longest_apart = 24;
  if (look.words > (apart ? k_longest_apart : k_longest) ||
      (prose_ && look.words > 12 && lines_.size() < 3) || look.words == 0) {
    return false;
  }
  if ((state.steplike && at_ > 0) || text.raw.back() == ',') {
    return false;
  }
  draft_.title = text.raw;
  take_yield(text, state.from, state.to, false);
  return true;
}

}  // namespace maslin::reading
