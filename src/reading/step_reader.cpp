#include "reading/step_reader.h"

#include <algorithm>
#include <string>

namespace maslin::reading {

std::vector<Step> StepReader::run() {
  clause_ = from_;
  open(from_);
  for (std::size_t i = from_; i < to_;) {
    i = token(i);
  }
  close(to_);
  return std::move(steps_);
}

void StepReader::open(std::size_t at) {
  open_ = Open{};
  open_.from = at;
}

void StepReader::close(std::size_t at) {
  if (at <= open_.from) {
    return;
  }
  Step& step = open_.step;
  std::string text(text_.slice(open_.from, at));
  while (!text.empty() && (text.back() == ' ' || text.back() == ',')) {
    text.pop_back();
  }
  // A piece without a verb or setting belongs to the step before it.
  if (!open_.has_kind && !open_.settled && !steps_.empty()) {
    steps_.back().text += " " + text;
    return;
  }
  step.text = text;
  resolve(open_);
  // "Bake 50 minutes. Begin in a hot oven (400 F)": the heat of the same bake.
  const bool same_bake = step.kind == StepKind::bake && step.celsius && !step.minutes &&
                         !steps_.empty() && steps_.back().kind == StepKind::bake &&
                         steps_.back().minutes && !steps_.back().celsius;
  if (same_bake) {
    steps_.back().celsius = step.celsius;
    steps_.back().fan = step.fan;
    steps_.back().text += " " + text;
    return;
  }
  // "Divide and shape into 20 buns"
  if (step.kind == StepKind::shape && step.pieces && !steps_.empty() &&
      steps_.back().kind == StepKind::divide && !steps_.back().pieces) {
    steps_.back().pieces = step.pieces;
    steps_.back().piece_grams = step.piece_grams;
  }
  steps_.push_back(step);
}

bool StepReader::sentence_end(std::size_t i) const {
  const Token& token = text_[i];
  if (token.is(';') || token.is('!') || token.is('?') || token.is('*') || token.is('>')) {
    return true;
  }
  if (!token.is('.')) {
    return false;
  }
  const Token& next = text_[i + 1];
  return next.kind == TokenKind::end || next.capital || next.fresh || next.circled ||
         is_class(text_, i + 1, WordClass::adverb) || (next.is_number() && next.spaced) ||
         next.kind == TokenKind::mark || is_class(text_, i + 1, WordClass::verb);
}

std::size_t StepReader::token(std::size_t i) {
  if (text_[i].fresh && i > from_) {
    clause_ = i;
    after_break_ = true;
  }
  if (sentence_end(i)) {
    led_by_colon_ = false;
    verb_seen_ = false;
    time_seen_ = false;
    clause_ = i + 1;
    new_sentence_ = true;
    return i + 1;
  }
  const bool separates = text_[i].is(',') || text_[i].is(':') || text_[i].is('&') ||
                         text_[i].is('+') || text_[i].is('-') ||
                         is_class(text_, i, WordClass::join) ||
                         is_class(text_, i, WordClass::adverb);
  const std::size_t after = is_class(text_, i + 1, WordClass::adverb) ? i + 2 : i + 1;
  const bool verb_next = is_class(text_, after, WordClass::verb) && !match_name(text_, after);
  led_by_colon_ = led_by_colon_ || text_[i].is(':');
  if (separates && (verb_seen_ || verb_next || time_seen_)) {
    verb_seen_ = false;
    time_seen_ = false;
    clause_ = text_[i].kind == TokenKind::mark ? i + 1 : i;
    after_break_ = true;
  }
  if (const std::size_t end = read_until(i); end > i) {
    return end;
  }
  if (const std::size_t end = read_heat(i); end > i) {
    return end;
  }
  // "Rise 45 in the pan" tells minutes, not inches.
  const bool rises_in = i > from_ && open_.has_kind && open_.step.kind == StepKind::prove &&
                        is_class(text_, i - 1, WordClass::verb) &&
                        is_class(text_, i + 1, WordClass::into);
  if (const auto size = rises_in ? std::nullopt : any_size(text_, i)) {
    return size->end;
  }
  if (const auto time = any_time(text_, i)) {
    take_time(*time, i);
    return time->end;
  }
  if (const std::size_t end = read_pieces(i); end > i) {
    return end;
  }
  if (const auto measure = any_measure(text_, i);
      measure && !measure->unit.empty() && unit_kind(measure->unit) != UnitKind::loose) {
    // "Divide at 900 g", "shape into 80 g balls"
    const bool divides = open_.has_kind && (open_.step.kind == StepKind::divide ||
                                            open_.step.kind == StepKind::shape);
    // "A 2 lb loaf tin" holds so much, whatever is put into it.
    const bool tin = is_class(text_, measure->to, WordClass::tin) ||
                     is_class(text_, measure->to + 1, WordClass::tin);
    if (divides && !tin && !open_.step.piece_grams && grams_in(measure->unit) > 0.0 &&
        measure->number) {
      open_.step.piece_grams = measure->middle() * grams_in(measure->unit);
    }
    // "Shape into a loaf. Prove": the point is the sentence's, not the unit's.
    const bool ends = measure->to > i + 1 && sentence_end(measure->to - 1);
    return ends ? measure->to - 1 : measure->to;
  }
  return read_word(i);
}

std::size_t StepReader::read_word(std::size_t i) {
  const bool verb_too = is_class(text_, i, WordClass::verb);
  if (!verb_too) {
    note_place(i);
    if (const Match place = match(text_, i, WordClass::place); place && place.end > i + 1) {
      return place.end;  // "by the oven" is in none
    }
  }
  open_.oven = open_.oven || is_class(text_, i, WordClass::oven);
  // "Preheat a fan-forced oven to 200"
  fan_oven_ =
      fan_oven_ || (is_class(text_, i, WordClass::fan) &&
                    (is_class(text_, i + 1, WordClass::oven) ||
                     is_class(text_, match(text_, i, WordClass::fan).end, WordClass::oven)));
  if (const Match tin = match(text_, i, WordClass::tin); tin && tin.end > i + 1) {
    return tin.end;  // "baking sheet"
  }
  const Match core = match(text_, i, WordClass::core);
  if (core) {
    (core.phrase->means == "other" ? other_heat_ : core_) = true;
    return core.end;
  }
  const Match verb = match(text_, i, WordClass::verb);
  if (!verb) {
    // "Divide it in half"
    const Match share = match(text_, i, WordClass::share);
    if (share && open_.has_kind && open_.step.kind == StepKind::divide && i > from_ &&
        is_class(text_, i - 1, WordClass::into)) {
      context_.lots = Range{1.0 / share.phrase->value, 1.0 / share.phrase->value};
    }
    return i + 1;
  }
  take_verb(verb, i);
  // "In the fridge", "freeze" are what to do and where at once.
  for (std::size_t within = i; within < verb.end; ++within) {
    note_place(within);
  }
  return verb.end;
}

void StepReader::note_place(std::size_t i) {
  if (const Match place = match(text_, i, WordClass::place); place && open_.step.place.empty()) {
    open_.step.place = place.phrase->means;
  }
}

bool StepReader::reads_as_verb(const Match& verb, std::size_t i) const {
  // "With steam", "3 folds".
  const std::size_t behind = verb.end;
  const bool does = text_[i].fresh || is_class(text_, behind, WordClass::the) ||
                    is_class(text_, behind, WordClass::object);  // "pour that in, knead it"
  const bool in = i > from_ && is_class(text_, i - 1, WordClass::into) && !does &&
                  !is_class(text_, i - 1, WordClass::to);  // "in quarters"
  if (i > from_ && (in || text_[i - 1].is_number() || is_class(text_, i - 1, WordClass::number) ||
                    is_class(text_, i - 1, WordClass::with))) {
    return false;
  }
  // "The rise", "strong stuff".
  const bool let = i > from_ + 1 && is_class(text_, i - 2, WordClass::adverb);  // "let that rise"
  const bool said =
      i > from_ && i != clause_ && !let &&
      (is_class(text_, i - 1, WordClass::the) || is_class(text_, i - 1, WordClass::article) ||
       (is_class(text_, i - 1, WordClass::note) && !is_class(text_, i - 1, WordClass::adverb)));
  if (said) {
    return false;
  }
  // "Cinnamon rolls", "the round": a thing, unless the clause begins with it.
  const bool after_noun =
      i > from_ && i != clause_ && text_[i - 1].kind == TokenKind::word && !text_[i].fresh &&
      !is_class(text_, i - 1, WordClass::join) && !is_class(text_, i - 1, WordClass::adverb) &&
      !is_class(text_, i - 1, WordClass::to) && !is_class(text_, i - 1, WordClass::stop);
  if (after_noun && is_class(text_, i, WordClass::piece)) {
    return false;
  }
  const bool name = static_cast<bool>(match_name(text_, i));
  if (verb.phrase->value != k_noun_too && !name) {
    return true;
  }
  const std::size_t next = verb.end;
  const bool object = is_class(text_, next, WordClass::article) ||
                      is_class(text_, next, WordClass::the) ||
                      is_class(text_, next, WordClass::object);
  return i == from_ || (new_sentence_ && i == clause_) || object;
}

void StepReader::take_verb(const Match& verb, std::size_t i) {
  if (verb.phrase->value == k_awaited || !reads_as_verb(verb, i)) {
    return;
  }
  verb_seen_ = true;
  const auto kind = step_kind_from(verb.phrase->means);
  if (!kind) {
    return;
  }
  // "Halve the dough": so many lots
  const bool lots =
      *kind == StepKind::divide && verb.phrase->value < 1.0 && verb.phrase->value > 0.0;
  if (lots) {
    context_.lots = Range{1.0 / verb.phrase->value, 1.0 / verb.phrase->value};
  }
  const double strength = lots ? 0.0 : verb.phrase->value;
  const bool waiting = strength == k_waiting || strength == k_cover;
  const bool parted = new_sentence_ || after_break_;
  // "Freeze. Thaw overnight, then prove"; "cover and freeze" is one.
  const bool frost_apart = parted && (strength == k_frost || open_.strength == k_frost) &&
                           strength != k_cover && open_.strength != k_cover;
  if (led_by_colon_ && open_.has_kind && open_.strength == 0.0 && !open_.settled &&
      strength >= k_weak) {
    return;
  }
  if (!open_.has_kind && !open_.settled) {
    set_kind(*kind, strength, i);
  } else if (*kind == open_.step.kind && open_.has_kind) {
    const bool again = (open_.step.minutes && parted) || frost_apart;
    if (again) {
      turn(i);
    }
    set_kind(*kind, again || strength == k_frost ? strength : std::min(open_.strength, strength),
             i);
  } else if (!open_.settled && open_.strength >= k_weak && strength < k_weak && !new_sentence_ &&
             !after_break_) {
    set_kind(*kind, strength, i);  // "cover to prove": the stronger word says
  } else if ((waiting || strength == k_weak) && !new_sentence_ && !after_break_) {
    return;  // "bake in a preheated oven": part of the same
  } else if (open_.strength == k_cover && !open_.settled &&
             !(open_.until_rises && (new_sentence_ || after_break_))) {
    set_kind(*kind, strength, i);
  } else {
    turn(i);
    set_kind(*kind, strength, i);
  }
  new_sentence_ = false;
  after_break_ = false;
}

void StepReader::set_kind(StepKind kind, double strength, std::size_t i) {
  open_.step.kind = kind;
  open_.has_kind = true;
  open_.strength = strength;
  // "Preheat", "heat the oven": the weak words for a bake.
  open_.preheat = kind == StepKind::bake && strength == k_weak;
  (void)i;
}

void StepReader::turn(std::size_t i) {
  const std::size_t at = clause_ > open_.from ? clause_ : i;
  close(at);
  open(at);
}

bool StepReader::begins_count(std::size_t i) const {
  const Match verb = match(text_, i, WordClass::verb);
  return verb && text_[verb.end].is_number();
}

/// "Prove until doubled and bake": what waits ends where the heat begins.
bool StepReader::to_the_oven(std::size_t i) const {
  const Match verb =
      is_class(text_, i, WordClass::join) ? match(text_, i + 1, WordClass::verb) : Match{};
  const auto kind =
      verb && verb.phrase->value == 0.0 ? step_kind_from(verb.phrase->means) : std::nullopt;
  return open_.step.kind == StepKind::prove &&
         (kind == StepKind::bake || kind == StepKind::steam || kind == StepKind::fry);
}

std::size_t StepReader::read_until(std::size_t i) {
  const Match until = match(text_, i, WordClass::until);
  if (!until || text_[until.end].is_number()) {
    return i;
  }
  if (text_.lexicon->manners.until_before) {
    std::size_t from = i;
    while (from > clause_ && from > open_.from && text_[from - 1].kind == TokenKind::word &&
           !is_class(text_, from - 1, WordClass::time)) {
      --from;
    }
    open_.step.until =
        open_.step.until.empty() ? std::string(text_.slice(from, until.end)) : open_.step.until;
    return until.end;
  }
  std::size_t end = until.end;
  while (end < to_ && !text_[end].is(',') && !text_[end].is('(') && !sentence_end(end) &&
         !any_time(text_, end) && !any_heat(text_, end) && !to_the_oven(end) &&
         !(end > until.end && begins_count(end))) {
    ++end;
  }
  for (std::size_t at = i; at < end; ++at) {
    core_ = core_ || is_class(text_, at, WordClass::core);
    const Match verb = match(text_, at, WordClass::verb);
    const bool says_rise = verb && (verb.phrase->value == 0.0 || verb.phrase->value == k_awaited);
    open_.until_rises = open_.until_rises || (says_rise && verb.phrase->means == "prove");
  }
  // "To an internal temperature of": the degrees that follow are the until.
  if (open_.step.until.empty() && !core_) {
    open_.step.until = std::string(text_.slice(until.end, end));
  }
  return end;
}

void StepReader::close_before(std::size_t i) {
  // "220 C for 10 then 190 C for 20": what has its settings ends here, though no clause began.
  const bool within = clause_ <= open_.from && open_.settled;
  const std::size_t at = within ? i : std::max(clause_, open_.from);
  close(at);
  open(at);
}

}  // namespace maslin::reading
