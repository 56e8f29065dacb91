#include "reading/gather.h"

#include <algorithm>

#include "reading/columns.h"
#include "reading/fragments.h"
#include "reading/heading.h"
#include "reading/prose.h"
#include "reading/setting.h"
#include "reading/spelling.h"
#include "reading/step_text.h"

namespace maslin::reading {
namespace {

// A recipe document holds so many; what goes over is kept as remarks.
constexpr std::size_t k_most_parts = 64;
constexpr std::size_t k_most_part_lines = 400;

struct LineState {
  Text* text = nullptr;
  std::size_t from = 0;
  std::size_t to = 0;
  bool blank_before = false;
  bool quoted = false;
  bool numbered = false;
  bool listed = false;    // reads as an ingredient by its shape alone
  bool steplike = false;  // begins with a verb, or has verbs with times
};

/// Past "1.", "2)", "Step 3:", "①": the number of a step. A bare number counts only
/// before a capital verb ("3 Knead for ten minutes").
std::size_t skip_numbering(const Text& text, std::size_t i, bool& numbered) {
  numbered = false;
  if (text[i].circled) {
    numbered = true;
    return i + 1;
  }
  std::size_t at = i;
  const bool step_word = is_class(text, at, WordClass::step);
  at += step_word ? 1U : 0U;
  const bool bracket = text[at].is('(');
  at += bracket ? 1U : 0U;
  const bool digit = text[at].kind == TokenKind::number || text[at].word == "l";
  if (!digit) {
    return i;
  }
  const Token& mark = text[at + 1];
  const bool marked =
      (mark.is('.') || mark.is(')') || (step_word && mark.is(':'))) && (!mark.spaced || step_word);
  if (marked && text[at + 2].kind != TokenKind::end && text[at + 2].spaced) {
    numbered = true;
    return at + 2;
  }
  const bool verb_next = text[at + 1].capital && is_class(text, at + 1, WordClass::verb) &&
                         !is_class(text, at + 1, WordClass::unit);
  if ((step_word || verb_next) && text[at].value < 40.0) {
    numbered = true;
    return at + 1 + (mark.is('.') || mark.is(':') ? 1U : 0U);
  }
  return i;
}

/// Small words that may stand before the verb of a step.
std::size_t skip_adverbs(const Text& text, std::size_t i, std::size_t to) {
  while (i < to && (is_class(text, i, WordClass::adverb) || is_class(text, i, WordClass::join) ||
                    text[i].is(',') || text[i].is('('))) {
    ++i;
  }
  return i;
}

bool verb_first(const Text& text, std::size_t from, std::size_t to) {
  const std::size_t i = skip_adverbs(text, from, to);
  const Match verb = match(text, i, WordClass::verb);
  if (!verb) {
    return false;
  }
  const Match name = match_name(text, i);
  if (!name) {
    return true;
  }
  // "Cream the yeast" against "Cream, 200 ml" and "Butter for the tin".
  const std::size_t next = verb.end;
  return name.end == next &&
         (is_class(text, next, WordClass::article) || is_class(text, next, WordClass::the) ||
          static_cast<bool>(match_name(text, next)) || is_class(text, next, WordClass::adverb));
}

bool has_setting(const Text& text, std::size_t from, std::size_t to) {
  for (std::size_t i = from; i < to; ++i) {
    if (any_time(text, i) || any_heat(text, i)) {
      return true;
    }
  }
  return false;
}

std::size_t verb_count(const Text& text, std::size_t from, std::size_t to) {
  std::size_t verbs = 0;
  for (std::size_t i = from; i < to; ++i) {
    if (const Match purpose = match(text, i, WordClass::purpose)) {
      i = purpose.end - 1;  // "for brushing"
      continue;
    }
    const Match verb = match(text, i, WordClass::verb);
    const bool noun =
        verb && (match_name(text, i) || is_class(text, i, WordClass::note) ||
                 is_class(text, i, WordClass::packing) || is_class(text, i, WordClass::unit) ||
                 is_class(text, i, WordClass::piece));
    verbs += verb && !noun ? 1U : 0U;
  }
  return verbs;
}

/// Gathers one text. The state is the section and part that the lines so far opened.
class Gatherer {
 public:
  Gatherer(const FoundText& found, const Lexicons& lexicons, const Lexicon& lexicon)
      : found_(found), lexicons_(lexicons), lexicon_(lexicon) {}

  Draft run() {
    cut();
    for (std::size_t i = 0; i < lines_.size(); ++i) {
      at_ = i;
      line(lines_[i]);
    }
    draft_.remarks.insert(draft_.remarks.end(), found_.asides.begin(), found_.asides.end());
    return std::move(draft_);
  }

 private:
  void cut() {
    std::vector<std::string_view> units;
    for (const FoundLine& found : found_.lines) {
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
      state.from =
          skip_numbering(*state.text, skip_bullets(*state.text, 0, state.to), state.numbered);
      state.blank_before = found.blank_before;
      state.quoted = found.quoted;
      shape(state);
      lines_.push_back(state);
    }
    std::size_t listed = 0;
    for (const LineState& state : lines_) {
      if (!state.listed || state.quoted) {
        continue;
      }
      const std::size_t end = first_sentence(*state.text, state.from, state.to);
      const std::size_t amounts = ingredient_spans(*state.text, state.from, end).size();
      // Sentences have many more words to an amount than lists.
      const bool sentence =
          look_at(*state.text, state.from, end).words > 9 * amounts && amounts > 1;
      listed += sentence ? 0U : std::max<std::size_t>(amounts, 1);
    }
    prose_ = listed < 2;
  }

  /// A misspelt word after a number is a misspelt unit: "10 minuts", "2 tabelspoons".
  static void mend_after_numbers(Text& text) {
    for (std::size_t i = 0; i < text.size(); ++i) {
      const bool slot = i == 0 || text[i - 1].is_number();
      const Token& token = text[i];
      if (slot && token.kind == TokenKind::word && token.own == nullptr && token.name == nullptr) {
        mend_words(text, i, i + 1, Mending::units);
      }
    }
  }

  void shape(LineState& state) const {
    const Text& text = *state.text;
    std::size_t from = state.from;
    std::size_t end = first_sentence(text, from, state.to);
    for (std::size_t i = from; i < std::min(end, from + 7); ++i) {
      const LineLook after = text[i].is(':') ? look_at(text, i + 1, end) : LineLook{};
      if (after.measure_first && after.name && !after.measure_only) {
        from = i + 1;  // "For the dough: 500 g flour"
      }
    }
    const std::vector<Span> parts = segments(text, from, end);
    end = parts.empty() ? end : parts.front().to;
    const LineLook look = look_at(text, from, end);
    const std::size_t verbs = verb_count(text, from, end);
    const bool verb = verb_first(text, from, end);
    state.steplike = verb || (verbs > 0 && has_setting(text, state.from, state.to)) || verbs > 2;
    const bool first = look.measure_first && look.name;
    const bool after = look.name_first && look.measure_inside && look.words <= 14;
    state.listed = !verb && ((first && (verbs <= 1 || look.words <= 16)) || (after && verbs == 0));
    if (state.listed && !state.numbered) {
      state.steplike = false;
    }
  }

  static std::size_t first_sentence(const Text& text, std::size_t from, std::size_t to) {
    const std::vector<Span> all = sentences(text, from, to);
    return all.empty() ? to : all.front().to;
  }

  DraftPart& part(PartKind kind, std::string name) {
    if (name.empty()) {
      name = part_kind_name(kind);
    }
    for (std::size_t i = 0; i < draft_.parts.size(); ++i) {
      if (draft_.parts[i].kind == kind && draft_.parts[i].name == name) {
        part_ = i;
        return draft_.parts[i];
      }
    }
    // "For the filling" over method lines means the filling already listed.
    for (DraftPart& one : draft_.parts) {
      if (one.name == name) {
        name += " (" + std::string(part_kind_name(kind)) + ")";
      }
    }
    if (draft_.parts.size() >= k_most_parts) {
      return draft_.parts[part_];
    }
    draft_.parts.push_back({kind, std::move(name), {}, {}});
    part_ = draft_.parts.size() - 1;
    return draft_.parts.back();
  }

  DraftPart& current() {
    return draft_.parts.empty() ? part(PartKind::dough, "dough") : draft_.parts[part_];
  }

  void remark(const LineState& state) { draft_.remarks.emplace_back(state.text->raw); }

  void line(LineState& state) {
    Text& text = *state.text;
    if (state.quoted || state.from >= state.to) {
      remark(state);
      return;
    }
    if (is_signature(text)) {
      section_ = SectionKind::end;
      remark(state);
      return;
    }
    if (!state.numbered && heading(state)) {
      return;
    }
    if (section_ == SectionKind::end || section_ == SectionKind::notes) {
      remark(state);
      return;
    }
    if (title(state)) {
      return;
    }
    body(text, state.from, state.to, state);
  }

  static bool is_signature(const Text& text) { return text.raw == "--" || text.raw == "---"; }

  /// Handles a line that is or begins with a heading; true when nothing is left of it.
  bool heading(LineState& state) {
    Text& text = *state.text;
    auto found = read_heading(text, state.from, state.to);
    if (!found && unknown_heading(state)) {
      found = part_from_words(text, state.from, state.to);
    }
    if (!found) {
      return false;
    }
    if (!found->label.empty()) {
      return label(state, *found);
    }
    // "Préparation : 30 min" is how long it takes, not a heading.
    if (found->section != SectionKind::none && found->end < state.to &&
        any_time(text, found->end)) {
      remark(state);
      return true;
    }
    if (found->part && !found->colon && state.steplike && !next_listed()) {
      return false;
    }
    const bool title_line = at_ == 0 && draft_.title.empty() && !found->colon;
    if (title_line && found->part && (!next_listed() || lines_[1].blank_before)) {
      return false;
    }
    const bool rest = found->end < state.to;
    if (rest && found->part) {
      // "Starter: 100 g" is an ingredient, "Starter: 50 g flour, …" a heading.
      const LineLook look = look_at(text, found->end, state.to);
      if (look.measure_only) {
        return false;
      }
    }
    open(*found, state);
    const YieldWords yield = read_yield(text, state.from, found->end, false);
    if (yield.pieces && !draft_.pieces) {
      draft_.pieces = yield.pieces;
    }
    if (rest) {
      body(text, found->end, state.to, state);
    }
    return true;
  }

  void open(const Heading& found, const LineState& state) {
    if (found.part) {
      section_ = SectionKind::none;
      if (draft_.title.empty() && draft_.parts.empty() && at_ == 0) {
        draft_.title = state.text->raw;
      }
      part(*found.part, found.name);
      return;
    }
    section_ = found.section;
    // "Ingredients" after everything opens a second list of the same recipe.
    if (found.section == SectionKind::method && interleaved_ == false) {
      method_seen_ = true;
    }
  }

  bool next_listed() const { return at_ + 1 < lines_.size() && lines_[at_ + 1].listed; }

  /// A short line without amount or verb, set off before a list.
  bool unknown_heading(const LineState& state) const {
    const Text& text = *state.text;
    const LineLook look = look_at(text, state.from, state.to);
    const bool short_line = look.words >= 1 && look.words <= 5;
    const bool followed = next_listed() && !lines_[at_ + 1].blank_before;
    const bool first = draft_.title.empty() && at_ == 0;
    return short_line && followed && !look.measure_first && !look.measure_inside && !first &&
           !state.listed && (state.blank_before || text.raw.back() == ':');
  }

  bool label(const LineState& state, const Heading& found) {
    const Text& text = *state.text;
    const std::string_view label = found.label;
    if (label == "oven" && !found.colon) {
      return false;
    }
    if (label == "title" && found.colon) {
      draft_.title = std::string(trimmed(text.slice(found.end, state.to)));
      return true;
    }
    if (label == "measures" && found.colon) {
      draft_.locale = std::string(trimmed(text.slice(found.end, state.to)));
      return true;
    }
    if (label == "tin" && found.colon) {
      if (auto tin = read_tin(text, found.end, state.to)) {
        draft_.tin = tin;
        return true;
      }
      remark(state);
      return true;
    }
    if (label != "yield" && label != "serves" && label != "time" && label != "total") {
      return false;
    }
    const bool has_number = number_inside(text, found.end, state.to);
    if (!has_number && !found.colon) {
      return false;
    }
    if (state.steplike && !found.colon && label == "time") {
      return false;
    }
    take_yield(text, state.from, state.to, label == "yield");
    remark(state);
    return true;
  }

  static bool number_inside(const Text& text, std::size_t from, std::size_t to) {
    for (std::size_t i = from; i < to; ++i) {
      if (any_number(text, i)) {
        return true;
      }
    }
    return false;
  }

  void take_yield(const Text& text, std::size_t from, std::size_t to, bool labelled) {
    const YieldWords yield = read_yield(text, from, to, labelled);
    draft_.pieces = draft_.pieces ? draft_.pieces : yield.pieces;
    draft_.piece_grams = draft_.piece_grams ? draft_.piece_grams : yield.piece_grams;
    draft_.total_grams = draft_.total_grams ? draft_.total_grams : yield.total_grams;
  }

  /// The first line that is neither list nor method, short enough to be one.
  bool title(const LineState& state) {
    if (!draft_.title.empty() || state.listed || !draft_.parts.empty()) {
      return false;
    }
    const Text& text = *state.text;
    const LineLook look = look_at(text, state.from, state.to);
    if (look.words > 16 || (prose_ && look.words > 12 && lines_.size() < 3) || look.words == 0) {
      return false;
    }
    if ((state.steplike && at_ > 0) || text.raw.back() == ',') {
      return false;
    }
    draft_.title = text.raw;
    take_yield(text, state.from, state.to, false);
    return true;
  }

  void body(Text& text, std::size_t from, std::size_t to, const LineState& state) {
    bool used = false;
    for (const Span& segment : segments(text, from, to)) {
      used = segment_body(text, segment, state, to) || used;
      if (line_done_) {
        break;
      }
    }
    line_done_ = false;
    if (!used) {
      remark(state);
    }
  }

  bool segment_body(Text& text, Span segment, const LineState& state, std::size_t to) {
    if (segment.from != state.from) {
      auto found = read_heading(text, segment.from, segment.to);
      if (found && found->label.empty() && (found->colon || found->section != SectionKind::none)) {
        open(*found, state);
        segment.from = found->end;
        if (segment.from >= segment.to) {
          return true;
        }
      }
    }
    if (prose_) {
      return prose_segment(text, segment);
    }
    bool used = false;
    std::vector<Span> left;
    std::vector<Span> all = sentences(text, segment.from, segment.to);
    join_bare_amounts(text, all);
    for (const Span& sentence : all) {
      if (list_sentence(text, sentence, state)) {
        used = true;
        continue;
      }
      // From the first sentence of method on, the rest of the line is method, unless
      // another list begins in it.
      const Span rest{sentence.from, segment.to};
      if (is_method(text, rest, state)) {
        line_done_ = !list_follows(text, segment.to, to);
        add_step(text, {rest.from, line_done_ ? to : rest.to});
        return true;
      }
      left.push_back(sentence);
    }
    // A line of which nothing was used is one remark; of another what is left over.
    for (const Span& sentence : used ? left : std::vector<Span>()) {
      draft_.remarks.emplace_back(text.slice(sentence.from, sentence.to));
    }
    return used;
  }

  static bool list_follows(const Text& text, std::size_t from, std::size_t to) {
    for (const Span& segment : segments(text, from, to)) {
      const LineLook look = look_at(text, segment.from, segment.to);
      if (look.measure_first && look.name && !verb_first(text, segment.from, segment.to)) {
        return true;
      }
    }
    return false;
  }

  /// "olive oil… a lot. 4-5 tbsp": an amount alone belongs to the name before it.
  static void join_bare_amounts(const Text& text, std::vector<Span>& all) {
    for (std::size_t n = 1; n < all.size();) {
      const LineLook look = look_at(text, all[n].from, all[n].to);
      const LineLook before = look_at(text, all[n - 1].from, all[n - 1].to);
      const bool joins =
          look.measure_only && before.name_first && !before.measure_first && before.words <= 8;
      if (joins) {
        all[n - 1].to = all[n].to;
        all.erase(all.begin() + static_cast<std::ptrdiff_t>(n));
      } else {
        ++n;
      }
    }
  }

  bool list_sentence(Text& text, const Span& span, const LineState& state) {
    const LineLook look = look_at(text, span.from, span.to);
    const bool verb = verb_first(text, span.from, span.to);
    const std::size_t verbs = verb_count(text, span.from, span.to);
    const bool in_list = section_ == SectionKind::ingredients || last_was_ingredient_;
    const bool measured = look.measure_first && (look.name || in_list || look.words <= 6);
    const bool after = look.name_first && look.measure_inside && verbs <= 1;
    const bool named = look.name && look.words <= 9 && verbs == 0 && !state.numbered &&
                       (in_list || has_purpose(text, span)) && !after_method_;
    if (verb || (verbs > 2 && !measured) || !(measured || after || named || unknown(look, verbs))) {
      return false;
    }
    if (section_ == SectionKind::method && (state.numbered || verbs > 0)) {
      return false;
    }
    return add_lines(text, span);
  }

  /// In an ingredients section a short line is an ingredient though nobody knows it.
  bool unknown(const LineLook& look, std::size_t verbs) const {
    return section_ == SectionKind::ingredients && look.words <= 6 && look.words >= 1 &&
           verbs == 0 && last_was_ingredient_;
  }

  static bool has_purpose(const Text& text, const Span& span) {
    for (std::size_t i = span.from; i < span.to; ++i) {
      if (is_class(text, i, WordClass::purpose)) {
        return true;
      }
    }
    return false;
  }

  bool is_method(const Text& text, const Span& span, const LineState& state) const {
    if (state.numbered || section_ == SectionKind::method) {
      return true;
    }
    if (draft_.parts.empty()) {
      return false;
    }
    return verb_first(text, span.from, span.to) || verb_count(text, span.from, span.to) > 0 ||
           has_setting(text, span.from, span.to);
  }

  bool add_lines(Text& text, const Span& span) {
    std::vector<DraftLine> lines;
    std::size_t together = 0;  // where the things joined by "and" begin
    for (const Span& one : ingredient_spans(text, span.from, span.to)) {
      together = one.joined ? together : lines.size();
      for (DraftLine& line : read_ingredient(text, one.from, one.to)) {
        for (std::size_t i = together; i < lines.size() && !line.purpose.empty(); ++i) {
          lines[i].purpose = lines[i].purpose.empty() ? line.purpose : lines[i].purpose;
        }
        lines.push_back(std::move(line));
      }
    }
    const bool any = !lines.empty();
    for (DraftLine& line : lines) {
      add_line(std::move(line));
    }
    last_was_ingredient_ = last_was_ingredient_ || any;
    after_method_ = false;
    return any;
  }

  /// A line with a purpose of its own goes to the part that serves it.
  void add_line(DraftLine line) {
    DraftPart& here = current();
    const std::size_t back = part_;
    const bool outer = here.kind == PartKind::wash || here.kind == PartKind::topping ||
                       here.kind == PartKind::glaze;
    if (!outer && line.purpose == "wash") {
      part(PartKind::wash, "wash").lines.push_back(std::move(line));
      part_ = back;
    } else if (!outer && line.purpose == "top") {
      part(PartKind::topping, "topping").lines.push_back(std::move(line));
      part_ = back;
    } else if (here.lines.size() < k_most_part_lines) {
      here.lines.push_back(std::move(line));
    } else {
      draft_.remarks.push_back(line.line.text);
    }
  }

  void add_step(const Text& text, const Span& span) {
    for (std::size_t i = span.from; i < span.to && !draft_.pieces; ++i) {
      const Match label = match(text, i, WordClass::label);
      if (label && label.phrase->means == "yield") {  // "… Yield: 2 loaves."
        take_yield(text, i, std::min(span.to, i + 6), true);
      }
    }
    step_part().steps.push_back({&text, span.from, span.to});
    last_was_ingredient_ = false;
    after_method_ = true;
  }

  /// Method lines after the last list are the dough's; between lists they are the part's.
  DraftPart& step_part() {
    DraftPart& here = current();
    bool more_lists = false;
    for (std::size_t i = at_ + 1; i < lines_.size(); ++i) {
      more_lists = more_lists || lines_[i].listed;
    }
    interleaved_ = interleaved_ || (more_lists && !here.lines.empty());
    if (interleaved_ || here.lines.empty()) {
      return here;
    }
    for (DraftPart& one : draft_.parts) {
      if (one.kind == PartKind::dough) {
        return one;
      }
    }
    return here;
  }

  bool prose_segment(Text& text, const Span& segment) {
    for (const Span& sentence : sentences(text, segment.from, segment.to)) {
      if (!prose_sentence(text, sentence)) {
        draft_.remarks.emplace_back(text.slice(sentence.from, sentence.to));
      }
    }
    return true;
  }

  bool prose_sentence(Text& text, const Span& span) {
    const std::vector<Mention> mentions = read_mentions(text, span.from, span.to);
    std::size_t at = span.from;
    for (const Mention& mention : mentions) {
      turn_part(text, at, mention.from);
      at = mention.to;
      add_line(mention.line);
    }
    turn_part(text, at, span.to);
    const bool method = speaks_of_dough(text, span);
    if (method) {
      const std::size_t back = part_;
      part_ = 0;
      add_step(text, span);
      part_ = back;
    }
    return method || !mentions.empty();
  }

  /// A sentence with a setting, an ingredient or a verb no one uses of guests.
  static bool speaks_of_dough(const Text& text, const Span& span) {
    if (has_setting(text, span.from, span.to)) {
      return true;
    }
    bool weak = false;
    for (std::size_t i = span.from; i < span.to; ++i) {
      const Match verb = match(text, i, WordClass::verb);
      if (match_name(text, i) || (verb && verb.phrase->value == 0.0)) {
        return verb_count(text, span.from, span.to) > 0;
      }
      weak = weak || verb;
    }
    return weak && verb_first(text, span.from, span.to);
  }

  /// Running text has no headings: "for the swirl" opens a part, what goes on a dough
  /// rolled out is its filling, and rolling it up or baking it ends that.
  void turn_part(const Text& text, std::size_t from, std::size_t to) {
    for (std::size_t i = from; i < to; ++i) {
      const Match part_word = match(text, i, WordClass::part);
      const bool led =
          i >= 2 && is_class(text, i - 2, WordClass::lead) && is_class(text, i - 1, WordClass::the);
      // "For the spiral buns" is about the buns.
      const bool whole = part_word && !is_class(text, part_word.end, WordClass::part) &&
                         !is_class(text, part_word.end, WordClass::piece);
      if (whole && led) {
        const auto kind = part_kind_from(part_word.phrase->means);
        if (kind && *kind != PartKind::dough) {
          current();
          part(*kind, std::string(part_kind_name(*kind)));
        }
      }
      const Match verb = match(text, i, WordClass::verb);
      if (!verb || draft_.parts.empty()) {
        continue;
      }
      if (is_class(text, i, WordClass::roll_out)) {
        part(PartKind::filling, "filling");
      } else if (is_class(text, i, WordClass::roll_up)) {
        part_ = 0;
      }
    }
  }

  const FoundText& found_;
  const Lexicons& lexicons_;
  const Lexicon& lexicon_;
  Draft draft_;
  std::vector<LineState> lines_;
  std::size_t at_ = 0;
  std::size_t part_ = 0;
  SectionKind section_ = SectionKind::none;
  bool prose_ = false;
  bool last_was_ingredient_ = false;
  bool after_method_ = false;
  bool interleaved_ = false;
  bool method_seen_ = false;
  bool line_done_ = false;
};

}  // namespace

Draft gather(const FoundText& found, const Lexicons& lexicons, const Lexicon& lexicon) {
  return Gatherer(found, lexicons, lexicon).run();
}

}  // namespace maslin::reading
