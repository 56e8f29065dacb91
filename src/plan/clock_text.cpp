#include "plan/clock_text.h"

#include <chrono>
#include <cmath>
#include <cstdint>

#include "quantity/instant.h"

namespace maslin {
namespace {

constexpr double k_minute_ms = 60000.0;
/// Years 1 to 9999.
constexpr double k_last_minute = 4.2e9;

bool can_be_told(double minutes) {
  return std::isfinite(minutes) && std::fabs(minutes) < k_last_minute;
}

std::string instant(double minutes) {
  return instant_text(static_cast<std::int64_t>(std::floor(minutes + 0.5)) *
                      static_cast<std::int64_t>(k_minute_ms));
}

}  // namespace

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
  constexpr const char* k_days[] = {"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
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

}  // namespace maslin
