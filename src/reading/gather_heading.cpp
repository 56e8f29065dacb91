// Headings and labels of a gathered text.
#include <algorithm>

#include "reading/gatherer.h"
#include "reading/join_lines.h"
#include "reading/setting.h"

namespace maslin::reading {
namespace {

// A recipe document holds so many.
constexpr std::size_t k_most_parts = 64;

/// "Yeast: 1 packet of instant yeast": what stands before the colon is the thing itself.
bool names_itself(const Text& text, std::size_t from, std::size_t colon, std::size_t to) {
  const Match before = match_name(text, from);
  if (!before || before.end + 1 < colon) {
    return false;
  }
  for (std::size_t i = colon; i < to; ++i) {
    if (text[i].is(',')) {
      return false;
    }
    if (const Match name = match_name(text, i)) {
      return before.phrase->ingredient->kind == IngredientKind::yeast &&
             name.phrase->ingredient->kind == IngredientKind::yeast;
    }
  }
  return false;
}

/// "Now we make the filling; I used the following:": a part word led up to, a colon at the end.
bool leads_to_part(const Text& text, std::size_t from, std::size_t to) {
  bool led = false;
  for (std::size_t i = from + 1; i < to; ++i) {
    led = led || (is_class(text, i, WordClass::part) && is_class(text, i - 1, WordClass::the));
  }
  return led && to - from <= 16 && text[to - 1].is(':');
}

/// "La biga" over its list.
bool is_the_part(const Text& text, std::size_t from, std::size_t to) {
  const Match named =
      is_class(text, from, WordClass::the) ? match(text, from + 1, WordClass::part) : Match{};
  return named && named.end == to;
}

bool joins_words(const Text& text, std::size_t from, std::size_t to) {
  for (std::size_t i = from; i < to; ++i) {
    if (is_class(text, i, WordClass::join)) {
      return true;
    }
  }
  return false;
}

}  // namespace

DraftPart& Gatherer::part(PartKind kind, std::string name) {
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

DraftPart& Gatherer::current() {
  return draft_.parts.empty() ? part(PartKind::dough, "dough") : draft_.parts[part_];
}

bool Gatherer::heading(LineState& state) {
  Text& text = *state.text;
  if (tells_times(state)) {
    remark(state);
    return true;
  }
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
  if (found->section != SectionKind::none && found->end < state.to && any_time(text, found->end)) {
    remark(state);
    return true;
  }
  if (found->part && !found->colon && state.steplike && !next_listed()) {
    return false;
  }
  // "Scald all together and set aside to cool:" says what to do with the list under it.
  if (found->part && found->colon && found->end >= state.to &&
      !is_class(text, state.from, WordClass::lead) && !is_class(text, state.from, WordClass::the) &&
      look_at(text, state.from, state.to).words >= 5 && joins_words(text, state.from, state.to) &&
      verb_count(text, state.from, state.to) >= 1) {
    remark(state);
    return true;
  }
  // "Sesame seeds", "Oats and seeds (optional)" in a list
  if (const Match name = match_name(text, state.from);
      name && found->part && !found->colon && last_was_ingredient_ && !next_listed() &&
      !is_class(text, state.from, WordClass::part) &&
      ((name.end == state.to &&
        // A page that sets every row apart tells nothing by it.
        (!state.blank_before || (at_ > 0 && lines_[at_ - 1].blank_before))) ||
       is_class(text, name.end, WordClass::join))) {
    return false;
  }
  // "chocolate icing" among the lines of a list is bought ready.
  const Token& first = text[state.from];
  const bool small = first.kind == TokenKind::word && !first.capital &&
                     !is_class(text, state.from, WordClass::lead) &&
                     !is_class(text, state.from, WordClass::purpose);
  const bool in_list = last_was_ingredient_ && !state.blank_before && small && found->part &&
                       !found->colon && !next_listed() && !after_method_;
  if (in_list && at_ + 1 < lines_.size() && lines_[at_ - 1].listed) {
    add_whole_line(text, state.from, state.to);
    lines_[at_].taken = true;
    return true;
  }
  if (found->part && !found->colon && names_listed_part(*found, state)) {
    add_whole_line(text, state.from, state.to);
    return true;
  }
  const bool rest = found->end < state.to;
  const bool title_line = at_ == 0 && draft_.title.empty() && !(found->colon && !rest);
  const bool listed_rest = rest && found->colon && look_at(text, found->end, state.to).name;
  if (title_line && found->part && !listed_rest && (!next_listed() || lines_[1].blank_before)) {
    return false;  // "Country loaf   batch: 4 loaves @ 420 g"
  }
  if (rest && found->part) {
    // "Starter: 100 g" is an ingredient, "Starter: 50 g flour, …" a heading.
    const LineLook look = look_at(text, found->end, state.to);
    // "Levain: 20 g starter, 40 g flour, …" is built from itself.
    const bool built = ingredient_spans(text, found->end, state.to).size() >= 2;
    if (look.measure_only || (!built && names_itself(text, state.from, found->end, state.to))) {
      return false;
    }
  }
  // "My recipe: 2 cups flour, …": what follows the word for the method is the list.
  if (found->section == SectionKind::method && rest && found->colon) {
    const LineLook look = look_at(text, found->end, state.to);
    found->section =
        look.measure_first && look.name ? SectionKind::ingredients : SectionKind::method;
  }
  // "Para la elaboración vamos a necesitar;" over a list is no method.
  if (found->section == SectionKind::method && !rest && draft_.parts.empty() && next_listed() &&
      at_ + 2 < lines_.size() && lines_[at_ + 2].listed && !lines_[at_ + 1].numbered) {
    found->section = SectionKind::ingredients;
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

void Gatherer::add_whole_line(Text& text, std::size_t from, std::size_t to) {
  // "Pearl sugar (optional)": known after all.
  if (const Match name = match_name(text, from); name && name.end > from + 1) {
    for (DraftLine& line : read_ingredient(text, from, to)) {
      add_line(std::move(line));
    }
    return;
  }
  DraftLine line;
  line.line.text = std::string(text.slice(from, to));
  line.line.name = line.line.text;
  add_line(std::move(line));
}

bool Gatherer::names_listed_part(const Heading& found, const LineState& state) const {
  if (draft_.parts.empty()) {
    return false;
  }
  // "• the whole sponge" at the head of the dough's own list, or right under its heading
  const bool opened = draft_.parts[part_].lines.empty() && !state.blank_before && at_ > 0;
  const bool listed = next_listed() && (opened || !bullet_of(state.text->raw).empty());
  if (listed && draft_.parts[part_].steps.empty()) {
    for (const DraftPart& one : draft_.parts) {
      if (&one != &draft_.parts[part_] && one.kind == *found.part && !one.lines.empty()) {
        return true;
      }
    }
  }
  if (state.blank_before || !last_was_ingredient_) {
    return false;
  }
  return std::any_of(draft_.parts.begin(), draft_.parts.end(), [&](const DraftPart& one) {
    return one.kind == *found.part && one.name == found.name && !one.lines.empty() &&
           &one != &draft_.parts[part_];
  });
}

void Gatherer::open(const Heading& found, const LineState& state) {
  const bool only_section =
      found.section != SectionKind::none &&
      (!found.part || (*found.part == PartKind::dough && draft_.parts.empty()));
  if (found.part && !only_section) {
    section_ = found.section;
    if (draft_.title.empty() && draft_.parts.empty() && at_ == 0) {
      // "Plain bun: 100 g flour; …": the list is in the same line.
      const bool list = found.colon && found.end < state.to;
      draft_.title = list ? std::string(trimmed(state.text->slice(state.from, found.end - 1)))
                          : std::string(state.text->raw);
    }
    DraftPart& here = part(*found.part, found.name);
    here.guessed = here.lines.empty() && found.guessed;
    keep_rest(found, *state.text);
    return;
  }
  // "Recette de brioche maison" over all is the title.
  const bool long_line = look_at(*state.text, state.from, state.to).words > 2;
  if (at_ == 0 && draft_.title.empty() && found.section == SectionKind::method && long_line) {
    draft_.title = state.text->raw;
    return;
  }
  section_ = found.section;
}

/// "Biga (16 h at 16 °C)", "Soak (do this the day before)": what a heading says beside its
/// name is a step of the part when it sets a time, else a remark.
void Gatherer::keep_rest(const Heading& found, const Text& text) {
  std::size_t from = found.name_end;
  std::size_t to = found.end - (found.colon ? 1U : 0U);
  while (from < to && text[from].kind == TokenKind::mark) {
    ++from;
  }
  while (to > from && text[to - 1].kind == TokenKind::mark) {
    --to;
  }
  if (from >= to || part_kind_from(text.slice(from, to))) {
    return;
  }
  if (has_setting(text, from, to)) {
    draft_.parts[part_].steps.push_back({&text, from, to});
  } else {
    draft_.remarks.emplace_back(text.slice(from, to));
  }
}

bool Gatherer::next_listed() const {
  return at_ + 1 < lines_.size() && lines_[at_ + 1].listed;
}

bool Gatherer::unknown_heading(const LineState& state) const {
  const Text& text = *state.text;
  const LineLook look = look_at(text, state.from, state.to);
  const bool short_line =
      look.words >= 1 && (look.words <= 5 || leads_to_part(text, state.from, state.to));
  // "For potato mixture", though blank lines set it apart
  const bool led = is_class(text, state.from, WordClass::lead) && text[state.from].capital &&
                   (state.blank_before || is_class(text, state.from + 1, WordClass::the)) &&
                   look.words <= 5;
  const bool followed = next_listed() && (led || !lines_[at_ + 1].blank_before);
  const bool first = draft_.title.empty() && at_ == 0;
  return short_line && followed && !look.measure_first && !look.measure_inside && !first &&
         !state.listed && !text[state.from].is_number() &&
         !has_setting(text, state.from, state.to) &&  // "knead 12. rise 1 hr"
         (state.blank_before || led || text.raw.back() == ':' ||
          is_the_part(text, state.from, state.to));
}

bool Gatherer::label(const LineState& state, const Heading& found) {
  Text& text = *state.text;
  const std::string_view label = found.label;
  if (label == "oven" && !found.colon) {
    return false;
  }
  const LineLook rest = look_at(text, found.end, state.to);
  // "For 12 buns: 500 g flour, …", "Per 12 maritozzi: farina, g. 200 - sale, un pizzico"
  const bool turned = label == "yield" && rest.name_first && rest.measure_inside &&
                      ingredient_spans(text, found.end, state.to).size() >= 3;
  const bool list =
      found.colon && ((rest.measure_first && rest.name && !rest.measure_only) || turned);
  if (label == "title" && found.colon && !list) {
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
  if (!list && label != "yield" && label != "serves" && label != "time" && label != "total") {
    return false;
  }
  // "For 12 buns: 500 g flour, 10 g salt, …": the list is on the same line.
  if (list) {
    take_yield(text, state.from, found.end, label == "yield");
    // "For 1 kg flour: 620 g water, …"
    const Span lead{state.from + 1, found.end - 1};
    const LineLook led = look_at(text, lead.from, lead.to);
    if (!(led.measure_first && led.name && add_lines(text, lead))) {
      draft_.remarks.emplace_back(text.slice(state.from, found.end));
    }
    section_ = SectionKind::ingredients;
    body(text, found.end, state.to, state);
    return true;
  }
  // "Make a cross and bake for 30 minutes" makes no number of pieces.
  if (!found.colon && label == "yield" && state.steplike &&
      has_setting(text, found.end, state.to) && verb_count(text, found.end, state.to) > 0 &&
      !text[found.end].is_number()) {
    return false;
  }
  const bool has_number = number_inside(text, found.end, state.to);
  if (!has_number && !found.colon) {
    return false;
  }
  // "Cook: …", "By hand: mix, add, knead": a method that begins like a label.
  const bool method = found.colon ? verb_count(text, found.end, state.to) >= 2 : state.steplike;
  if (method && label == "time") {
    return false;
  }
  // "Makes 16. Half an hour's rest": what is done after it is no part of the yield.
  const std::vector<Span> all = sentences(text, state.from, state.to);
  if (!found.colon && label == "yield" && all.size() > 1 &&
      has_setting(text, all[1].from, state.to) && all[1].from > found.end) {
    take_yield(text, state.from, all.front().to, true);
    draft_.remarks.emplace_back(text.slice(state.from, all.front().to));
    body(text, all[1].from, state.to, state);
    return true;
  }
  take_yield(text, state.from, state.to, label == "yield");
  remark(state);
  return true;
}

bool Gatherer::number_inside(const Text& text, std::size_t from, std::size_t to) {
  for (std::size_t i = from; i < to; ++i) {
    if (any_number(text, i)) {
      return true;
    }
  }
  return false;
}

}  // namespace maslin::reading
