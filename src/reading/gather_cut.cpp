// The found lines cut into those that are gathered.
#include <algorithm>
#include "reading/columns.h"
#include "reading/gather.h"
#include "reading/gatherer.h"

namespace maslin::reading {

void Gatherer::cut_line(const FoundLine& found, std::vector<std::string_view>& units) {
  draft_.texts.push_back(tokenise(found.raw, lexicons_, lexicon_));
  const std::vector<std::string_view> head = column_units(draft_.texts.back());
  units = head.empty() ? units : head;
  if (!units.empty() && head.empty()) {
    const std::string row = row_with_units(draft_.texts.back(), units);
    if (row != found.raw) {
      draft_.texts.back() = tokenise(row, lexicons_, lexicon_);
    }
  }
  mend_after_numbers(draft_.texts.back());
  LineState state;
  state.text = &draft_.texts.back();
  state.to = state.text->size();
  state.from = skip_numbering(*state.text, skip_bullets(*state.text, 0, state.to), state.numbered);
  state.blank_before = found.blank_before;
  state.quoted = found.quoted;
  shape(state);
  lines_.push_back(state);
}

bool Gatherer::is_list_before_method(const FoundLine& found) const {
  Text list = tokenise(std::string_view(found.raw).substr(0, found.seam), lexicons_, lexicon_);
  const Text method =
      tokenise(std::string_view(found.raw).substr(found.seam + 1), lexicons_, lexicon_);
  LineState state;
  state.text = &list;
  state.to = list.size();
  shape(state);
  return state.listed && verb_first(method, 0, method.size());
}

void Gatherer::cut() {
  std::vector<std::string_view> units;
  for (const FoundLine& found : joined_rows(found_.lines, lexicons_, lexicon_)) {
    if (found.seam > 0 && is_list_before_method(found)) {
      FoundLine list = found;
      list.raw.resize(found.seam);
      cut_line(list, units);
      FoundLine method = found;
      method.raw.erase(0, found.seam + 1);
      method.blank_before = false;
      cut_line(method, units);
    } else {
      cut_line(found, units);
    }
  }
  unnumber_lists();
  std::size_t listed = 0;
  for (const LineState& state : lines_) {
    if (!state.listed || state.quoted) {
      continue;
    }
    const std::size_t end = first_sentence(*state.text, state.list_from, state.to);
    const std::size_t amounts = ingredient_spans(*state.text, state.list_from, end).size();
    // Sentences have many more words to an amount than lists.
    const bool sentence = look_at(*state.text, state.from, end).words > 9 * amounts && amounts > 1;
    listed += sentence ? 0U : std::max<std::size_t>(amounts, 1);
  }
  prose_ = listed < 2;
}

void Gatherer::unnumber_lists() {
  constexpr std::size_t k_fewest = 3;
  for (std::size_t from = 0; from < lines_.size();) {
    if (!lines_[from].numbered) {
      ++from;
      continue;
    }
    // One run: the numbers go up.
    std::size_t to = from;
    std::size_t last = from;  // past the last that is listed
    std::size_t listed = 0;
    double number = 0.0;
    for (; to < lines_.size() && lines_[to].numbered; ++to) {
      const Text& text = *lines_[to].text;
      double value = 0.0;
      for (std::size_t i = 0; i < lines_[to].from && value == 0.0; ++i) {
        value = text[i].is_number() ? text[i].value : 0.0;
      }
      if (to > from && value <= number) {
        break;
      }
      number = value;
      listed += lines_[to].listed ? 1U : 0U;
      last = lines_[to].listed ? to + 1 : last;
    }
    // What follows the last amount is listed too while it names a thing and does nothing.
    for (; last < to; ++last) {
      const LineState& next = lines_[last];
      const LineLook look = look_at(*next.text, next.from, next.to);
      if (!look.name_first || next.steplike || verb_count(*next.text, next.from, next.to) > 0) {
        break;
      }
    }
    const bool list = listed >= k_fewest && 2 * listed > last - from;
    for (std::size_t i = from; list && i < last; ++i) {
      lines_[i].numbered = false;
      lines_[i].steplike = lines_[i].steplike && !lines_[i].listed;
    }
    from = std::max(to, from + 1);
  }
}

}  // namespace maslin::reading
