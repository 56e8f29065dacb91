// A room through the day: one figure, or a figure by day and another at night, or points by
// the hour. What a kitchen says in any of these ways becomes one curve.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "recipe/kitchen.h"

namespace maslin {

/// How far the room stands above its one figure, hour by hour, the same every day.
struct RoomDay {
  /// Minutes since midnight, rising, within the day, and K above the figure; straight between
  /// the points and from the last round midnight to the first. None: the same all day.
  std::vector<RoomPoint> above;

  bool changes() const { return !above.empty(); }
  /// K above the figure at a moment, minutes since some midnight, before or after it.
  double at(double minutes) const;
};

/// The curve of a kitchen. A night temperature is held from 2 to 6, and the day's from 8 to 22,
/// when most homes are heated: common practice, no source.
RoomDay room_day(const Kitchen& kitchen);

/// The mean over the day of points by the hour, C; there must be one at least.
double room_mean_celsius(const std::vector<RoomPoint>& by_hour);

/// Puts the points in order; the figure of a room told by the hour alone is their mean. False
/// where an hour comes twice, a night stands beside points, or a night beside no figure.
bool settle_room(Kitchen& kitchen);

/// "21", "21, 14 at night", "16 at 7:00, 22 at 13, 18 at 23": what is said of the room in
/// words, put into the kitchen. False, and nothing changed, when it is no such thing or a
/// temperature is outside -10 to 50 C.
bool read_room(std::string_view words, Kitchen& kitchen);
/// The room in words that read_room takes back; empty where nothing is known.
std::string room_text(const Kitchen& kitchen);

}  // namespace maslin
