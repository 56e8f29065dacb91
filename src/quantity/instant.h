#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace maslin {

/// A moment as text in ISO 8601, UTC, to the millisecond: "2026-05-01T14:03:07.123Z".
/// Argument: milliseconds since 1970-01-01T00:00Z, years 1 to 9999.
std::string instant_text(std::int64_t ms);

/// A moment as written: "2026-05-01T14:03", seconds and ".123" if one likes, and "Z" or
/// "+01:00" for the zone; a space may stand for the T.
struct WrittenInstant {
  std::int64_t ms = 0;  // since 1970-01-01T00:00, in UTC if `zoned`, else on the local clock
  bool zoned = false;
};
/// Nothing when the text is anything else, or no date or time of day.
std::optional<WrittenInstant> instant_from(std::string_view text);

}  // namespace maslin
