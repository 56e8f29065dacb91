// The found lines cut into those that are gathered.
#include <algorithm>
#include "reading/columns.h"
#include "reading/gather.h"
#include "reading/gatherer.h"
#include "reading/join_lines.h"

namespace maslin::reading {

namespace {

/// "Main ingredients | 1 kg flour, 3 eggs": the list's word in a cell before it, as with a colon.
std::string with_headed_cell(const Text& text) {
  const Match section = match(text, 0, WordClass::section);
  if (!section || section.phrase->means != "ingredients") {
    return text.raw;
  }
  // Not "Ingredients | kg | %".
  const bool list = text.raw.find(',') != std::string::npos;
  constexpr std::size_t k_most_words = 3;
  for (std::size_t i = section.end; list && i < section.end + k_most_words && i + 1 < text.size();
       ++i) {
    if (text[i].is('|')) {
      return std::string(text.slice(0, i)) + ": " + std::string(text.slice(i + 1, text.size()));
    }
    if (text[i].kind != TokenKind::word || match_name(text, i)) {
      break;
    }
  }
  return text.raw;
}

}  // namespace

void Gatherer::cut_line(const FoundLine& found, std::vector<std::string_view>& units) {
  draft_.texts.push_back(tokenise(found.raw, lexicons_, lexicon_));
  if (const std::string row = with_headed_cell(draft_.texts.back()); row != found.raw) {
    draft_.texts.back() = tokenise(row, lexicons_, lexicon_);
  }
  const std::vector<std::string_view> head = column_units(draft_.texts.back());
  units = head.empty() ? units : head;
  if (!units.empty() && head.empty()) {
    const std::string row = row_with_units(draft_.texts.back(), units);
    if (row != found.raw) {
      draft_.texts.back() = tokenise(row, lexicons_, lexicon_);
    }
  }
  mend_after_numbers(draft_.texts.back());
  read_dittos(draft_.texts.back());
  LineState state;
  state.text = &draft_.texts.back();
  state.to = state.text->size();
  state.from = skip_numbering(*state.text, skip_bullets(*state.text, 0, state.to), state.numbered);
  state.blank_before = found.blank_before;
  state.quoted = found.quoted;
  shape(state);
  lines_.push_back(state);
}

namespace {

/// "French Rolls | One quart of milk …": takes the title off a first row that goes on with the
/// text.
std::optional<FoundLine> title_before_bar(FoundLine& found, const Lexicons& lexicons,
                                          const Lexicon& lexicon) {
  constexpr std::size_t k_longest_title = 60;
  const std::size_t bar = found.raw.find(" | ");
  if (bar > k_longest_title || found.raw.find_first_of("0123456789|") != bar + 1) {
    return std::nullopt;
  }
  const Text rest = tokenise(found.raw.substr(bar + 3), lexicons, lexicon);
  const LineLook look = look_at(rest, 0, rest.size());
  if (!(look.measure_first && look.name) && !verb_first(rest, 0, rest.size())) {
    return std::nullopt;
  }
  FoundLine title = found;
  title.raw.resize(bar);
  title.seam = 0;
  found.raw.erase(0, bar + 3);
  found.seam = found.seam > bar + 3 ? found.seam - bar - 3 : 0;
  found.blank_before = true;
  return title;
}

/// "butter the size of a walnut", "eggs: 2": what follows the first name is its amount.
bool has_own_amount(const Text& text) {
  const Match name = match_name(text, 0);
  std::size_t at = name ? name.end : 0;
  at += at > 0 && (text[at].is(':') || text[at].is(',') || text[at].is('-')) ? 1U : 0U;
  const auto amount = at > 0 ? any_measure(text, at) : std::nullopt;
  return at > 0 && (is_class(text, at, WordClass::size_of) || (amount && amount->number));
}

}  // namespace

bool Gatherer::is_list_before_method(const FoundLine& found) const {
  Text list = tokenise(std::string_view(found.raw).substr(0, found.seam), lexicons_, lexicon_);
  const Text method =
      tokenise(std::string_view(found.raw).substr(found.seam + 1), lexicons_, lexicon_);
  LineState state;
  state.text = &list;
  state.to = list.size();
  shape(state);
  // "water out the tap, bit warm, roughly a mug and a half, and a splash of vinegar" over "knead
  // it": too wordy for a list by itself.
  const LineLook told = look_at(list, 0, list.size());
  const bool talks =
      told.name_first && told.measure_inside && verb_count(list, 0, list.size()) == 0 &&
      ingredient_spans(list, 0, list.size()).size() >= 2 && verb_first(method, 0, method.size());
  if (!state.listed) {
    return talks;
  }
  // "for the middle" under the last row of a list
  if (Text head = method; method.size() <= 4) {
    const auto heading = read_heading(head, 0, head.size());
    if (heading && heading->part && heading->end >= head.size()) {
      return true;
    }
  }
  if (verb_first(method, 0, method.size())) {
    return true;
  }
  // A line that is whole, and one under it that is a line of the list by itself.
  const std::vector<Span> spans = ingredient_spans(list, state.from, state.to);
  const bool whole = !spans.empty() && look_at(list, spans.back().from, spans.back().to).name;
  const LineLook next = look_at(method, 0, method.size());
  // "…, salt 1 flat tsp" over "water from the kettle …": names before their amounts, the last of
  // which has its own.
  const std::size_t end = list.size();
  const bool open = is_class(list, end - 1, WordClass::or_) ||
                    is_class(list, end - 1, WordClass::join) ||
                    is_class(list, end - 1, WordClass::with);
  const LineLook last = spans.empty() ? LineLook{} : look_at(list, spans.back().from, end);
  if (whole && spans.size() >= 2 && !open && last.name_first && last.measure_inside &&
      next.name_first && !next.measure_first) {
    return true;
  }
  return whole &&
         ((next.measure_first && next.name) ||
          (next.name_first && next.words <= 10 && !next.or_inside && has_own_amount(method)));
}

namespace {

/// "100g 100g | flour water": two columns printed as one row, as many amounts before the bar as
/// names behind it; the rows, or nothing.
std::vector<FoundLine> parted_columns(const FoundLine& found, const Lexicons& lexicons,
                                      const Lexicon& lexicon) {
  const std::size_t bar = found.raw.find('|');
  if (bar == std::string::npos || found.raw.find('|', bar + 1) != std::string::npos) {
    return {};
  }
  const Text text = tokenise(found.raw, lexicons, lexicon);
  std::vector<std::string> amounts;
  std::size_t i = 0;
  while (!text[i].is('|')) {
    const auto measure = text[i].is_number() ? any_measure(text, i) : std::nullopt;
    if (!measure || measure->to <= i || (measure->unit.empty() && measure->to > i + 1)) {
      return {};
    }
    amounts.emplace_back(text.slice(i, measure->to));
    i = measure->to;
  }
  std::vector<FoundLine> out;
  for (++i; i < text.size();) {
    std::size_t name = i;
    while (name < text.size() &&
           (is_class(text, name, WordClass::note) || is_class(text, name, WordClass::packing)) &&
           !match_name(text, name)) {
      ++name;
    }
    const Match match = match_name(text, name);
    if (!match || out.size() == amounts.size()) {
      return {};
    }
    FoundLine row = found;
    row.seam = 0;
    row.blank_before = out.empty() && found.blank_before;
    row.raw = amounts[out.size()] + " " + std::string(text.slice(i, match.end));
    out.push_back(std::move(row));
    i = match.end;
  }
  return out.size() == amounts.size() && out.size() > 1 ? out : std::vector<FoundLine>();
}

}  // namespace

void Gatherer::cut() {
  std::vector<std::string_view> units;
  std::vector<FoundLine> lines = joined_rows(found_.lines, lexicons_, lexicon_);
  if (!lines.empty()) {
    if (const auto title = title_before_bar(lines.front(), lexicons_, lexicon_)) {
      cut_line(*title, units);
    }
  }
  for (const FoundLine& found : lines) {
    if (const auto rows = parted_columns(found, lexicons_, lexicon_); !rows.empty()) {
      for (const FoundLine& row : rows) {
        cut_line(row, units);
      }
      continue;
    }
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
  unlist_title();
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
  prose_ = listed < 2 && listed + list_bare_names() < 2;
}

std::size_t Gatherer::list_bare_names() {
  constexpr std::size_t k_fewest = 3;
  constexpr std::size_t k_most_words = 6;
  std::size_t all = 0;
  for (std::size_t head = 0; head + k_fewest < lines_.size(); ++head) {
    const LineState& lead = lines_[head];
    if (lead.steplike || lead.text->raw.empty() || lead.text->raw.back() != ':') {
      continue;
    }
    const std::string_view sign = bullet_of(lines_[head + 1].text->raw);
    std::size_t to = head + 1;
    for (; to < lines_.size(); ++to) {
      const LineState& one = lines_[to];
      const LineLook look = look_at(*one.text, one.from, one.to);
      if (!look.name_first || look.words > k_most_words || one.quoted || one.steplike ||
          bullet_of(one.text->raw) != sign) {
        break;
      }
    }
    const std::size_t names = to - head - 1;
    for (std::size_t i = head + 1; names >= k_fewest && i < to; ++i) {
      lines_[i].listed = true;
    }
    all += names >= k_fewest ? names : 0;
  }
  return all;
}

namespace {

/// How the words of a line are written: all in capitals, each with one, or as in a sentence.
enum class Casing : std::uint8_t { sentence, each, capitals };
Casing casing_of(const Text& text, std::size_t from, std::size_t to) {
  constexpr std::size_t k_short_word = 3;  // "and", "of", "the"
  std::size_t words = 0;
  std::size_t capital = 0;
  std::size_t upper = 0;
  for (std::size_t i = from; i < to && !text[i].is('('); ++i) {
    const Token& token = text[i];
    if (token.kind != TokenKind::word || token.end - token.begin <= k_short_word) {
      continue;
    }
    ++words;
    capital += token.capital ? 1U : 0U;
    upper += token.upper ? 1U : 0U;
  }
  if (words == 0 || capital < words) {
    return Casing::sentence;
  }
  return upper == words ? Casing::capitals : Casing::each;
}

/// The last word before a bracket is no food but what is baked of it: "2 lb malt loaf", or one
/// nobody knows: "500 g flour challah".
bool ends_in_piece(const Text& text, std::size_t from, std::size_t to) {
  std::size_t end = from;
  while (end < to && !text[end].is('(') && !text[end].is(',')) {
    ++end;
  }
  if (end < from + 2 || match_name(text, end - 1)) {
    return false;
  }
  const Token& last = text[end - 1];
  const bool unknown = last.kind == TokenKind::word && last.own == nullptr && last.name == nullptr;
  return unknown || is_class(text, end - 1, WordClass::piece) ||
         is_class(text, end - 1, WordClass::part);
}

std::size_t number_count(const Text& text, std::size_t from, std::size_t to) {
  std::size_t numbers = 0;
  for (std::size_t i = from; i < to; ++i) {
    const bool year = text[i].is_number() && text[i].value >= 1500.0 && text[i].value < 2100.0;
    numbers += (text[i].is_number() && !year) || is_class(text, i, WordClass::number) ? 1U : 0U;
  }
  return numbers;
}

/// A line that is a heading and nothing else.
bool is_heading_alone(const LineState& line) {
  Text text = *line.text;
  const auto heading = read_heading(text, line.from, line.to);
  return heading && heading->end >= line.to;
}

}  // namespace

bool Gatherer::is_title_above(const LineState& first) const {
  const Text& text = *first.text;
  const std::size_t numbers = number_count(text, first.from, first.to);
  if (numbers > 1 || (numbers == 1 && !ends_in_piece(text, first.from, first.to))) {
    return false;
  }
  const LineState& next = lines_[1];
  // "Sticky date swirls" over "Dough": a food's name, but of what is baked.
  if (numbers == 0 && ends_in_piece(text, first.from, first.to) && is_heading_alone(next)) {
    return true;
  }
  const Casing own = casing_of(text, first.from, first.to);
  return next.blank_before ||
         (own != Casing::sentence && own != casing_of(*next.text, next.from, next.to));
}

void Gatherer::unlist_title() {
  if (lines_.size() > 1 && lines_[0].listed && is_title_above(lines_[0])) {
    lines_[0].listed = false;
    lines_[0].titled = true;
  }
}

void Gatherer::unnumber_lists() {
  constexpr std::size_t k_fewest = 3;
  constexpr std::size_t k_short = 6;  // words of a row that only names
  // "2. Filling:" over rows of a list
  for (std::size_t i = 0; i + 1 < lines_.size(); ++i) {
    const bool over = lines_[i].numbered && lines_[i + 1].listed && !lines_[i + 1].numbered;
    lines_[i].numbered = lines_[i].numbered && !(over && is_heading_alone(lines_[i]));
  }
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
      const bool names =
          look.name_first || (look.name && look.words <= k_short);  // "Optional: nuts"
      if (!names || next.steplike || verb_count(*next.text, next.from, next.to) > 0) {
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
