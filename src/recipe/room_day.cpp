#include "recipe/room_day.h"

#include <algorithm>
#include <cmath>

#include "quantity/number_text.h"

namespace maslin {
namespace {

constexpr double k_day_minutes = 1440.0;
constexpr double k_coldest_celsius = -10.0;
constexpr double k_hottest_celsius = 50.0;

// When a room with a night of its own changes, minutes since midnight.
constexpr double k_night_from = 2.0 * 60.0;
constexpr double k_night_to = 6.0 * 60.0;
constexpr double k_day_from = 8.0 * 60.0;
constexpr double k_day_to = 22.0 * 60.0;

std::string_view trimmed(std::string_view text) {
  const std::size_t from = text.find_first_not_of(" \t\r\n");
  return from == std::string_view::npos
             ? std::string_view()
             : text.substr(from, text.find_last_not_of(" \t\r\n") - from + 1);
}

/// "21", "21 C", "21 °C", "70 F"; nothing when it is no temperature of a room.
std::optional<double> celsius_from(std::string_view text) {
  text = trimmed(text);
  const std::size_t end = text.find_first_not_of("0123456789.-");
  const auto figure = number_from(text.substr(0, end));
  std::string_view unit = end == std::string_view::npos ? "" : trimmed(text.substr(end));
  constexpr std::string_view k_degree = "°";
  if (unit.starts_with(k_degree)) {
    unit.remove_prefix(k_degree.size());
  }
  const bool fahrenheit = unit == "F" || unit == "f";
  if (!figure || !(fahrenheit || unit.empty() || unit == "C" || unit == "c")) {
    return std::nullopt;
  }
  const double celsius = fahrenheit ? (*figure - 32.0) / 1.8 : *figure;
  return celsius >= k_coldest_celsius && celsius <= k_hottest_celsius ? std::optional(celsius)
                                                                      : std::nullopt;
}

/// The two ends of "14 at 23:00"; the second is empty without an "at".
std::pair<std::string_view, std::string_view> at_ends(std::string_view clause) {
  constexpr std::string_view k_at = " at ";
  const std::size_t at = clause.find(k_at);
  return at == std::string_view::npos
             ? std::pair{clause, std::string_view()}
             : std::pair{clause.substr(0, at), trimmed(clause.substr(at + k_at.size()))};
}

}  // namespace

double RoomDay::at(double minutes) const {
  if (above.empty()) {
    return 0.0;
  }
  const double of_day = minutes - k_day_minutes * std::floor(minutes / k_day_minutes);
  const auto after =
      std::upper_bound(above.begin(), above.end(), of_day,
                       [](double moment, const RoomPoint& one) { return moment < one.minutes; });
  RoomPoint from = after == above.begin() ? above.back() : *(after - 1);
  RoomPoint to = after == above.end() ? above.front() : *after;
  from.minutes -= after == above.begin() ? k_day_minutes : 0.0;
  to.minutes += after == above.end() ? k_day_minutes : 0.0;
  const double share = (of_day - from.minutes) / std::max(to.minutes - from.minutes, 1e-9);
  return from.celsius + share * (to.celsius - from.celsius);
}

RoomDay room_day(const Kitchen& kitchen) {
  RoomDay out;
  if (!kitchen.room_celsius) {
    return out;
  }
  const double figure = *kitchen.room_celsius;
  for (const RoomPoint& one : kitchen.room_by_hour) {
    out.above.push_back({one.minutes, one.celsius - figure});
  }
  if (out.above.empty() && kitchen.room_night_celsius) {
    const double night = *kitchen.room_night_celsius - figure;
    out.above = {{k_night_from, night}, {k_night_to, night}, {k_day_from, 0.0}, {k_day_to, 0.0}};
  }
  return out;
}

double room_mean_celsius(const std::vector<RoomPoint>& by_hour) {
  double area = 0.0;
  for (std::size_t i = 0; i < by_hour.size(); ++i) {
    const bool last = i + 1 == by_hour.size();
    const RoomPoint& next = by_hour[last ? 0 : i + 1];
    const double length = next.minutes + (last ? k_day_minutes : 0.0) - by_hour[i].minutes;
    area += length * 0.5 * (by_hour[i].celsius + next.celsius);
  }
  return area / k_day_minutes;
}

bool read_room(std::string_view words, Kitchen& kitchen) {
  Kitchen read;
  while (!words.empty()) {
    const std::size_t end = words.find_first_of(",;");
    const auto [degrees, when] = at_ends(trimmed(words.substr(0, end)));
    words.remove_prefix(end == std::string_view::npos ? words.size() : end + 1);
    const auto celsius = celsius_from(degrees);
    const auto hour = when.empty() || when == "night" ? std::nullopt : hour_of_day_from(when);
    if (!celsius || (!when.empty() && when != "night" && !hour)) {
      return false;
    }
    if (hour) {
      read.room_by_hour.push_back({*hour, *celsius});
    } else {
      std::optional<double>& place = when.empty() ? read.room_celsius : read.room_night_celsius;
      if (place) {
        return false;
      }
      place = celsius;
    }
  }
  if (!settle_room(read)) {
    return false;
  }
  kitchen.room_celsius = read.room_celsius;
  kitchen.room_night_celsius = read.room_night_celsius;
  kitchen.room_by_hour = std::move(read.room_by_hour);
  return true;
}

bool settle_room(Kitchen& kitchen) {
  std::vector<RoomPoint>& points = kitchen.room_by_hour;
  for (RoomPoint& one : points) {
    one.minutes -= one.minutes >= k_day_minutes ? k_day_minutes : 0.0;
  }
  std::sort(points.begin(), points.end(),
            [](const RoomPoint& a, const RoomPoint& b) { return a.minutes < b.minutes; });
  const bool twice =
      std::adjacent_find(points.begin(), points.end(), [](const RoomPoint& a, const RoomPoint& b) {
        return a.minutes == b.minutes;
      }) != points.end();
  if (!points.empty() && !kitchen.room_celsius) {
    kitchen.room_celsius = room_mean_celsius(points);
  }
  return !twice && !(kitchen.room_night_celsius && !points.empty()) &&
         kitchen.room_celsius.has_value();
}

std::string room_text(const Kitchen& kitchen) {
  std::string out;
  for (const RoomPoint& one : kitchen.room_by_hour) {
    out += (out.empty() ? "" : ", ") + number_text(one.celsius, 1) + " at " +
           hour_of_day_text(one.minutes);
  }
  if (out.empty() && kitchen.room_celsius) {
    out = number_text(*kitchen.room_celsius, 1);
    if (kitchen.room_night_celsius) {
      out += ", " + number_text(*kitchen.room_night_celsius, 1) + " at night";
    }
  }
  return out;
}

}  // namespace maslin
