#include "reading/step_text.h"

#include <algorithm>
#include <string>

#include "quantity/number_text.h"
#include "quantity/units.h"
#include "reading/measure.h"

namespace maslin::reading {
namespace {

// How a verb claims a step: see the verb rows of the word tables.
constexpr double k_noun_too = 1.0;
constexpr double k_weak = 2.0;
constexpr double k_waiting = 3.0;  // "leave", "stand": a prove or a rest
constexpr double k_cover = 4.0;    // says what follows unless another verb does

/// Longest wait that is still a rest when nothing else says which, minutes.
constexpr double k_longest_rest = 14.0;

Range marks_in_celsius(const Heat& heat, std::string_view scale, const Pantry& pantry) {
  const auto one = [&](double mark) {
    const OvenMark* below = nullptr;
    for (const OvenMark& row : pantry.oven_marks()) {
      if (row.scale != scale) {
        continue;
      }
      const double value = number_from(row.mark).value_or(row.mark == "1/4"   ? 0.25
                                                          : row.mark == "1/2" ? 0.5
                                                                              : -1.0);
      if (value == mark) {
        return row.celsius;
      }
      below = value < mark ? &row : below;
    }
    return below == nullptr ? 0.0 : below->celsius;
  };
  return {one(heat.value.low), one(heat.value.high)};
}

double from_fahrenheit(double f) {
  return in_celsius(fahrenheit(f));
}

/// Walks the tokens of one line and makes steps of them.
class StepReader {
 public:
  StepReader(const Text& text, std::size_t from, std::size_t to, StepContext& context)
      : text_(text), from_(from), to_(to), context_(context) {}

  std::vector<Step> run() {
    clause_ = from_;
    open(from_);
    for (std::size_t i = from_; i < to_;) {
      i = token(i);
    }
    close(to_);
    return std::move(steps_);
  }

 private:
  struct Open {
    Step step;
    std::size_t from = 0;
    bool has_kind = false;
    double strength = 0.0;
    bool settled = false;  // has minutes, heat or pieces
    bool preheat = false;
    bool inferred = false;  // the kind was guessed from a time alone
  };

  void open(std::size_t at) {
    open_ = Open{};
    open_.from = at;
  }

  void close(std::size_t at) {
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

  /// Waiting is a prove or a rest; a bake without heat takes the oven's.
  void resolve(Open& open) {
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

  bool sentence_end(std::size_t i) const {
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

  std::size_t token(std::size_t i) {
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
      return measure->to;
    }
    return read_word(i);
  }

  std::size_t read_word(std::size_t i) {
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

  void note_place(std::size_t i) {
    if (const Match place = match(text_, i, WordClass::place); place && open_.step.place.empty()) {
      open_.step.place = place.phrase->means;
    }
  }

  /// A word that is verb and noun ("cream") is a verb where a sentence may begin.
  bool reads_as_verb(const Match& verb, std::size_t i) const {
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

  void take_verb(const Match& verb, std::size_t i) {
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

  void set_kind(StepKind kind, double strength, std::size_t i) {
    open_.step.kind = kind;
    open_.has_kind = true;
    open_.strength = strength;
    // "Preheat", "heat the oven": the weak words for a bake.
    open_.preheat = kind == StepKind::bake && strength == k_weak;
    (void)i;
  }

  /// Starts a new step where the clause began, or at the verb itself.
  void turn(std::size_t i) {
    const std::size_t at = clause_ > open_.from ? clause_ : i;
    close(at);
    open(at);
  }

  std::size_t read_until(std::size_t i) {
    const Match until = match(text_, i, WordClass::until);
    if (!until || text_[until.end].is_number()) {
      return i;
    }
    std::size_t end = until.end;
    while (end < to_ && !text_[end].is(',') && !text_[end].is('(') && !sentence_end(end) &&
           !any_time(text_, end) && !any_heat(text_, end)) {
      ++end;
    }
    std::string words(text_.slice(until.end, end));
    if (open_.step.until.empty()) {
      open_.step.until = words;
    }
    for (std::size_t at = until.end; at < end; ++at) {
      core_ = core_ || is_class(text_, at, WordClass::core);
    }
    return end;
  }

  std::size_t read_heat(std::size_t i) {
    if (const Match words = match(text_, i, WordClass::heat)) {
      bool oven = false;
      for (std::size_t at = i; at < words.end + 1; ++at) {
        oven = oven || is_class(text_, at, WordClass::oven);
      }
      if (oven && !open_.step.celsius) {
        take_oven_words(words.phrase->means, i);
        return words.end;
      }
    }
    const bool fan_before = is_class(text_, i, WordClass::fan);
    const std::size_t at = fan_before ? match(text_, i, WordClass::fan).end : i;
    auto heat = any_heat(text_, at);
    if (!heat && fan_before) {
      heat = bare_heat(at);
    }
    if (!heat) {
      heat = bare_oven_heat(i);
    }
    if (!heat) {
      return i;
    }
    take_heat(*heat, i, fan_before);
    const Match fan = match(text_, heat->end, WordClass::fan);
    return fan ? fan.end : heat->end;
  }

  std::optional<Heat> bare_heat(std::size_t i) const {
    const auto number = any_number(text_, i);
    if (!number || number->range.low < 90.0 || number->range.high > 550.0) {
      return std::nullopt;
    }
    return Heat{number->range, HeatScale::unknown, number->end};
  }

  /// "oven at 200", "bake 425", "200 fan", "three fifty for forty minutes".
  std::optional<Heat> bare_oven_heat(std::size_t i) const {
    if (const Match hundreds = match(text_, i, WordClass::number);
        hundreds && hundreds.phrase->value < 6.0 && text_[i].kind == TokenKind::word) {
      const auto tens = one_number(text_, hundreds.end);
      if (tens && tens->word && tens->range.low >= 10.0 && tens->range.low < 100.0 &&
          is_class(text_, hundreds.end, WordClass::number)) {
        const double value = hundreds.phrase->value * 100.0 + tens->range.low;
        return Heat{{value, value}, HeatScale::unknown, tens->end};
      }
    }
    if (!text_[i].is_number()) {
      return std::nullopt;
    }
    const auto heat = bare_heat(i);
    if (!heat) {
      return std::nullopt;
    }
    const bool fan_after = is_class(text_, heat->end, WordClass::fan);
    const bool baking = open_.has_kind && open_.step.kind == StepKind::bake && !open_.step.celsius;
    bool oven_before = false;
    for (std::size_t back = i > 4 ? i - 4 : 0; back < i; ++back) {
      oven_before = oven_before || is_class(text_, back, WordClass::oven) ||
                    is_class(text_, back, WordClass::turn_down);
    }
    const bool measured = is_class(text_, heat->end, WordClass::unit) ||
                          is_class(text_, heat->end, WordClass::time) ||
                          is_class(text_, heat->end, WordClass::piece);
    // "& 180 for 30 min"
    const std::size_t then = heat->end + (is_class(text_, heat->end, WordClass::stop) ? 1U : 0U);
    const bool timed = number_of_dial(heat->value.low) && any_time(text_, then).has_value();
    return !measured && (fan_after || baking || oven_before || timed) ? heat : std::nullopt;
  }

  /// Figures that stand on oven dials.
  static bool number_of_dial(double value) {
    return value >= 140.0 && value <= 500.0 &&
           value == 5.0 * static_cast<double>(static_cast<int>(value / 5.0));
  }

  void take_oven_words(std::string_view words, std::size_t i) {
    for (const OvenMark& row : text_.lexicons->pantry->oven_marks()) {
      if (row.scale == "word" && row.mark == words) {
        begin_heat(i);
        open_.step.celsius = Range{row.celsius_low, row.celsius_high};
        return;
      }
    }
  }

  /// A heat with no verb in its sentence is the oven's.
  void begin_heat(std::size_t) {
    if (new_sentence_ || !open_.has_kind) {
      if (open_.has_kind || open_.settled) {
        close_at_clause();
      }
      set_kind(StepKind::bake, 0.0, 0);
      new_sentence_ = false;
    }
  }

  void close_at_clause() {
    const std::size_t at = std::max(clause_, open_.from);
    close(at);
    open(at);
  }

  void take_heat(const Heat& heat, std::size_t i, bool fan_before) {
    const Range celsius = in_celsius(heat, context_, *text_.lexicons->pantry);
    const bool fan = fan_before || is_class(text_, heat.end, WordClass::fan);
    if (core_) {
      core_ = false;
      if (open_.step.until.empty() || open_.step.until.find("core") == std::string::npos) {
        open_.step.until = "core " + number_text(celsius.middle(), 0) + " C";
      }
      return;
    }
    const bool oven = celsius.high >= 100.0;
    if (oven && open_.step.kind != StepKind::fry && open_.step.kind != StepKind::boil) {
      take_oven_heat(heat, celsius, i, fan);
      return;
    }
    if (!open_.step.celsius) {
      open_.step.celsius = celsius;
      open_.settled = open_.settled || open_.has_kind;
    }
  }

  void take_oven_heat(const Heat& heat, Range celsius, std::size_t i, bool fan) {
    const bool alternative = open_.step.celsius && open_.step.kind == StepKind::bake &&
                             (alternative_mark(i) || !open_.step.minutes);
    if (alternative) {
      const bool exact = heat.scale == HeatScale::celsius || heat.scale == HeatScale::fahrenheit;
      if (from_mark_ && exact && !fan) {
        open_.step.celsius = celsius;
        from_mark_ = false;
        return;
      }
      if (fan && !open_.step.fan) {
        return;  // the conventional oven's figure came first
      }
      if (open_.step.fan && !fan) {
        open_.step.celsius = celsius;
        open_.step.fan = false;
      }
      return;
    }
    const bool other_kind = open_.has_kind && open_.step.kind != StepKind::bake;
    if (open_.inferred && open_.step.kind == StepKind::prove && !new_sentence_) {
      set_kind(StepKind::bake, 0.0, i);  // "25 minutes at Mark 5"
    } else if (other_kind || new_sentence_ || !open_.has_kind ||
               (open_.step.celsius && open_.step.minutes)) {
      if (open_.has_kind || open_.settled) {
        close_at_clause();
      }
      set_kind(StepKind::bake, 0.0, i);
    }
    open_.step.celsius = celsius;
    open_.settled = true;
    from_mark_ = heat.scale == HeatScale::gas || heat.scale == HeatScale::thermostat ||
                 heat.scale == HeatScale::stufe;
    if (fan) {
      set_fan();
    }
    new_sentence_ = false;
  }

  bool alternative_mark(std::size_t i) const {
    if (i == 0) {
      return false;
    }
    const bool comma = text_[i - 1].is(',') && !open_.step.minutes;
    return (text_[i - 1].is('/') || text_[i - 1].is('(') || comma || text_[i - 1].is('[') ||
            text_[i - 1].is('=') || is_class(text_, i - 1, WordClass::or_));
  }

  /// A fan oven does at 20 °C less what a still one does (common practice).
  void set_fan() {
    open_.step.fan = true;
    open_.step.celsius = Range{open_.step.celsius->low + 20.0, open_.step.celsius->high + 20.0};
  }

  void take_time(const Time& time, std::size_t i) {
    const std::size_t verb = text_.lexicon->manners.verb_last ? verb_after(time.end) : to_;
    if (verb < to_) {
      take_verb(match(text_, verb, WordClass::verb), verb);
    }
    attach_time(time, i);
  }

  /// The verb that closes the clause, where verbs come last.
  std::size_t verb_after(std::size_t i) const {
    for (; i < to_ && !sentence_end(i) && !text_[i].is(','); ++i) {
      if (is_class(text_, i, WordClass::join)) {
        return to_;
      }
      if (is_class(text_, i, WordClass::verb)) {
        return i;
      }
    }
    return to_;
  }

  void attach_time(const Time& time, std::size_t i) {
    Step& step = open_.step;
    const bool long_wait = time.minutes.low >= 15.0;
    const bool hands = step.kind == StepKind::shape || step.kind == StepKind::divide ||
                       step.kind == StepKind::fill || step.kind == StepKind::finish;
    if (new_sentence_ && open_.has_kind && !is_class(text_, time.end, WordClass::verb)) {
      // A sentence that only names a time: after shaping it is a prove.
      const bool bake_goes_on = step.kind == StepKind::bake && step.minutes;
      if (step.minutes || (hands && long_wait)) {
        close_at_clause();
        set_kind(bake_goes_on ? StepKind::bake : StepKind::prove, bake_goes_on ? 0.0 : k_waiting,
                 i);
        open_.inferred = true;
      }
    } else if (open_.has_kind && hands && long_wait) {
      close_at_clause();
      set_kind(StepKind::prove, k_waiting, i);
    } else if (step.minutes) {
      if (step.kind != StepKind::bake && step.kind != StepKind::prove &&
          step.kind != StepKind::mix && step.kind != StepKind::knead) {
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

  std::size_t read_pieces(std::size_t i) {
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
    const bool each_mass = each && grams_in(each->unit) > 0;
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

  /// The verb of the clause divides and "into", "in" or nothing stands before the number.
  bool divides(std::size_t i) const {
    if (!open_.has_kind || i == from_) {
      return false;
    }
    const bool into = is_class(text_, i - 1, WordClass::into);
    const StepKind kind = open_.step.kind;
    return into && (kind == StepKind::divide || kind == StepKind::shape) && !new_sentence_;
  }

  void take_pieces(const Number& number, const std::optional<FoundMeasure>& each, std::size_t i) {
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

  /// "24 pieces at 72 g", "9 pieces of 75 g", "(75 g)".
  std::optional<double> mass_after(std::size_t i) const {
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

  const Text& text_;
  std::size_t from_;
  std::size_t to_;
  StepContext& context_;
  std::vector<Step> steps_;
  Open open_;
  std::size_t clause_ = 0;
  bool new_sentence_ = true;
  bool after_break_ = false;
  bool core_ = false;
  bool from_mark_ = false;
  bool verb_seen_ = false;  // since the clause began
};

}  // namespace

Range in_celsius(const Heat& heat, const StepContext& context, const Pantry& pantry) {
  const auto both = [&](auto convert) {
    return Range{convert(heat.value.low), convert(heat.value.high)};
  };
  switch (heat.scale) {
    case HeatScale::celsius:
      return heat.value;
    case HeatScale::fahrenheit:
      return both(from_fahrenheit);
    case HeatScale::gas:
      return marks_in_celsius(heat, "gas", pantry);
    case HeatScale::thermostat:
      return marks_in_celsius(heat, "thermostat_fr", pantry);
    case HeatScale::stufe:
      return marks_in_celsius(heat, "stufe_de", pantry);
    case HeatScale::unknown:
      break;
  }
  // No home oven goes past 300 °C; an American dial has no use for less than 260.
  const bool f = heat.value.low > 260.0 ||
                 (context.american && heat.value.low > 90.0 && heat.value.low < 120.0);
  return f ? both(from_fahrenheit) : heat.value;
}

std::vector<Step> read_steps(const Text& text, std::size_t from, std::size_t to,
                             StepContext& context) {
  return StepReader(text, from, to, context).run();
}

std::optional<StepKind> first_verb(const Text& text, std::size_t from, std::size_t to) {
  for (std::size_t i = from; i < to && i < from + 4; ++i) {
    if (const Match verb = match(text, i, WordClass::verb)) {
      return step_kind_from(verb.phrase->means);
    }
    if (text[i].is_number()) {
      return std::nullopt;
    }
  }
  return std::nullopt;
}

}  // namespace maslin::reading
