#include "handon/power.h"

#include <algorithm>
#include <cmath>

#include "handon/embedded_table.h"
#include "quantity/table.h"

namespace maslin::handon {
namespace {

constexpr double k_minutes_an_hour = 60.0;
constexpr double k_whole_day_hours = 24.0;

struct OvenTimes {
  double preheat_minutes = 0.0;
  double reload_minutes = 0.0;
};

OvenTimes times_of(OvenKind kind) {
  const Table table(handon_data::embedded_table("oven_room.tsv"));
  for (std::size_t row = 0; row < table.size(); ++row) {
    if (table.cell(row, "oven") == oven_kind_name(kind)) {
      return {table.number(row, "preheat_minutes"), table.number(row, "reload_minutes")};
    }
  }
  return {};
}

}  // namespace

bool is_electric(OvenKind kind) {
  return kind == OvenKind::conventional || kind == OvenKind::fan || kind == OvenKind::toaster;
}

std::optional<std::string> power_note(const Kitchen& kitchen, int loads, double bake_minutes,
                                      const CardWords& words) {
  const double hours = kitchen.power_hours.value_or(k_whole_day_hours);
  const OvenKind kind = kitchen.oven.value_or(OvenKind::conventional);
  if (hours >= k_whole_day_hours || !is_electric(kind) || !(bake_minutes > 0.0)) {
    return std::nullopt;
  }
  const OvenTimes oven = times_of(kind);
  const double on = hours * k_minutes_an_hour;
  const double a_load = bake_minutes + oven.reload_minutes;
  const double needed = oven.preheat_minutes + loads * a_load;
  const auto minutes = [&](double of) { return words.number(std::round(of / 5.0) * 5.0, 0); };
  if (needed <= on) {
    return words.say("note_power_fits", {words.number(hours, 1), minutes(needed),
                                         minutes(std::floor((on - needed) / 5.0) * 5.0)});
  }
  const double a_day = std::max(0.0, std::floor((on - oven.preheat_minutes) / a_load));
  return a_day >= 1.0 ? words.say("note_power_part",
                                  {words.number(hours, 1), minutes(needed), words.number(a_day, 0)})
                      : words.say("note_power_none",
                                  {words.number(hours, 1), minutes(oven.preheat_minutes + a_load)});
}

}  // namespace maslin::handon
