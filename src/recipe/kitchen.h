#pragma once

#include <optional>
#include <string>
#include <vector>

#include "recipe/recipe.h"

namespace maslin {

enum class OvenKind : std::uint8_t { conventional, fan, gas, wood, charcoal_drum, pot, none };
std::string_view oven_kind_name(OvenKind kind);
std::optional<OvenKind> oven_kind_from(std::string_view name);

/// A measuring means: a vessel with its volume.
struct OwnMeasure {
  std::string name;
  double ml = 0.0;
  bool operator==(const OwnMeasure&) const = default;
};

/// Where the recipe is baked. Every field may be unknown; an unknown is drawn from a
/// wide distribution by forecast/.
struct Kitchen {
  std::string name;
  std::string country;
  std::optional<double> room_celsius;
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
  std::vector<std::string> equipment;  // what else there is: toaster_oven, steamer, lidded_pan
  bool operator==(const Kitchen&) const = default;
};

}  // namespace maslin
