#include <string>

#include "quantity/number_text.h"
#include "quantity/units.h"
#include "reading/amounts.h"
#include "reading/step_reader.h"

namespace maslin::reading {
namespace {

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

}  // namespace

std::size_t StepReader::read_heat(std::size_t i) {
  if (const Match words = match(text_, i, WordClass::heat)) {
    bool oven = false;
    for (std::size_t at = i; at < words.end + 1; ++at) {
      oven = oven || is_class(text_, at, WordClass::oven);
    }
    if (oven && !open_.step.celsius) {
      if (context_.oven) {  // preheated to a figure: "in the hot oven" says no more
        begin_heat(i);
      } else {
        take_oven_words(words.phrase->means, i);
      }
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
  // "190/5": the gas mark beside the degrees.
  const Token& mark = text_[heat->end + 1];
  constexpr double k_highest_mark = 9.0;
  if (text_[heat->end].is('/') && mark.is_number() && mark.value <= k_highest_mark &&
      !mark.spaced) {
    heat->end += 2;
  }
  if (const auto minutes = bare_minutes(heat->end)) {
    attach_time(*minutes, i);
    return minutes->end;
  }
  const Match fan = match(text_, heat->end, WordClass::fan);
  const std::size_t end = fan ? fan.end : heat->end;
  // "190 (170 fan) for 16-18"
  const auto behind = text_[end].is(')') ? bare_minutes(end + 1) : std::nullopt;
  if (behind) {
    attach_time(*behind, i);
  }
  return behind ? behind->end : end;
}

std::optional<Time> StepReader::bare_minutes(std::size_t i) const {
  const Match by = match(text_, i, WordClass::times);
  std::size_t at = by ? by.end : tells_use(text_, i) ? i + 1 : i;
  // "for another 20-25"
  at += at > i && is_class(text_, at, WordClass::article) && text_[at + 1].is_number() ? 1U : 0U;
  const auto minutes = at > i ? any_number(text_, at) : std::nullopt;
  if (!minutes || minutes->range.low < 4.0 || minutes->range.high > 180.0 ||
      (!ends_clause(minutes->end) && !is_class(text_, minutes->end, WordClass::adverb))) {
    return std::nullopt;
  }
  return Time{minutes->range, minutes->end};
}

std::optional<Heat> StepReader::bare_heat(std::size_t i) const {
  const auto number = any_number(text_, i);
  if (!number || number->range.low < 90.0 || number->range.high > 550.0) {
    return std::nullopt;
  }
  return Heat{number->range, HeatScale::unknown, number->end};
}

std::optional<Heat> StepReader::bare_oven_heat(std::size_t i) const {
  if (const Match hundreds = match(text_, i, WordClass::number);
      hundreds && hundreds.phrase->value < 6.0 && text_[i].kind == TokenKind::word) {
    const auto tens = one_number(text_, hundreds.end);
    if (tens && tens->word && tens->range.low >= 10.0 && tens->range.low < 100.0 &&
        is_class(text_, hundreds.end, WordClass::number)) {
      const double value = hundreds.phrase->value * 100.0 + tens->range.low;
      return Heat{{value, value}, HeatScale::unknown, tens->end};
    }
  }
  // "two hundred and thirty for half an hour"
  const bool spoken = is_class(text_, i, WordClass::number) && !text_[i].is_number();
  if (!text_[i].is_number() && !spoken) {
    return std::nullopt;
  }
  const auto heat = bare_heat(i);
  if (!heat) {
    return std::nullopt;
  }
  const bool fan_after = is_class(text_, heat->end, WordClass::fan);
  const bool baking =
      open_.has_kind && open_.step.kind == StepKind::bake && (!open_.step.celsius || from_mark_);
  bool oven_before = false;
  for (std::size_t back = i > 4 ? i - 4 : 0; back < i; ++back) {
    oven_before = oven_before || is_class(text_, back, WordClass::oven) ||
                  is_class(text_, back, WordClass::turn_down);
  }
  // "25 min @ 230", "20 min at 180"
  const bool waited =
      i > 1 && is_class(text_, i - 2, WordClass::time) && is_class(text_, i - 1, WordClass::stop);
  const bool at_sign = i > 0 && (text_[i - 1].is('@') || waited) && number_of_dial(heat->value.low);
  const bool measured = is_class(text_, heat->end, WordClass::unit) ||
                        is_class(text_, heat->end, WordClass::time) ||
                        is_class(text_, heat->end, WordClass::piece);
  // "& 180 for 30 min"
  const std::size_t then = heat->end + (is_class(text_, heat->end, WordClass::stop) ? 1U : 0U);
  const bool by = is_class(text_, heat->end, WordClass::times) &&
                  any_number(text_, heat->end + 1).has_value() &&
                  open_.step.kind != StepKind::divide;
  const bool timed = number_of_dial(heat->value.low) &&
                     (by || is_class(text_, heat->end, WordClass::until) ||
                      any_time(text_, then).has_value() || bare_minutes(heat->end).has_value());
  return !measured && (fan_after || baking || oven_before || timed || at_sign) ? heat
                                                                               : std::nullopt;
}

bool StepReader::number_of_dial(double value) {
  return value >= 140.0 && value <= 500.0 &&
         value == 5.0 * static_cast<double>(static_cast<int>(value / 5.0));
}

void StepReader::take_oven_words(std::string_view words, std::size_t i) {
  for (const OvenMark& row : text_.lexicons->pantry->oven_marks()) {
    if (row.scale == "word" && row.mark == words) {
      const bool waits = open_.has_kind && !new_sentence_ &&
                         (open_.step.kind == StepKind::prove || open_.step.kind == StepKind::rest);
      if (waits && clause_ <= open_.from) {
        open_.step.place = "warm";  // "prove in a slow oven": no heat of a bake
        return;
      }
      if (waits) {  // "rise half an hour, hot oven 20 minutes"
        close_before(i);
      }
      begin_heat(i);
      from_mark_ = true;
      bake_not_boil({row.celsius_low, row.celsius_high});
      open_.step.celsius = Range{row.celsius_low, row.celsius_high};
      return;
    }
  }
}

void StepReader::bake_not_boil(Range celsius) {
  const bool hob = open_.step.kind == StepKind::boil || open_.step.kind == StepKind::fry;
  if (hob && open_.strength == k_weak && celsius.low >= 110.0 && !open_.step.celsius) {
    set_kind(StepKind::bake, 0.0, 0);
  }
}

void StepReader::begin_heat(std::size_t i) {
  if (new_sentence_ || !open_.has_kind) {
    if (open_.has_kind || open_.settled) {
      close_before(i);
    }
    set_kind(StepKind::bake, 0.0, 0);
    new_sentence_ = false;
  }
}

void StepReader::take_heat(const Heat& heat, std::size_t i, bool fan_before) {
  const Range celsius = in_celsius(heat, context_, *text_.lexicons->pantry);
  bool turned_down = false;  // "reduce heat to 180": the same fan oven
  for (std::size_t back = i > 4 ? i - 4 : 0; back < i; ++back) {
    turned_down = turned_down || is_class(text_, back, WordClass::turn_down);
  }
  // "180 °C, fan forced", but not "190 °C, fan 170 °C".
  const Match after_comma =
      text_[heat.end].is(',') ? match(text_, heat.end + 1, WordClass::fan) : Match{};
  const bool fan_said = after_comma && !any_heat(text_, after_comma.end);
  const bool fan = fan_before || is_class(text_, heat.end, WordClass::fan) || fan_oven_ ||
                   fan_said || (turned_down && context_.oven_fan);
  fan_oven_ = false;
  if (other_heat_) {
    other_heat_ = false;
    return;
  }
  if (core_) {
    core_ = false;
    if (open_.step.until.empty() || open_.step.until.find("core") == std::string::npos) {
      open_.step.until = "core " + number_text(celsius.middle(), 0) + " C";
    }
    return;
  }
  // "Warm the milk to 105 degrees": no oven, and Fahrenheit.
  const bool liquid = open_.has_kind && open_.step.kind == StepKind::mix && !new_sentence_ &&
                      heat.scale == HeatScale::unknown && celsius.high < 130.0;
  const bool oven = celsius.high >= 100.0 && !liquid;
  bake_not_boil(celsius);
  // "Bake for 10 minutes, then reduce the heat to 190 °C": the minutes were at the oven's first
  // heat.
  const bool next_heat = turned_down || is_class(text_, clause_, WordClass::adverb);
  if (oven && next_heat && open_.has_kind && open_.step.kind == StepKind::bake &&
      open_.step.minutes && !open_.step.celsius && context_.oven && clause_ > open_.from) {
    open_.step.celsius = context_.oven;
    open_.step.fan = context_.oven_fan;
    close_before(i);
    set_kind(StepKind::bake, 0.0, i);
    open_.step.celsius = celsius;
    open_.settled = true;
    if (fan) {
      set_fan();
    }
    new_sentence_ = false;
    return;
  }
  if (oven && open_.step.kind != StepKind::fry && open_.step.kind != StepKind::boil) {
    take_oven_heat(heat, celsius, i, fan);
    return;
  }
  if (!open_.step.celsius) {
    open_.step.celsius = celsius;
    open_.settled = open_.settled || open_.has_kind;
  }
}

void StepReader::take_oven_heat(const Heat& heat, Range celsius, std::size_t i, bool fan) {
  if (fan && open_.step.celsius && open_.step.minutes && after_or(i)) {
    skip_time_ = true;  // "or in a 350 F convection oven, 10 to 12 min"
    return;
  }
  const bool alternative = open_.step.celsius && open_.step.kind == StepKind::bake &&
                           (alternative_mark(i) || !open_.step.minutes);
  if (alternative) {
    const bool exact = heat.scale == HeatScale::celsius || heat.scale == HeatScale::fahrenheit ||
                       heat.scale == HeatScale::unknown;
    if (from_mark_ && exact) {
      open_.step.celsius = celsius;
      from_mark_ = false;
      if (fan) {
        set_fan();  // "hot oven, 160 C fan"
      }
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
      close_before(i);
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

bool StepReader::after_or(std::size_t i) const {
  for (std::size_t back = i > 3 ? i - 3 : 0; back < i; ++back) {
    if (is_class(text_, back, WordClass::or_)) {
      return true;
    }
  }
  return false;
}

bool StepReader::alternative_mark(std::size_t i) const {
  if (i == 0) {
    return false;
  }
  const bool comma = text_[i - 1].is(',') && !open_.step.minutes;
  return (text_[i - 1].is('/') || text_[i - 1].is('(') || comma || text_[i - 1].is('[') ||
          text_[i - 1].is('=') || is_class(text_, i - 1, WordClass::or_));
}

void StepReader::set_fan() {
  open_.step.fan = true;
  open_.step.celsius = Range{open_.step.celsius->low + 20.0, open_.step.celsius->high + 20.0};
}

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

}  // namespace maslin::reading
