#include "plan/clock_text.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstdint>

#include "quantity/instant.h"

namespace maslin {
namespace {

constexpr double k_minute_ms = 60000.0;
/// Years 1 to 9999.
constexpr double k_last_minute = 4.2e9;

std::string instant(double minutes) {
  return instant_text(static_cast<std::int64_t>(std::floor(minutes + 0.5)) *
                      static_cast<std::int64_t>(k_minute_ms));
}

constexpr double k_day_minutes = 1440.0;
constexpr std::array<std::string_view, 7> k_days{"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};

/// "7:30" or "07:30" as minutes of a day.
std::optional<double> minutes_of_day(std::string_view text) {
  const std::size_t colon = text.find(':');
  const auto number = [](std::string_view digits) {
    const bool all = !digits.empty() && digits.size() <= 2 &&
                     digits.find_first_not_of("0123456789") == std::string_view::npos;
    int out = -1;
    for (const char c : all ? digits : std::string_view()) {
      out = std::max(out, 0) * 10 + (c - '0');
    }
    return out;
  };
  if (colon == std::string_view::npos || text.size() - colon != 3) {
    return std::nullopt;
  }
  const int hours = number(text.substr(0, colon));
  const int minutes = number(text.substr(colon + 1));
  const bool right = hours >= 0 && hours < 24 && minutes >= 0 && minutes < 60;
  return right ? std::optional(60.0 * hours + minutes) : std::nullopt;
}

/// The day a word names, in days from today: 0 to 7; nothing when it names none.
std::optional<double> days_from(std::string_view word, double now) {
  std::string said;
  for (const char c : word) {
    said += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  if (said == "today" || said == "tomorrow") {
    return said == "today" ? 0.0 : 1.0;
  }
  constexpr std::array<std::string_view, 7> k_long{"sunday",   "monday", "tuesday", "wednesday",
                                                   "thursday", "friday", "saturday"};
  const std::string today = day_text(now).substr(0, 3);
  const auto at =
      static_cast<std::size_t>(std::find(k_days.begin(), k_days.end(), today) - k_days.begin());
  for (std::size_t ahead = 1; ahead <= k_long.size(); ++ahead) {
    const std::string_view name = k_long[(at + ahead) % k_long.size()];
    if (said == name || said == name.substr(0, 3)) {
      return static_cast<double>(ahead);
    }
  }
  return std::nullopt;
}

}  // namespace

bool can_be_told(double minutes) {
  return std::isfinite(minutes) && std::fabs(minutes) < k_last_minute;
}

std::string clock_text(double minutes) {
  return can_be_told(minutes) ? instant(minutes).substr(0, 16) : "never";
}

std::string hour_text(double minutes) {
  return can_be_told(minutes) ? instant(minutes).substr(11, 5) : "never";
}

std::string day_text(double minutes) {
  if (!can_be_told(minutes)) {
    return "never";
  }
  constexpr const char* k_months[] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                      "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
  const auto days = static_cast<int>(std::floor(std::floor(minutes + 0.5) / 1440.0));
  const std::chrono::sys_days date{std::chrono::days(days)};
  const std::chrono::year_month_day parts{date};
  return std::string(k_days[std::chrono::weekday(date).c_encoding()]) + " " +
         std::to_string(static_cast<unsigned>(parts.day())) + " " +
         k_months[static_cast<unsigned>(parts.month()) - 1];
}

ReadClock clock_from(std::string_view text) {
  const std::optional<WrittenInstant> written = instant_from(text);
  const std::string shown(text.substr(0, 60));
  if (!written) {
    return {std::nullopt,
            "\"" + shown + "\" is no date and time of day; write it like 2026-05-01T16:00."};
  }
  if (written->zoned) {
    return {std::nullopt, "\"" + shown +
                              "\" names a zone; give the time on the kitchen's clock, like "
                              "2026-05-01T16:00."};
  }
  return {static_cast<double>(written->ms) / k_minute_ms, ""};
}

ReadClock clock_said(std::string_view text, double now) {
  const std::size_t space = text.rfind(' ');
  const bool day_named = space != std::string_view::npos;
  const auto minutes = minutes_of_day(day_named ? text.substr(space + 1) : text);
  const double midnight = std::floor(now / k_day_minutes) * k_day_minutes;
  if (minutes && !day_named) {
    const double at = midnight + *minutes;
    return {at > now ? at : at + k_day_minutes, ""};
  }
  if (const auto days = minutes ? days_from(text.substr(0, space), now) : std::nullopt) {
    return {midnight + *days * k_day_minutes + *minutes, ""};
  }
  ReadClock out = clock_from(text);
  if (!out.minutes) {
    out.problem += " Or say it from here: 16:00, tomorrow 7:30, Sat 12:00.";
  }
  return out;
}

}  // namespace maslin
