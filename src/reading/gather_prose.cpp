// Running text: sentences that give amounts and say what to do at once.
#include <algorithm>

#include "reading/draft_line.h"
#include "reading/gatherer.h"
#include "reading/prose.h"

namespace maslin::reading {

bool Gatherer::prose_segment(Text& text, const Span& segment) {
  for (Span sentence : sentences(text, segment.from, segment.to)) {
    if (auto found = sentence.from > segment.from ? list_heading(text, sentence) : std::nullopt) {
      part(*found->part, found->name);
      sentence.from = found->end;
    }
    if (!prose_sentence(text, sentence)) {
      draft_.remarks.emplace_back(text.slice(sentence.from, sentence.to));
    }
  }
  return true;
}

namespace {

/// Five amounts and more, and nothing done to them: "For the dough you need 500 g flour, …".
bool is_list(const Text& text, const Span& span, const std::vector<Mention>& mentions) {
  constexpr std::size_t k_fewest = 5;
  const auto amounts = std::count_if(mentions.begin(), mentions.end(),
                                     [](const Mention& one) { return one.amount; });
  return static_cast<std::size_t>(amounts) >= k_fewest &&
         verb_count(text, span.from, span.to) <= 1 && !verb_first(text, span.from, span.to);
}

}  // namespace

bool Gatherer::is_told_share(const Text& text, const Span& span, const Mention& mention) const {
  const DraftLine& line = mention.line;
  return prose_list_ && mention.amount && line.measure && line.measure->number &&
         line.ingredient != nullptr && verb_count(text, span.from, span.to) > 0 && is_listed(line);
}

void Gatherer::add_bare_names(Text& text, const Span& span) {
  for (std::size_t from = span.from; from < span.to;) {
    std::size_t to = from;
    while (to < span.to && !text[to].is(',') && !text[to].is(';')) {
      ++to;
    }
    const std::size_t next = to + 1;
    while (to > from && is_class(text, to - 1, WordClass::join)) {
      --to;  // "…, fine salt and a little sugar"
    }
    const std::size_t first = skip_bullets(text, from, to);
    const PartOf whose = part_of(text, first, to);
    const Match name = match_name(text, whose.parts.empty() ? first : whose.end);
    // "vanilla or vanillin"
    const bool or_else = name && is_class(text, name.end, WordClass::or_);
    if (name && first < to && (name.end >= to || or_else)) {
      for (DraftLine& line : read_ingredient(text, first, to)) {
        add_line(std::move(line));
      }
    }
    from = next;
  }
}

bool Gatherer::prose_sentence(Text& text, const Span& span) {
  // "Time.—About 2½ hours." "Sufficient for 2 cakes."
  const std::size_t first = skip_bullets(text, span.from, span.to);
  if (const Match label = match(text, first, WordClass::label);
      label && !is_class(text, first, WordClass::lead) && !is_class(text, first, WordClass::verb)) {
    take_yield(text, span.from, span.to, label.phrase->means == "yield");
    return false;
  }
  const std::vector<Mention> mentions = read_mentions(text, span.from, span.to);
  std::size_t at = span.from;
  constexpr std::ptrdiff_t k_lists_anew = 3;
  const bool anew = std::count_if(mentions.begin(), mentions.end(),
                                  [](const Mention& one) { return one.amount; }) >= k_lists_anew;
  const bool list = is_list(text, span, mentions);
  for (const Mention& mention : mentions) {
    turn_part(text, at, mention.from);
    if (list && at > span.from) {
      add_bare_names(text, {at, mention.from});
    }
    at = mention.to;
    if (anew || !is_told_share(text, span, mention)) {
      add_line(mention.line);
    }
  }
  prose_list_ = prose_list_ || list;
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

bool Gatherer::speaks_of_dough(const Text& text, const Span& span) {
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

void Gatherer::turn_part(const Text& text, std::size_t from, std::size_t to) {
  for (std::size_t i = from; i < to; ++i) {
    const Match part_word = match(text, i, WordClass::part);
    const Match two = i >= 3 ? match(text, i - 3, WordClass::lead) : Match{};  // "to make the"
    // Not "to the sponge".
    const bool one =
        i >= 2 && is_class(text, i - 2, WordClass::lead) && !is_class(text, i - 2, WordClass::to);
    const bool lead = one || (two && two.end == i - 1);
    const bool led = lead && is_class(text, i - 1, WordClass::the);
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
    // "Leave overnight. Next day add …": from there on it is the dough.
    if (is_class(text, i, WordClass::roll_up) && !is_class(text, i, WordClass::verb) &&
        !draft_.parts.empty()) {
      part_ = 0;
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

}  // namespace maslin::reading
