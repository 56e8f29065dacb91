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
  steps_.push_back(step);
}

void StepReader::resolve(Open& open) {
  Step& step = open.step;
  if (open.strength == k_waiting || open.strength == k_cover) {
    const bool longer = !step.minutes || step.minutes->high > k_longest_rest;
    step.kind = context_.yeasted && longer ? StepKind::prove : StepKind::rest;
  }
  if (open.preheat && !step.minutes) {
    context_.oven = step.celsius;
    context_.oven_fan = step.fan;
    step.kind = StepKind::mix;
    step.celsius.reset();
    step.fan = false;
    return;
  }
  if (step.kind == StepKind::bake) {
    if (!step.celsius && context_.oven) {
      step.celsius = context_.oven;
      step.fan = context_.oven_fan;
    } else if (step.celsius) {
      context_.oven = step.celsius;
      context_.oven_fan = step.fan;
    }
  }
  context_.shaped =
      context_.shaped || step.kind == StepKind::shape || step.kind == StepKind::divide;
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
    verb_seen_ = false;
    clause_ = i + 1;
    new_sentence_ = true;
    return i + 1;
  }
  const bool separates = text_[i].is(',') || text_[i].is(':') || text_[i].is('&') ||
                         text_[i].is('+') || text_[i].is('-') ||
                         is_class(text_, i, WordClass::join) ||
                         is_class(text_, i, WordClass::adverb);
  if (separates && (verb_seen_ || open_.step.minutes)) {
    verb_seen_ = false;
    clause_ = text_[i].kind == TokenKind::mark ? i + 1 : i;
    after_break_ = true;
  }
  if (const std::size_t end = read_until(i); end > i) {
    return end;
  }
  if (const std::size_t end = read_heat(i); end > i) {
    return end;
  }
  if (const auto size = any_size(text_, i)) {
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
    if (divides && !open_.step.piece_grams && grams_in(measure->unit) > 0.0 && measure->number) {
      open_.step.piece_grams = measure->middle() * grams_in(measure->unit);
    }
    return measure->to;
  }
  return read_word(i);
}

std::size_t StepReader::read_word(std::size_t i) {
  note_place(i);
  if (const Match tin = match(text_, i, WordClass::tin); tin && tin.end > i + 1) {
    return tin.end;  // "baking sheet"
  }
  const Match core = match(text_, i, WordClass::core);
  if (core) {
    core_ = true;
    return core.end;
  }
  const Match verb = match(text_, i, WordClass::verb);
  if (!verb) {
    return i + 1;
  }
  take_verb(verb, i);
  // "In the fridge" is what to do and where at once.
  for (std::size_t within = i + 1; within < verb.end; ++within) {
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
  const bool in = i > from_ && is_class(text_, i - 1, WordClass::into) &&
                  !is_class(text_, i - 1, WordClass::to);  // "in quarters"
  if (i > from_ && (in || text_[i - 1].is_number() || is_class(text_, i - 1, WordClass::with))) {
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
  if (!reads_as_verb(verb, i)) {
    return;
  }
  verb_seen_ = true;
  const auto kind = step_kind_from(verb.phrase->means);
  if (!kind) {
    return;
  }
  const double strength = verb.phrase->value;
  const bool waiting = strength == k_waiting || strength == k_cover;
  if (!open_.has_kind && !open_.settled) {
    set_kind(*kind, strength, i);
  } else if (*kind == open_.step.kind && open_.has_kind) {
    const bool again = open_.step.minutes && (new_sentence_ || after_break_);
    if (again) {
      turn(i);
    }
    set_kind(*kind, again ? strength : std::min(open_.strength, strength), i);
  } else if (!open_.settled && open_.strength >= k_weak && strength < k_weak && !new_sentence_ &&
             !after_break_) {
    set_kind(*kind, strength, i);  // "cover to prove": the stronger word says
  } else if ((waiting || strength == k_weak) && !new_sentence_ && !after_break_) {
    return;  // "bake in a preheated oven": part of the same
  } else if (open_.strength == k_cover && !open_.settled) {
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

std::size_t StepReader::read_until(std::size_t i) {
  const Match until = match(text_, i, WordClass::until);
  if (!until || text_[until.end].is_number()) {
    return i;
  }
  std::size_t end = until.end;
  while (end < to_ && !text_[end].is(',') && !text_[end].is('(') && !sentence_end(end) &&
         !any_time(text_, end) && !any_heat(text_, end)) {
    ++end;
  }
  for (std::size_t at = i; at < end; ++at) {
    core_ = core_ || is_class(text_, at, WordClass::core);
  }
  // "To an internal temperature of": the degrees that follow are the until.
  if (open_.step.until.empty() && !core_) {
    open_.step.until = std::string(text_.slice(until.end, end));
  }
  return end;
}

void StepReader::close_at_clause() {
  const std::size_t at = std::max(clause_, open_.from);
  close(at);
  open(at);
}

void StepReader::take_time(const Time& time, std::size_t i) {
  const std::size_t verb = text_.lexicon->manners.verb_last ? verb_after(time.end) : to_;
  if (verb < to_) {
    take_verb(match(text_, verb, WordClass::verb), verb);
  }
  attach_time(time, i);
}

std::size_t StepReader::verb_after(std::size_t i) const {
  // "6 Minuten langsam, 3 Minuten schnell kneten": the comma before a number does not end it.
  for (; i < to_ && !sentence_end(i) && (!text_[i].is(',') || text_[i + 1].is_number()); ++i) {
    if (is_class(text_, i, WordClass::join)) {
      return to_;
    }
    if (is_class(text_, i, WordClass::verb)) {
      return i;
    }
  }
  return to_;
}

void StepReader::attach_time(const Time& time, std::size_t i) {
  Step& step = open_.step;
  const bool long_wait = time.minutes.low >= 15.0;
  const bool hands = step.kind == StepKind::shape || step.kind == StepKind::divide ||
                     step.kind == StepKind::fill || step.kind == StepKind::finish;
  if (new_sentence_ && open_.has_kind && !is_class(text_, time.end, WordClass::verb)) {
    // A sentence that only names a time: after shaping it is a prove.
    const bool bake_goes_on = step.kind == StepKind::bake && step.minutes;
    if (step.minutes || (hands && long_wait)) {
      close_at_clause();
      set_kind(bake_goes_on ? StepKind::bake : StepKind::prove, bake_goes_on ? 0.0 : k_waiting, i);
      open_.inferred = true;
    }
  } else if (open_.has_kind && hands && long_wait) {
    close_at_clause();
    set_kind(StepKind::prove, k_waiting, i);
  } else if (step.minutes) {
    if (step.kind != StepKind::bake && step.kind != StepKind::prove && step.kind != StepKind::mix &&
        step.kind != StepKind::knead) {
      return;
    }
    if (step.kind == StepKind::bake && !step.celsius) {
      return;
    }
    const StepKind kind = step.kind;
    const double strength = open_.strength;
    close_at_clause();
    set_kind(kind, strength, i);
    open_.inferred = true;
  }
  if (!open_.has_kind) {
    set_kind(StepKind::prove, k_waiting, i);
    open_.inferred = true;
  }
  open_.step.minutes = time.minutes;
  open_.settled = true;
  if (time.minutes.low == 600.0 && is_class(text_, i, WordClass::span)) {
    open_.step.minutes = Range{480.0, 720.0};  // a night, common practice
  }
  new_sentence_ = false;
}

std::size_t StepReader::read_pieces(std::size_t i) {
  const auto number = any_number(text_, i);
  if (!number || number->article) {
    return i;
  }
  std::size_t at = number->end;
  const Match times = match(text_, at, WordClass::times);
  std::optional<FoundMeasure> each;
  if (times) {
    each = any_measure(text_, times.end);
  }
  while (is_class(text_, at, WordClass::size) || is_class(text_, at, WordClass::packing) ||
         is_class(text_, at, WordClass::note)) {
    ++at;
  }
  const Match piece = match(text_, at, WordClass::piece);
  const bool verb_says = divides(i);
  if (each && each->number && each->unit.empty() && each->number->low >= 20.0) {
    each->unit = "g";  // "divide 15 x 50"
  }
  const bool each_mass = each && each->number && grams_in(each->unit) > 0;
  // Bare minutes: "knead 10".
  const bool bare_knead = open_.has_kind && open_.step.kind == StepKind::knead &&
                          !open_.step.minutes && !piece && !times && i > from_ &&
                          number->range.high <= 30.0 && !is_class(text_, at, WordClass::unit);
  if (bare_knead) {
    take_time({number->range, number->end}, i);
    return number->end;
  }
  if (!(piece && number->range.low >= 2.0) && !verb_says && !each_mass) {
    return i;
  }
  if (number->range.low < 1.0 || (!piece && is_class(text_, at, WordClass::unit))) {
    return i;
  }
  take_pieces(*number, each_mass ? each : std::nullopt, i);
  return piece ? piece.end : number->end;
}

bool StepReader::divides(std::size_t i) const {
  if (!open_.has_kind || i == from_) {
    return false;
  }
  const bool into = is_class(text_, i - 1, WordClass::into);
  const StepKind kind = open_.step.kind;
  return into && (kind == StepKind::divide || kind == StepKind::shape) && !new_sentence_;
}

void StepReader::take_pieces(const Number& number, const std::optional<FoundMeasure>& each,
                             std::size_t i) {
  const StepKind kind = open_.step.kind;
  const bool fits = open_.has_kind && !open_.step.pieces && !new_sentence_ &&
                    (kind == StepKind::divide || kind == StepKind::shape);
  if (!fits) {
    if (open_.has_kind && (kind != StepKind::mix || new_sentence_ || after_break_)) {
      return;
    }
    set_kind(StepKind::divide, 0.0, i);
  }
  open_.step.pieces = number.range;
  open_.settled = true;
  if (each) {
    open_.step.piece_grams = each->middle() * grams_in(each->unit);
  } else if (const auto grams = mass_after(number.end)) {
    open_.step.piece_grams = grams;
  }
}

std::optional<double> StepReader::mass_after(std::size_t i) const {
  for (std::size_t at = i; at < std::min(i + 6, to_); ++at) {
    if (sentence_end(at)) {
      return std::nullopt;
    }
    const auto measure = any_measure(text_, at);
    if (measure && measure->number && grams_in(measure->unit) > 0) {
      return measure->middle() * grams_in(measure->unit);
    }
  }
  return std::nullopt;
}

}  // namespace maslin::reading
