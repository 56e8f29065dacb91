#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "recipe/prices.h"
#include "recipe/recipe.h"

namespace maslin {

/// none: a pan with a lid on a flame. A steamer sets its own heat, that of boiling water there.
enum class OvenKind : std::uint8_t {
  conventional,
  fan,
  gas,
  wood,
  charcoal_drum,
  pot,
  none,
  steamer,
  toaster
};
std::string_view oven_kind_name(OvenKind kind);
std::optional<OvenKind> oven_kind_from(std::string_view name);

/// A measuring means: a vessel with its volume.
struct OwnMeasure {
  std::string name;
  double ml = 0.0;
  bool operator==(const OwnMeasure&) const = default;
};

/// One thing that trials taught of a kitchen.
struct LearntUnknown {
  std::string name;  // "oven_offset_k"; what belongs to a bag: "flour_absorption@plain_flour"
  /// The distribution that the kitchen's description alone gave, by its two parameters; when
  /// the description changes, what was learnt against it is set aside.
  double described_a = 0.0;
  double described_b = 0.0;
  double mean = 0.0;  // of the value, or of its logarithm where it is lognormal
  bool operator==(const LearntUnknown&) const = default;
};

/// What closed trials taught of a kitchen, as one joint normal distribution.
struct KitchenLessons {
  std::vector<LearntUnknown> unknowns;
  std::vector<double> covariance;  // row by row
  int trials = 0;                  // that taught it
  bool operator==(const KitchenLessons&) const = default;
};

/// Hours of every day, minutes since midnight; past midnight where `to` is the smaller.
struct DailyHours {
  double from_minutes = 0.0;
  double to_minutes = 1440.0;
  bool operator==(const DailyHours&) const = default;
};

/// "6-23", "06:00-23:00", "22:30 to 6": nothing when it is no such thing.
std::optional<DailyHours> daily_hours_from(std::string_view text);
/// "06:00-23:00".
std::string daily_hours_text(const DailyHours& hours);

/// "7", "06:30", "24": minutes since midnight; nothing when it is no hour of a day.
std::optional<double> hour_of_day_from(std::string_view text);
/// "06:30".
std::string hour_of_day_text(double minutes);

/// The room at an hour, minutes since midnight.
struct RoomPoint {
  double minutes = 0.0;
  double celsius = 0.0;
  bool operator==(const RoomPoint&) const = default;
};

/// Where the recipe is baked. Every field may be unknown; an unknown is drawn from a
/// wide distribution by forecast/.
struct Kitchen {
  std::string name;
  std::string country;
  std::optional<double> room_celsius;  // by day; the mean where only hours are told
  std::optional<double> room_night_celsius;
  std::vector<RoomPoint> room_by_hour;  // by their hour, instead of a night
  std::optional<double> humidity_pct;
  std::optional<double> altitude_m;
  std::optional<OvenKind> oven;
  std::optional<double> oven_offset_celsius;
  std::vector<Tin> tins;
  bool scale = false;
  std::vector<OwnMeasure> measures;
  std::optional<double> flour_protein_pct;
  std::string yeast_kind;
  std::optional<double> yeast_age_months;
  std::vector<std::string> at_hand;
  std::optional<bool> fridge;
  std::optional<double> power_hours;   // a day that the mains are on; unknown = always
  std::vector<std::string> equipment;  // what else there is: steamer, lidded_pan
  std::optional<DailyHours> awake;     // when there are hands
  std::vector<DailyHours> power;       // which hours those are, where it is known
  PriceList prices;
  KitchenLessons learnt;
  bool operator==(const Kitchen&) const = default;
};

}  // namespace maslin
