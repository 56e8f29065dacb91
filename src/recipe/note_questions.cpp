#include "recipe/note_questions.h"

#include <cmath>

#include "quantity/number_text.h"
#include "quantity/units.h"

namespace maslin {
namespace {

bool within(double value, const UsualRange& range) {
  return value >= range.low && value <= range.high;
}

/// "86", "1.9", "0.25".
std::string figure(double value) {
  return number_text(value, std::fabs(value) < 1.0 ? 2 : std::fabs(value) < 10.0 ? 1 : 0);
}

constexpr double k_many_minutes = 180.0;

std::string time_words(double minutes) {
  constexpr double k_hour = 60.0;
  return minutes > k_many_minutes ? figure(minutes / k_hour) + " h" : figure(minutes) + " min";
}

/// "a bake is usually 3 to 180 min", "a rise is usually 8 min to 36 h".
std::string range_words(const UsualRange& range) {
  const bool long_time = range.unit == "min" && range.high > k_many_minutes;
  return range.words + " is usually " + (long_time ? time_words(range.low) : figure(range.low)) +
         " to " + (long_time ? time_words(range.high) : figure(range.high) + " " + range.unit);
}

/// Asks about a time that is not usual; `value` moves with it when it is the time.
void ask_time(Observation& one, const UsualRange& range) {
  constexpr double k_hour = 60.0;
  if (!one.at_minutes || within(*one.at_minutes, range)) {
    return;
  }
  const double minutes = *one.at_minutes;
  for (const double other : {minutes * k_hour, minutes / k_hour}) {
    if (within(other, range)) {
      const std::string meant = other > minutes ? figure(minutes) + " h" : figure(other) + " min";
      one.question = "After " + time_words(minutes) + "? If you meant " + meant +
                     ", write it so: " + range_words(range) + ".";
      one.meant_minutes = other;
      if (one.kind == ObservationKind::minutes_done) {
        one.meant = other;
      }
      return;
    }
  }
  one.question = "After " + time_words(minutes) + "? " + range_words(range) + ".";
}

}  // namespace

void ask_temperature(Observation& one, Scale scale, const NoteWords& words) {
  const UsualRange range = words.usual(observation_kind_name(one.kind));
  if (within(one.value, range)) {
    return;
  }
  const bool celsius = scale == Scale::celsius;
  const double written = celsius ? one.value : in_fahrenheit(Temperature{one.value + 273.15});
  const double other =
      celsius ? std::round(100.0 * in_celsius(fahrenheit(written))) / 100.0 : written;
  one.question = figure(written) + (celsius ? " °C" : " °F") + "? ";
  if (within(other, range)) {
    one.question +=
        "If you meant " + figure(written) + (celsius ? " °F" : " °C") + ", write it so: ";
    one.meant = other;
  }
  one.question += range_words(range) + ".";
}

void ask_usual(Observation& one, const NoteWords& words) {
  if (one.kind == ObservationKind::score) {
    if (one.value > one.out_of) {
      one.question = figure(one.value) + " out of " + figure(one.out_of) + "? Write it anew.";
    }
    return;
  }
  if (one.kind == ObservationKind::glaze && !(one.value > 0.0)) {
    return;
  }
  if (one.kind == ObservationKind::minutes_done) {
    ask_time(one, words.usual("minutes_done"));
    return;
  }
  const UsualRange range = words.usual(observation_kind_name(one.kind));
  if (range.high > range.low && !within(one.value, range)) {
    one.question = figure(one.value) + " " + range.unit + "? " + range_words(range) + ".";
  } else if (one.kind == ObservationKind::volume_ratio && one.value > 1.3 &&
             one.bound != Bound::below) {
    ask_time(one, words.usual("prove_minutes"));
  }
}

void ask_clock(Observation& one, double minutes) {
  constexpr double k_hour = 60.0;
  constexpr double k_longest_as_hours = 240.0;
  const std::string stated = figure(std::floor(minutes / k_hour)) + ":" +
                             (std::fmod(minutes, k_hour) < 10.0 ? "0" : "") +
                             figure(std::fmod(minutes, k_hour));
  one.question = stated +
                 " by the clock, or that long? Write how many minutes it had been since the rise "
                 "or the bake began.";
  if (minutes <= k_longest_as_hours) {
    one.meant_minutes = minutes;
  }
}

void ask_masses(std::vector<Observation>& observations, const NoteWords& words) {
  const UsualRange range = words.usual("loss_pct");
  const Observation* before = nullptr;
  for (Observation& one : observations) {
    if (one.kind == ObservationKind::mass_before_grams) {
      before = &one;
    }
    if (one.kind != ObservationKind::mass_after_grams || before == nullptr ||
        !one.question.empty() || before->value <= 0.0) {
      continue;
    }
    const double loss_pct = 100.0 * (1.0 - one.value / before->value);
    if (!within(loss_pct, range)) {
      one.question = figure(before->value) + " g before and " + figure(one.value) + " g after? " +
                     range_words(range) + " of the mass.";
    }
  }
}

}  // namespace maslin
