#include "reading/gather.h"

#include <algorithm>

#include "reading/amounts.h"
#include "reading/gatherer.h"
#include "reading/join_lines.h"
#include "reading/setting.h"

namespace maslin::reading {

Draft Gatherer::run() {
  cut();
  for (std::size_t i = 0; i < lines_.size(); ++i) {
    at_ = i;
    line(lines_[i]);
  }
  put_early_steps();
  take_unlisted();
  take_left_over();
  take_untold_flour();
  take_untold_water();
  for (const Text& text : draft_.texts) {
    draft_.pieces = draft_.pieces ? draft_.pieces : total_count(text, 0, text.size());
  }
  std::string asides;
  for (const std::string& aside : found_.asides) {
    asides += (asides.empty() ? "" : " ") + aside;
  }
  if (!asides.empty()) {
    draft_.remarks.push_back(std::move(asides));
  }
  return std::move(draft_);
}

void Gatherer::remark(const LineState& state) {
  draft_.remarks.emplace_back(state.text->raw);
}

void Gatherer::line(LineState& state) {
  Text& text = *state.text;
  if (state.quoted || state.from >= state.to) {
    remark(state);
    return;
  }
  if (text[0].is('#') && text[1].kind == TokenKind::word && !text[1].spaced) {
    remark(state);  // "#breadtok"
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
  if (section_ == SectionKind::end && state.listed && draft_.parts.empty() && next_listed()) {
    section_ = SectionKind::none;  // "Nutrition info …" above the list
  }
  // A note before the list does not swallow it.
  const bool three =
      state.listed && at_ + 2 < lines_.size() && lines_[at_ + 1].listed && lines_[at_ + 2].listed;
  if (section_ == SectionKind::notes && state.listed &&
      (draft_.parts.empty() || (three && !has_flour()))) {
    section_ = SectionKind::none;
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

bool Gatherer::is_signature(const Text& text) {
  return text.raw == "--" || text.raw == "---";
}

void Gatherer::body(Text& text, std::size_t from, std::size_t to, const LineState& state) {
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

namespace {

/// "Unsalted. Salt 1.5 tsp separate": a sentence from `from` on is a line of the list.
bool lists_in(const Text& text, const std::vector<Span>& all, std::size_t from) {
  constexpr std::size_t k_most_words = 8;
  return std::any_of(
      all.begin() + static_cast<std::ptrdiff_t>(std::min(from, all.size())), all.end(),
      [&](const Span& one) {
        const LineLook look = look_at(text, one.from, one.to);
        const bool listed =
            look.name && (look.measure_first || (look.name_first && look.measure_inside));
        return listed && look.words <= k_most_words && !verb_first(text, one.from, one.to);
      });
}

}  // namespace

bool Gatherer::segment_body(Text& text, Span segment, const LineState& state, std::size_t to) {
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
  part_method(text, all);
  for (std::size_t n = 0; n < all.size(); ++n) {
    Span sentence = all[n];
    if (n > 0 && open_list(text, sentence, state)) {
      used = true;
    } else if (const std::size_t list = list_after_colon(text, sentence.from, sentence.to);
               list > sentence.from && section_ != SectionKind::method &&
               !verb_first(text, sentence.from, sentence.to)) {
      draft_.remarks.emplace_back(text.slice(sentence.from, list));  // "Here it is: 2 cups …"
      sentence.from = list;
    }
    if (list_sentence(text, sentence, state)) {
      used = true;
      continue;
    }
    // From the first sentence of method on, the rest of the line is method, unless
    // another list begins in it.
    const std::size_t next = next_list(text, all, n + 1);
    const Span rest{sentence.from, next < all.size() ? all[next].from : segment.to};
    const bool method = is_method(text, rest, state) &&
                        (is_method(text, sentence, state) || !lists_in(text, all, n + 1));
    if (method && next < all.size()) {
      add_step(text, rest);
      used = true;
      n = next - 1;
      continue;
    }
    if (method) {
      line_done_ = !list_follows(text, segment.to, to);
      add_step(text, {rest.from, line_done_ ? to : rest.to});
      return true;
    }
    if (tells_amounts(text, sentence) && prose_sentence(text, sentence)) {
      used = true;
    } else if (works_amounts(text, sentence)) {
      early_.push_back({&text, sentence.from, sentence.to});
      used = true;
    } else {
      left.push_back(sentence);
    }
  }
  // A line of which nothing was used is one remark; of another what is left over.
  for (const Span& sentence : used ? left : std::vector<Span>()) {
    draft_.remarks.emplace_back(text.slice(sentence.from, sentence.to));
  }
  return used;
}

void Gatherer::join_bare_amounts(const Text& text, std::vector<Span>& all) {
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

namespace {

/// "Au choix, 15 à 20 cl de rhum": where an amount with its name begins behind a word or two and a
/// comma; `from` when none does.
std::size_t past_lead_word(const Text& text, std::size_t from, std::size_t to) {
  constexpr std::size_t k_most = 3;
  const std::size_t first = skip_bullets(text, from, to);
  for (std::size_t i = first; i < std::min(to, first + k_most + 1); ++i) {
    if (text[i].is(',')) {
      const LineLook look = look_at(text, i + 1, to);
      const bool amount = text[i + 1].is_number() && look.measure_first && look.name_first;
      return amount && i > first ? i + 1 : from;
    }
    if (text[i].kind != TokenKind::word || match_name(text, i) || any_measure(text, i) ||
        is_class(text, i, WordClass::verb)) {
      break;
    }
  }
  return from;
}

}  // namespace

bool Gatherer::list_sentence(Text& text, const Span& whole, const LineState& state) {
  Span span = whole;
  if (at_ > 0 && lines_[at_ - 1].taken && !state.numbered) {
    span.from = past_lead_word(text, whole.from, whole.to);
  }
  const LineLook look = look_at(text, span.from, span.to);
  // "Oven 220C/200C Fan/Gas 7", "two pound tin, half an hour"
  const bool tells_bake =
      !look.name &&
      (has_heat(text, span) || is_bare_figure(text, span) ||
       (has_setting(text, span.from, span.to) && read_tin(text, span.from, span.to).has_value()));
  if (tells_bake || heads_columns(text, span) || divides_first(text, span.from, span.to)) {
    return false;
  }
  if (text[span.to - 1].is('?') && !look.measure_first && !look.measure_inside) {
    return false;  // "Ramazan pidesi nasıl yapılır?"
  }
  const bool verb = verb_first(text, span.from, span.to) ||
                    (!look.measure_first && verb_ends(text, span.from, span.to));
  const std::size_t verbs = verb_count(text, span.from, span.to);
  const bool in_list = section_ == SectionKind::ingredients || last_was_ingredient_;
  const bool measured = look.measure_first && (look.name || in_list || look.words <= 6);
  const bool after = look.name_first && look.measure_inside && verbs <= 1;
  const bool in_numbers = at_ > 0 && lines_[at_ - 1].numbered && lines_[at_ - 1].taken;
  // "Food colour: any colour of your choice, I chose yellow"
  const bool long_line = look.name_first && look.words <= 18 && at_ > 0 && !state.numbered &&
                         (lines_[at_ - 1].listed || lines_[at_ - 1].taken) &&
                         (in_list || next_listed());
  const bool named = look.name && (look.words <= 9 || long_line) && verbs == 0 &&
                     (!state.numbered || in_numbers) && (in_list || has_purpose(text, span)) &&
                     !after_method_ && !has_heat(text, span);
  // "Lard to melt for deep-frying"
  // "Salt to taste I usually boil the potatoes with salt. …" between two rows.
  const Match first_name = match_name(text, skip_bullets(text, span.from, span.to));
  const bool tasted = first_name && is_class(text, first_name.end, WordClass::purpose) && in_list &&
                      !after_method_ && !state.numbered && at_ > 0 && next_listed() &&
                      (lines_[at_ - 1].listed || lines_[at_ - 1].taken);
  const bool served = tasted || (look.name_first && look.words <= 8 && verbs <= 1 &&
                                 !state.numbered && !after_method_ && in_list && at_ > 0 &&
                                 (lines_[at_ - 1].listed || lines_[at_ - 1].taken) &&
                                 has_purpose(text, span) && !text[span.to - 1].is('.'));
  // "• Fruit jam works best, as full as you like them" under lines with the same sign.
  const std::string_view sign = bullet_of(text.raw);
  const bool in_name = look.name && verbs == 0 && look.words <= 12;
  const bool goes_on = in_list && (look.name_first ? look.words <= 20 : in_name) && at_ > 0 &&
                       lines_[at_ - 1].taken && !sign.empty() &&
                       sign == bullet_of(lines_[at_ - 1].text->raw);
  // "- Bread flour: gives the crumb its strength." over more of the kind, one with an amount
  const bool explained = first_name && text[first_name.end].is(':') && !sign.empty() &&
                         !look.measure_inside && verbs <= 1 && look.words <= 20 && next_listed() &&
                         sign == bullet_of(lines_[at_ + 1].text->raw);
  // "Fresh yeast is creamed with the sugar."
  const bool passive = first_name && !is_class(text, first_name.end, WordClass::purpose) &&
                       is_class(text, first_name.end, WordClass::stop) &&
                       is_class(text, first_name.end + 1, WordClass::verb) &&
                       text[span.to - 1].is('.') && look.words >= 4;
  if (passive && !look.measure_first) {
    return false;
  }
  const bool ends = in_list && look.words <= 8 && verbs == 0 && ends_with_amount(text, span);
  const bool loose = in_list && is_bare_loose(text, span);
  if ((verb && !loose && !tasted) || (verbs > 2 && !measured && !tasted) ||
      !(measured || goes_on || explained || after || named || served || ends || loose ||
        leads_list(text, span) || unknown(look, verbs) || among_listed(text, span, look, verbs))) {
    return false;
  }
  if (section_ == SectionKind::method && (state.numbered || verbs > 0)) {
    return false;
  }
  const bool any = add_lines(text, span);
  lines_[at_].taken = lines_[at_].taken || any;
  return any;
}

bool Gatherer::unknown(const LineLook& look, std::size_t verbs) const {
  return section_ == SectionKind::ingredients && look.words <= 6 && look.words >= 1 && verbs == 0 &&
         last_was_ingredient_;
}

bool Gatherer::among_listed(const Text& text, const Span& span, const LineLook& look,
                            std::size_t verbs) const {
  if (section_ == SectionKind::method || look.words < 1 || look.words > 8 || verbs > 1) {
    return false;
  }
  const bool before = at_ > 0 && (lines_[at_ - 1].listed || lines_[at_ - 1].taken);
  const bool twice = at_ + 2 < lines_.size() && lines_[at_ + 2].listed;
  const std::size_t first = skip_bullets(text, span.from, span.to);
  const bool counted = text[first].is_number() && look.words >= 1 && first + 1 < span.to;
  // Bare names in a row that nobody knows, with the sign of the list: "• Mastica", "• Mehelpi".
  const std::string_view sign = bullet_of(text.raw);
  for (std::size_t i = at_ + 1;
       before && !sign.empty() && look.words <= 3 && verbs == 0 &&
       i < std::min(lines_.size(), at_ + 4) && bullet_of(lines_[i].text->raw) == sign;
       ++i) {
    if (lines_[i].listed) {
      return text.raw.back() != ':';
    }
  }
  return next_listed() && (before || (twice && counted)) && text.raw.back() != ':';
}

bool Gatherer::is_method(const Text& text, const Span& span, const LineState& state) const {
  if (state.numbered || section_ == SectionKind::method) {
    return true;
  }
  if (draft_.parts.empty()) {
    return false;
  }
  return verb_first(text, span.from, span.to) || verb_count(text, span.from, span.to) > 0 ||
         has_setting(text, span.from, span.to) || has_heat(text, span) ||
         divides_first(text, span.from, span.to);
}

/// "Moderate oven, 2 dozen.": how many it makes, said among the steps.
std::optional<Range> dozens_at(const Text& text, std::size_t i) {
  const auto number = any_number(text, i);
  if (!number || number->end < i + 2) {
    return std::nullopt;
  }
  // The point of "doz." is the number's.
  const std::size_t last = number->end - (text[number->end - 1].is('.') ? 2U : 1U);
  const bool dozens = number->range.low >= 12.0 && is_class(text, last, WordClass::multiple);
  const Token& next = text[last + 1];
  const bool alone = dozens && (next.kind == TokenKind::mark || next.kind == TokenKind::end);
  return alone ? std::optional(number->range) : std::nullopt;
}

void Gatherer::add_step(const Text& text, const Span& span) {
  for (std::size_t i = span.from; i < span.to && !draft_.pieces; ++i) {
    if (const auto dozens = dozens_at(text, i)) {
      draft_.pieces = dozens;
      break;
    }
    const Match label = match(text, i, WordClass::label);
    if (label && label.phrase->means == "yield" &&
        !is_class(text, i, WordClass::lead)) {  // "… Yield: 2 loaves."
      take_yield(text, i, std::min(span.to, i + 6), true);
    }
  }
  step_part().steps.push_back({&text, span.from, span.to});
  last_was_ingredient_ = false;
  after_method_ = true;
}

DraftPart& Gatherer::step_part() {
  DraftPart& here = current();
  bool more_lists = false;
  for (std::size_t i = at_ + 1; i < lines_.size(); ++i) {
    more_lists = more_lists || lines_[i].listed;
  }
  interleaved_ = interleaved_ || (more_lists && !here.lines.empty());
  // "Day 2" without a list of its own goes on with the dough.
  const bool goes_on = here.kind == PartKind::dough && here.lines.empty();
  if (!goes_on && (interleaved_ || here.lines.empty())) {
    return here;
  }
  for (DraftPart& one : draft_.parts) {
    if (one.kind == PartKind::dough && !one.lines.empty()) {
      return one;
    }
  }
  return here;
}

Draft gather(const FoundText& found, const Lexicons& lexicons, const Lexicon& lexicon) {
  return Gatherer(found, lexicons, lexicon).run();
}

}  // namespace maslin::reading
