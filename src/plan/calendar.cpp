#include "plan/calendar.h"

#include <algorithm>
#include <cmath>

#include "numerics/draws.h"
#include "plan/clock_text.h"
#include "quantity/number_text.h"

namespace maslin {
namespace {

/// RFC 5545, 3.3.11: backslash, semicolon, comma and line breaks are escaped.
std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '\\' || c == ';' || c == ',') {
      out += '\\';
      out += c;
    } else if (c == '\n') {
      out += "\\n";
    } else if (static_cast<unsigned char>(c) >= 0x20 && c != 0x7f) {
      out += c;  // other control characters are not allowed
    }
  }
  return out;
}

/// RFC 5545, 3.1: no line over 75 octets; never cut inside a letter of several bytes.
std::string folded(const std::string& line) {
  constexpr std::size_t k_octets = 75;
  std::string out;
  std::size_t at = 0;
  std::size_t room = k_octets;
  while (line.size() - at > room) {
    std::size_t cut = at + room;
    while (cut > at + 1 && (static_cast<unsigned char>(line[cut]) & 0xC0U) == 0x80U) {
      --cut;
    }
    out += line.substr(at, cut - at) + "\r\n ";
    at = cut;
    room = k_octets - 1;
  }
  return out + line.substr(at) + "\r\n";
}

/// "20260501T160000": a time without a zone.
std::string floating(double minutes) {
  std::string out;
  for (const char c : clock_text(minutes)) {
    if (c != '-' && c != ':') {
      out += c;
    }
  }
  return out + "00";
}

std::string hexadecimal(std::uint64_t value) {
  constexpr char k_digits[] = "0123456789abcdef";
  std::string out;
  for (int shift = 60; shift >= 0; shift -= 4) {
    out += k_digits[(value >> static_cast<unsigned>(shift)) & 15U];
  }
  return out;
}

std::string length_words(const Band& minutes) {
  const std::string low = number_text(minutes.p10, 0);
  const std::string high = number_text(minutes.p90, 0);
  const std::string middle = number_text(minutes.p50, 0) + " min";
  return low == high ? middle : middle + ", 8 times in 10 between " + low + " and " + high;
}

std::string event(const DayPlan& plan, const PlannedStep& step) {
  const std::string summary = (plan.title.empty() ? "" : plan.title + ": ") + step.name;
  std::string about = length_words(step.minutes);
  about += step.note.empty() ? "" : "\n" + step.note;
  // The same step of the same plan keeps its name in the calendar when it moves.
  const std::uint64_t key = name_key(plan.title + "/" + step.name);
  std::string out = folded("BEGIN:VEVENT");
  out += folded("UID:" + hexadecimal(key) + "@maslin");
  out += folded("DTSTAMP:" + floating(plan.begin) + "Z");
  out += folded("DTSTART:" + floating(step.start));
  out += folded("DTEND:" + floating(std::max(step.end, step.start + 1.0)));
  out += folded("SUMMARY:" + escaped(summary));
  out += folded("DESCRIPTION:" + escaped(about));
  out += folded(step.hands ? "TRANSP:OPAQUE" : "TRANSP:TRANSPARENT");
  if (step.hands) {
    out += folded("BEGIN:VALARM") + folded("ACTION:DISPLAY") + folded("TRIGGER:PT0S") +
           folded("DESCRIPTION:" + escaped(summary)) + folded("END:VALARM");
  }
  return out + folded("END:VEVENT");
}

}  // namespace

std::string plan_to_calendar(const DayPlan& plan) {
  std::string out = folded("BEGIN:VCALENDAR") + folded("VERSION:2.0") +
                    folded("PRODID:-//maslin//plan//EN") + folded("CALSCALE:GREGORIAN");
  for (const PlannedStep& step : plan.steps) {
    if (step.state != StepState::done && std::isfinite(step.end)) {
      out += event(plan, step);
    }
  }
  return out + folded("END:VCALENDAR");
}

}  // namespace maslin
