// What the bake would do with pieces of another mass, another tin or other bakeware, another
// setting, two trays, from the fridge or the freezer, baked twice, or done by another colour; and,
// backwards, the setting for a colour.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "forecast/forecast.h"

namespace maslin {

enum class BakeWhatIfGroup : std::uint8_t { mass, tin, bakeware, oven, load, start, colour };
std::string_view bake_what_if_group_name(BakeWhatIfGroup group);

struct BakeWhatIf {
  BakeWhatIfGroup group = BakeWhatIfGroup::mass;
  std::string what;      // "a quarter heavier, 100 g", "the oven at 200 °C"
  double minutes = 0.0;  // to done, of a second bake from when it is in again; nothing sensible
                         // where `problem` is set
  double core_celsius = 0.0;
  double lightness = 0.0;  // L* of the open crust
  double weight_loss_pct = 0.0;
  std::string problem;  // one sentence where it does not get done
};

struct BakeWhatIfs {
  std::string problem;  // one sentence when there is nothing to say
  BakeWhatIf as_it_is;
  std::vector<BakeWhatIf> others;
  /// The setting at which the crust is golden just when the core is done: its first phase, °C.
  struct Setting {
    std::string problem;
    double celsius = 0.0;
    double minutes = 0.0;
  };
  std::optional<Setting> for_golden;
  /// The last minute before it has lost 12 % of its dough, from which on bread counts as dry (a
  /// bakery's page, read: 12 to 15 is overbaked). Nothing where it is not reached in four hours.
  std::optional<double> last_minute_before_dry;
};

/// Of the draw in the middle of the first batch's eight, so that all are the same kitchen's.
BakeWhatIfs bake_what_ifs(const BatchOutcome& first);

}  // namespace maslin
