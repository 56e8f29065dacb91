#include "reading/setting.h"

namespace maslin::reading {
namespace {

struct TimeUnit {
  double minutes = 0.0;  // 0 when there is none
  std::size_t end = 0;
};

TimeUnit time_unit(const Text& text, std::size_t i) {
  // "35'": the prime of minutes, not a foot, not an apostrophe of quoting.
  if (text[i].is('\'') && !text[i].spaced) {
    return {1.0, i + 1};
  }
  const Match unit = match(text, i, WordClass::time);
  if (!unit) {
    return {};
  }
  const bool point = text[unit.end].is('.') && !text[unit.end].spaced && text[i].word.size() < 5 &&
                     text[unit.end + 1].kind == TokenKind::word && !text[unit.end + 1].capital;
  return {unit.phrase->value, unit.end + (point ? 1U : 0U)};
}

/// "15 mins", "30", "and 15 minutes", "and a half" after hours.
Time with_rest(const Text& text, Time time, double unit) {
  if (const auto share = trailing_share(text, time.end)) {
    time.minutes.low += share->range.low * unit;
    time.minutes.high += share->range.low * unit;
    time.end = share->end;
    return time;
  }
  const std::size_t next = is_class(text, time.end, WordClass::join) ? time.end + 1 : time.end;
  if (unit < 60.0 || time.minutes.low != time.minutes.high ||
      text[next].kind != TokenKind::number) {
    return time;
  }
  const TimeUnit more = time_unit(text, next + 1);
  const bool bare = more.minutes == 0.0 && next == time.end && text[next].value < 60.0 &&
                    text[next].value >= 5.0 && !is_class(text, next + 1, WordClass::unit) &&
                    !is_class(text, next + 1, WordClass::piece) &&
                    !is_class(text, next + 1, WordClass::times) && !text[next + 1].is('^') &&
                    (!is_class(text, next + 1, WordClass::length) ||
                     is_class(text, next + 1, WordClass::into)) &&  // "1 hr 20 in the cupboard"
                    !text[next + 1].is('-') &&
                    !is_class(text, next + 1, WordClass::degree) && !text[next + 1].is('%');
  if (bare || (more.minutes > 0.0 && more.minutes < unit)) {
    const double rest = text[next].value * (bare ? 1.0 : more.minutes);
    time.minutes.low += rest;
    time.minutes.high += rest;
    time.end = bare ? next + 1 : more.end;
  }
  return time;
}

std::optional<Time> one_time(const Text& text, std::size_t i) {
  if (const Match span = match(text, i, WordClass::span)) {
    return Time{{span.phrase->value, span.phrase->value}, span.end};
  }
  const auto number = any_number(text, i);
  if (!number) {
    // ", hour or so"
    const TimeUnit bare = time_unit(text, i);
    const bool alone = bare.minutes > 0.0 && i > 0 && text[i - 1].is(',') &&
                       is_class(text, bare.end, WordClass::approx);
    // "hour to hour and a half"
    const std::size_t mark = bare.minutes >= 60.0 ? range_mark(text, bare.end) : bare.end;
    const bool begins = i == 0 || text[i - 1].kind == TokenKind::mark || text[i].fresh ||
                        is_class(text, i - 1, WordClass::verb);
    const Time bare_time = with_rest(text, {{bare.minutes, bare.minutes}, bare.end}, bare.minutes);
    const bool and_more = bare.minutes >= 60.0 && bare_time.end != bare.end;  // "hour and a half"
    const bool after = bare.minutes > 0.0 && i > 1 && range_mark(text, i - 1) == i &&
                       time_unit(text, i - 2).minutes > 0.0;
    const bool risen = bare.minutes >= 60.0 && i > 0 && is_class(text, i - 1, WordClass::verb) &&
                       (text[bare.end].kind == TokenKind::mark ||
                        text[bare.end].kind == TokenKind::end);  // "rise hour, …"
    const bool ranges = mark > bare.end && time_unit(text, mark).minutes > 0.0;
    if (alone || risen || after || (begins && (ranges || and_more))) {
      return bare_time;
    }
    return std::nullopt;
  }
  // "15-ish mins"
  std::size_t at = is_class(text, number->end, WordClass::approx) ? number->end + 1 : number->end;
  if (number->range.low < 1.0) {  // "½ an hour", "trois quarts d'heure"
    at += is_class(text, at, WordClass::of) ? 1U : 0U;
    at += is_class(text, at, WordClass::article) ? 1U : 0U;
  }
  // "A full hour", "a good half hour"
  if (number->article && is_class(text, at, WordClass::packing) &&
      time_unit(text, at + 1).minutes > 0.0) {
    ++at;
  }
  const TimeUnit unit = time_unit(text, at);
  // "you get sixteen, half an hour's rest": no sixteen half hours.
  const bool own_share = number->range.low > 1.0 && is_class(text, at, WordClass::share);
  // "3 S&F" are stretches and folds, no seconds.
  const bool capital =
      unit.minutes > 0.0 && unit.minutes < 1.0 && text[at].word.size() == 1 && text[at].capital;
  if (unit.minutes <= 0.0 || own_share || capital) {
    return std::nullopt;
  }
  const Time time{{number->range.low * unit.minutes, number->range.high * unit.minutes}, unit.end};
  return with_rest(text, time, unit.minutes);
}

HeatScale letter_scale(const Text& text, std::size_t i, std::size_t& end) {
  const Match degree = match(text, i, WordClass::degree);
  end = i;
  if (!degree || degree.phrase->means.empty()) {
    return HeatScale::unknown;
  }
  end = degree.end;
  return degree.phrase->means == "f" ? HeatScale::fahrenheit : HeatScale::celsius;
}

HeatScale mark_scale(std::string_view means) {
  return means == "gas"             ? HeatScale::gas
         : means == "thermostat_fr" ? HeatScale::thermostat
                                    : HeatScale::stufe;
}

std::optional<Heat> oven_mark(const Text& text, std::size_t i) {
  const Match scale = match(text, i, WordClass::scale);
  if (!scale) {
    return std::nullopt;
  }
  const std::size_t at = scale.end + (text[scale.end].is('.') || text[scale.end].is(':') ? 1U : 0U);
  // "Gas Mark 7 or 220 C" is no range.
  constexpr double k_highest_mark = 12.0;
  auto number = any_number(text, at);
  number = number && number->range.high > k_highest_mark ? one_number(text, at) : number;
  if (!number || number->article || number->range.high > k_highest_mark ||
      is_class(text, number->end, WordClass::piece)) {  // "mark 8 wedges"
    return std::nullopt;
  }
  return Heat{number->range, mark_scale(scale.phrase->means), number->end};
}

}  // namespace

namespace {

/// "Overnight, 12 hours", "overnight (8-10 hours)": how long that night is; `night` when it is not
/// said.
Time told_night(const Text& text, const Time& night) {
  constexpr double k_shortest_night = 240.0;
  const bool bracket = text[night.end].is('(');
  std::size_t at = night.end + (bracket || text[night.end].is(',') ? 1U : 0U);
  at += is_class(text, at, WordClass::or_) ? 1U : 0U;
  at += is_class(text, at, WordClass::stop) && !is_class(text, at, WordClass::approx) ? 1U : 0U;
  const bool again = at == night.end || is_class(text, at, WordClass::span);
  const auto hours = again ? std::nullopt : any_time(text, at);
  if (!hours || hours->minutes.low < k_shortest_night || hours->minutes.high > 1440.0) {
    return night;
  }
  const bool closes = bracket && text[hours->end].is(')');
  return {hours->minutes, hours->end + (closes ? 1U : 0U)};
}

}  // namespace

std::optional<Time> any_time(const Text& text, std::size_t i) {
  auto first = one_time(text, i);
  if (!first) {
    return std::nullopt;
  }
  if (is_class(text, i, WordClass::span)) {
    return told_night(text, *first);
  }
  std::size_t mark = range_mark(text, first->end);
  const bool stroke = text[mark].is('/') && text[mark + 1].is_number();  // "45 min/1 h"
  mark += mark == first->end && (stroke || is_class(text, mark, WordClass::or_)) ? 1U : 0U;
  if (mark != first->end) {
    if (const auto second = one_time(text, mark);
        second && second->minutes.low > first->minutes.high) {
      first->minutes.high = second->minutes.high;
      first->end = second->end;
    }
  }
  return first;
}

namespace {

/// "(170 fan)", "(fan 170)" behind a figure.
bool tells_fan(const Text& text, std::size_t i) {
  if (!text[i].is('(')) {
    return false;
  }
  const auto second = any_number(text, i + 1);
  const std::size_t fan = second ? second->end : i + 1;
  const Match said = match(text, fan, WordClass::fan);
  return said && (second || any_number(text, said.end).has_value());
}

}  // namespace

std::optional<Heat> any_heat(const Text& text, std::size_t i) {
  if (const auto mark = oven_mark(text, i)) {
    return mark;
  }
  const auto number = any_number(text, i);
  if (!number || number->article || number->range.high > 999.0 || number->range.low < 1.0) {
    return std::nullopt;
  }
  std::size_t at = number->end;
  bool degrees = false;
  if (text[at].is('^')) {
    degrees = true;
    ++at;
  } else if (const Match degree = match(text, at, WordClass::degree);
             degree && degree.phrase->means.empty()) {
    degrees = true;
    at = degree.end;
  }
  std::size_t end = at;
  const HeatScale scale = letter_scale(text, at, end);
  // "150 c.c. of milk" are cubic centimetres.
  if (scale == HeatScale::celsius && !degrees && text[end].is('.') && !text[end + 1].spaced &&
      text[end + 1].word == text[at].word) {
    return std::nullopt;
  }
  // "190 (170 fan)": figures of a dial, though no degree is said.
  if (!degrees && scale == HeatScale::unknown && number->range.low >= 120.0 &&
      tells_fan(text, number->end)) {
    return Heat{number->range, scale, number->end};
  }
  // "1 c" is a cup, "200 C" a temperature; a letter alone must be plausible.
  if (!degrees && (scale == HeatScale::unknown || number->range.low < 15.0)) {
    return std::nullopt;
  }
  Heat heat{number->range, scale, end};
  if (const std::size_t mark = range_mark(text, end); mark != end) {  // "24 °C - 26 °C"
    if (const auto second = any_heat(text, mark);
        second && second->scale == scale && second->value.low > heat.value.low) {
      heat.value.high = second->value.high;
      heat.end = second->end;
    }
  }
  return heat;
}

std::optional<Size> any_size(const Text& text, std::size_t i) {
  std::array<double, 3> sides{};
  std::array<double, 3> units{};
  std::size_t count = 0;
  std::size_t at = i;
  while (count < 3) {
    const auto number = one_number(text, at);
    if (!number || number->article) {
      break;
    }
    sides[count] = number->range.low;
    at = number->end;
    if (const std::size_t mark = range_mark(text, at); mark != at && count == 0) {
      // "10-12 cm": the middle.
      const auto high = one_number(text, mark);
      if (high && !high->article && high->range.low > sides[0]) {
        sides[0] = 0.5 * (sides[0] + high->range.low);
        at = high->end;
      }
    }
    if (text[at].is('"')) {
      units[count] = 25.4;
      ++at;
    } else if (const Match unit = match(text, at, WordClass::length)) {
      units[count] = unit.phrase->value;
      at = unit.end + (text[unit.end].is('.') && !text[unit.end].spaced ? 1U : 0U);
    }
    ++count;
    const Match times = match(text, at, WordClass::times);
    const bool by = times && (one_number(text, times.end).has_value());
    if (!by) {
      break;
    }
    at = times.end;
  }
  double unit = 0.0;
  for (std::size_t n = count; n-- > 0;) {
    unit = units[n] > 0.0 ? units[n] : unit;
    units[n] = unit;
  }
  // "9x13 pan", "12 x 18": American baking tins in inches, when they are of their size.
  if (unit == 0.0 && count >= 2 && sides[0] >= 4.0 && sides[0] <= 20.0 && sides[1] <= 26.0) {
    unit = 25.4;
    units = {unit, unit, unit};
  }
  if (count == 0 || unit == 0.0 || sides[0] <= 0.0) {
    return std::nullopt;
  }
  return Size{sides[0] * (units[0] > 0.0 ? units[0] : unit), count > 1 ? sides[1] * unit : 0.0,
              count > 2 ? sides[2] * unit : 0.0, at};
}

}  // namespace maslin::reading
