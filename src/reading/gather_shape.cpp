// What a line looks like by itself: a row of the list, a step, or talk.
#include <algorithm>

#include "reading/gatherer.h"
#include "reading/spelling.h"

namespace maslin::reading {

void Gatherer::mend_after_numbers(Text& text) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool slot = i == 0 || text[i - 1].is_number();
    const Token& token = text[i];
    if (slot && token.kind == TokenKind::word && token.own == nullptr && token.name == nullptr) {
      mend_words(text, i, i + 1, Mending::units);
    }
  }
}

namespace {

/// "ok so heres what I do. bread flour 500g, …": past a sentence or two of talk to the list that
/// follows in the same line; `from` when none does.
std::size_t past_talk(const Text& text, std::size_t from, std::size_t to) {
  constexpr std::size_t k_most_talk = 3;
  const std::vector<Span> all = sentences(text, from, to);
  if (all.size() < 2) {
    return from;  // as most lines are
  }
  for (std::size_t n = 0; n < std::min(all.size(), k_most_talk); ++n) {
    const Span& one = all[n];
    const LineLook look = look_at(text, one.from, one.to);
    if (n > 0 && look.name_first && look.measure_inside &&
        ingredient_spans(text, one.from, one.to).size() >= 3) {
      return one.from;
    }
    if (look.name_first || look.measure_first || look.measure_inside ||
        verb_first(text, one.from, one.to)) {
      break;
    }
  }
  return from;
}

}  // namespace

void Gatherer::shape(LineState& state) const {
  const Text& text = *state.text;
  std::size_t from = past_talk(text, state.from, state.to);
  std::size_t end = first_sentence(text, from, state.to);
  from = list_after_colon(text, from, state.to);
  state.list_from = from;
  end = from > state.from ? first_sentence(text, from, state.to) : end;
  const std::vector<Span> parts = segments(text, from, end);
  end = parts.empty() ? end : parts.front().to;
  const LineLook look = look_at(text, from, end);
  const std::size_t verbs = verb_count(text, from, end);
  const bool verb =
      verb_first(text, from, end) || (!look.measure_first && verb_ends(text, from, end));
  state.steplike = verb || (verbs > 0 && has_setting(text, state.from, state.to)) || verbs > 2;
  const bool first = look.measure_first && look.name;
  const bool after = look.name_first && look.measure_inside && look.words <= 14;
  std::size_t rows = 0;  // "Flour, 2 lbs.; butter, 6 oz.; …: baked 1/4 hour"
  for (std::size_t i = from; i < end; ++i) {
    rows += text[i].is(';') ? 1U : 0U;
  }
  const bool row = look.name_first && look.measure_inside;
  const bool in_row =
      row && (rows >= 2 || (look.words > 14 && ingredient_spans(text, from, end).size() >= 3));
  state.listed = !verb && ((first && (verbs <= 1 || look.words <= 16)) || (after && verbs == 0) ||
                           (in_row && verbs <= 1));
  state.listed = state.listed && !divides_first(text, from, end);
  if (state.listed && !state.numbered) {
    state.steplike = false;
  }
}

std::size_t Gatherer::first_sentence(const Text& text, std::size_t from, std::size_t to) {
  const std::vector<Span> all = sentences(text, from, to);
  return all.empty() ? to : all.front().to;
}

}  // namespace maslin::reading
