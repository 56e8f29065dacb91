// Times and numbers of pieces in the steps.
#include <algorithm>

#include "reading/step_reader.h"

namespace maslin::reading {

void StepReader::take_time(const Time& time, std::size_t i) {
  if (skip_time_) {
    skip_time_ = false;
    return;
  }
  const std::size_t verb = text_.lexicon->manners.verb_last ? verb_after(time.end) : to_;
  if (verb < to_) {
    const Match last = match(text_, verb, WordClass::verb);
    const auto kind = step_kind_from(last.phrase->means);
    if (kind && open_.has_kind && *kind != open_.step.kind) {
      turn(i);  // "mix, 10 minutes leave": the time goes with its own verb
      set_kind(*kind, last.phrase->value, i);
      verb_seen_ = true;
      new_sentence_ = false;
      after_break_ = false;
    } else {
      take_verb(last, verb);
    }
  }
  // "4 h bulk, 10 min knead": the time stands before its word.
  const Match next =
      after_break_ || new_sentence_ ? match(text_, time.end, WordClass::verb) : Match{};
  const auto next_kind =
      next && next.phrase->value == 0.0 ? step_kind_from(next.phrase->means) : std::nullopt;
  if (next_kind && i == clause_ && !text_.lexicon->manners.verb_last &&
      (!open_.has_kind || *next_kind != open_.step.kind || open_.step.minutes)) {
    turn(i);
    set_kind(*next_kind, 0.0, i);
    verb_seen_ = true;
    new_sentence_ = false;
    after_break_ = false;
  }
  // "From 15 to 20 minutes will be required to bake them."
  if (const Match said = new_sentence_ || after_break_ ? verb_after_to(time.end) : Match{}) {
    close_before(i);
    set_kind(*step_kind_from(said.phrase->means), 0.0, i);
    verb_seen_ = true;
    new_sentence_ = false;
  }
  time_seen_ = true;
  attach_time(time, i);
}

Match StepReader::verb_after_to(std::size_t i) const {
  for (std::size_t at = i; at + 1 < std::min(to_, i + 6) && !sentence_end(at); ++at) {
    const Match verb = match(text_, at + 1, WordClass::verb);
    const bool to = is_class(text_, at, WordClass::to) || is_class(text_, at, WordClass::into);
    const bool strong = verb && (verb.phrase->value == 0.0 || verb.phrase->value == k_waiting);
    if (to && strong && step_kind_from(verb.phrase->means)) {
      return verb;
    }
    if (is_class(text_, at, WordClass::verb)) {
      return {};
    }
  }
  return {};
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
      close_before(i);
      set_kind(bake_goes_on ? StepKind::bake : StepKind::prove, bake_goes_on ? 0.0 : k_waiting, i);
      open_.inferred = true;
    }
  } else if (open_.has_kind && hands && long_wait) {
    close_before(i);
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
    close_before(i);
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
  after_break_ = false;
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
  while (!is_class(text_, at, WordClass::piece) &&
         (is_class(text_, at, WordClass::size) || is_class(text_, at, WordClass::packing) ||
          is_class(text_, at, WordClass::note))) {
    ++at;
  }
  const Match piece = match(text_, at, WordClass::piece);
  const bool verb_says = divides(i, number->end);
  if (each && each->number && each->unit.empty() && each->number->low >= 20.0) {
    each->unit = "g";  // "divide 15 x 50"
  }
  // "Roll out 40x50": a sheet's sides, though no unit is said.
  constexpr double k_shortest_side = 15.0;
  const bool sides = each && each->number && each->unit == "g" && text_[times.end].value > 0.0 &&
                     !is_class(text_, times.end + 1, WordClass::unit) &&
                     number->range.low >= k_shortest_side && open_.has_kind &&
                     open_.step.kind == StepKind::shape;
  if (sides) {
    return each->to;
  }
  const bool each_mass = each && each->number && grams_in(each->unit) > 0;
  // Bare minutes: "knead 10".
  const bool waits = open_.step.kind == StepKind::prove || open_.step.kind == StepKind::rest;
  const bool bare_rise = open_.has_kind && waits && open_.strength != k_weak &&
                         !open_.step.minutes && !piece && !times && i > from_ &&
                         number->range.low >= 15.0 && number->range.high <= 180.0 &&
                         is_class(text_, i - 1, WordClass::verb) &&
                         (ends_clause(number->end) ||  // "rise 45 in the pan"
                          is_class(text_, number->end, WordClass::stop));
  const bool bare_knead = open_.has_kind && open_.step.kind == StepKind::knead && !new_sentence_ &&
                          !open_.step.minutes && !piece && !times && i > from_ &&
                          number->range.high <= 30.0 && !is_class(text_, at, WordClass::unit);
  if (bare_knead || bare_rise) {
    take_time({number->range, number->end}, i);
    return number->end;
  }
  // "Then make 16, put them on a tray"
  const Match yield = i > from_ ? match(text_, i - 1, WordClass::label) : Match{};
  const bool makes = yield && yield.phrase->means == "yield" &&
                     is_class(text_, i - 1, WordClass::verb) && number->range.low >= 2.0 &&
                     ends_clause(number->end) && !text_[number->end].is('-');
  if (!(piece && number->range.low >= 2.0) && !verb_says && !each_mass && !makes) {
    return i;
  }
  if (number->range.low < 1.0 || (!piece && is_class(text_, at, WordClass::unit))) {
    return i;
  }
  if (makes && open_.has_kind && open_.step.kind == StepKind::mix && open_.strength == k_weak) {
    set_kind(StepKind::divide, 0.0, i);
  }
  take_pieces(*number, each_mass ? each : std::nullopt, i);
  return piece ? piece.end : number->end;
}

bool StepReader::ends_clause(std::size_t i) const {
  return i >= to_ || text_[i].kind == TokenKind::mark || text_[i].fresh ||
         text_[i].kind == TokenKind::end;
}

bool StepReader::divides(std::size_t i, std::size_t end) const {
  if (!open_.has_kind || i == from_) {
    return false;
  }
  const bool into = is_class(text_, i - 1, WordClass::into);
  const StepKind kind = open_.step.kind;
  // "Shape 12, fill"
  const bool right_after =
      is_class(text_, i - 1, WordClass::verb) && ends_clause(end) && !text_[end].is('-');
  return (into || right_after) && (kind == StepKind::divide || kind == StepKind::shape) &&
         !new_sentence_;
}

bool StepReader::of_each(std::size_t from, std::size_t to) const {
  std::size_t at = from;
  while (at > clause_ && at + 6 > from && !sentence_end(at - 1)) {
    --at;
  }
  bool each = false;
  if (const Match piece = match(text_, to, WordClass::piece);
      piece && piece.phrase->means == "strand") {
    return false;  // "each into 3 strips, and plait": what is plaited is one piece again
  }
  for (; at < std::min(to_, to + 5) && (at < to || !sentence_end(at)); ++at) {
    // "Into 3 strips for each plait" is of the strand, not of the piece that is baked.
    each =
        each || (is_class(text_, at, WordClass::each) && (at < from || !text_[at + 1].is_number()));
  }
  return each;
}

void StepReader::take_pieces(const Number& number, const std::optional<FoundMeasure>& each,
                             std::size_t i) {
  // Where verbs come last the number stands before what divides.
  if (text_.lexicon->manners.verb_last && new_sentence_ && open_.has_kind) {
    close_before(i);
    set_kind(StepKind::divide, 0.0, i);
    new_sentence_ = false;
  }
  if (text_.lexicon->manners.verb_last && after_break_ && open_.has_kind) {
    const std::size_t at = verb_after(number.end);
    const Match verb = at < to_ ? match(text_, at, WordClass::verb) : Match{};
    if (verb && verb.phrase->means == "divide" && open_.step.kind != StepKind::divide) {
      turn(i);  // "aufrollen, in 12 Stücke schneiden"
      set_kind(StepKind::divide, 0.0, i);
      after_break_ = false;
    }
  }
  const StepKind kind = open_.step.kind;
  const bool hands = kind == StepKind::divide || kind == StepKind::shape;
  // "Divide into 2. Cut each into 8."
  const bool again = context_.lots && open_.step.pieces && of_each(i, number.end);
  const bool fits = open_.has_kind && (!open_.step.pieces || again) && !new_sentence_ && hands;
  // "18 ropes of about 60 g, twist": pieces and their mass begin the clause.
  const bool told =
      !fits && i == clause_ && !open_.step.pieces && (each || mass_after(number.end).has_value());
  if (told && (open_.has_kind || open_.settled)) {
    close_before(i);
    set_kind(StepKind::divide, 0.0, i);
    new_sentence_ = false;
  } else if (!fits) {
    if (open_.has_kind && (kind != StepKind::mix || new_sentence_ || after_break_)) {
      return;
    }
    set_kind(StepKind::divide, 0.0, i);
    new_sentence_ = false;
  }
  open_.step.pieces = number.range;
  open_.settled = true;
  if (context_.lots && of_each(i, number.end)) {
    open_.step.pieces =
        Range{number.range.low * context_.lots->low, number.range.high * context_.lots->high};
    context_.lots.reset();
  } else if (number.range.high <= k_most_lots && number.range.low >= 2.0) {
    context_.lots = number.range;
  }
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
