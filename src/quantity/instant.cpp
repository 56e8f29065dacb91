#include "quantity/instant.h"

#include <chrono>

namespace maslin {
namespace {

constexpr std::int64_t k_minute_ms = 60 * 1000;
constexpr std::int64_t k_day_ms = 24 * 60 * k_minute_ms;

std::string padded(std::int64_t value, std::size_t width) {
  const std::string digits = std::to_string(value);
  return std::string(digits.size() < width ? width - digits.size() : 0, '0') + digits;
}

/// Takes a written moment apart from its front.
class Cursor {
 public:
  explicit Cursor(std::string_view text) : rest_(text) {}

  /// Exactly `width` digits, at most `most`.
  bool digits(std::size_t width, int most, int& value) {
    value = 0;
    if (rest_.size() < width) {
      return false;
    }
    for (std::size_t i = 0; i < width; ++i) {
      if (rest_[i] < '0' || rest_[i] > '9') {
        return false;
      }
      value = value * 10 + (rest_[i] - '0');
    }
    rest_.remove_prefix(width);
    return value <= most;
  }
  bool take(char c) {
    const bool there = !rest_.empty() && rest_.front() == c;
    rest_.remove_prefix(there ? 1 : 0);
    return there;
  }
  bool at_end() const { return rest_.empty(); }

 private:
  std::string_view rest_;
};

/// ".1", ".12" or ".123" of a second.
bool fraction_ms(Cursor& at, int& ms) {
  int scale = 100;
  int digit = 0;
  for (int n = 0; n < 3 && at.digits(1, 9, digit); ++n, scale /= 10) {
    ms += digit * scale;
  }
  return scale < 100;
}

}  // namespace

std::string instant_text(std::int64_t ms) {
  const std::int64_t day = ms >= 0 ? ms / k_day_ms : -((-ms + k_day_ms - 1) / k_day_ms);
  const std::int64_t in_day = ms - day * k_day_ms;
  const std::chrono::year_month_day date{std::chrono::sys_days(std::chrono::days(day))};
  const std::int64_t minute = in_day / k_minute_ms;
  const std::int64_t rest = in_day % k_minute_ms;
  return padded(static_cast<int>(date.year()), 4) + "-" +
         padded(static_cast<unsigned>(date.month()), 2) + "-" +
         padded(static_cast<unsigned>(date.day()), 2) + "T" + padded(minute / 60, 2) + ":" +
         padded(minute % 60, 2) + ":" + padded(rest / 1000, 2) + "." + padded(rest % 1000, 3) + "Z";
}

std::optional<WrittenInstant> instant_from(std::string_view text) {
  Cursor at(text);
  int year = 0;
  int month = 0;
  int day = 0;
  int hour = 0;
  int minute = 0;
  int second = 0;
  int ms = 0;
  if (!at.digits(4, 9999, year) || !at.take('-') || !at.digits(2, 12, month) || !at.take('-') ||
      !at.digits(2, 31, day) || !(at.take('T') || at.take(' ')) || !at.digits(2, 23, hour) ||
      !at.take(':') || !at.digits(2, 59, minute)) {
    return std::nullopt;
  }
  if (at.take(':') && (!at.digits(2, 59, second) || (at.take('.') && !fraction_ms(at, ms)))) {
    return std::nullopt;
  }
  WrittenInstant out;
  std::int64_t zone_minutes = 0;
  if (at.take('Z')) {
    out.zoned = true;
  } else if (const bool east = at.take('+'); east || at.take('-')) {
    int zone_hour = 0;
    int zone_minute = 0;
    if (!at.digits(2, 15, zone_hour) || (at.take(':') && !at.digits(2, 59, zone_minute))) {
      return std::nullopt;
    }
    zone_minutes = (east ? 1 : -1) * (60 * zone_hour + zone_minute);
    out.zoned = true;
  }
  const std::chrono::year_month_day date{std::chrono::year(year),
                                         std::chrono::month(static_cast<unsigned>(month)),
                                         std::chrono::day(static_cast<unsigned>(day))};
  if (!at.at_end() || !date.ok() || year < 1) {
    return std::nullopt;
  }
  const std::int64_t days = std::chrono::sys_days(date).time_since_epoch().count();
  out.ms = days * k_day_ms + (hour * 60 + minute - zone_minutes) * k_minute_ms + second * 1000 + ms;
  return out;
}

}  // namespace maslin
