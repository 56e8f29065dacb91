// Times of the kitchen's clock as text. Minutes since 1970-01-01T00:00 on that clock,
// whatever its zone.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace maslin {

/// Whether the moment lies in a year that has a date, or the length within some thousands of
/// years: not where a time is infinite or past all sense.
bool can_be_told(double minutes);
/// "2026-05-01T16:00", to the nearest minute; "never" where it cannot be told.
std::string clock_text(double minutes);
/// "16:00".
std::string hour_text(double minutes);
/// "Fri 1 May".
std::string day_text(double minutes);

/// A moment as written, "2026-05-01T16:00" (a space may stand for the T), on the kitchen's
/// clock; or the sentence that says what is wrong: no such date, or a zone.
struct ReadClock {
  std::optional<double> minutes;
  std::string problem;
};
ReadClock clock_from(std::string_view text);

/// A moment as it is said at `now`: "16:00" is the next such, "today 16:00", "tomorrow 7:30",
/// "Sat 12:00" the next Saturday's; or as clock_from reads it.
ReadClock clock_said(std::string_view text, double now);

}  // namespace maslin
