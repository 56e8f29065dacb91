// What the kitchen's units measure, and how they compare.
#include <algorithm>
#include <array>

#include "reading/measure.h"

namespace maslin::reading {

UnitKind unit_kind(std::string_view unit) {
  constexpr std::array<std::string_view, 28> k_volumes{"ml",         "cl",
                                                       "dl",         "l",
                                                       "floz",       "tsp",
                                                       "tbsp",       "dessertspoon",
                                                       "cup",        "teacup",
                                                       "glass",      "pint",
                                                       "quart",      "gallon",
                                                       "gill",       "peck",
                                                       "mug",        "tin",
                                                       "coffee_cup", "breakfast_cup",
                                                       "bowl",       "mustard_glass",
                                                       "wineglass",  "tumbler",
                                                       "saltspoon",  "coffee_spoon",
                                                       "ladle",      "shot"};
  constexpr std::array<std::string_view, 9> k_containers{
      "packet", "cube", "cake", "tablet", "stick", "can", "jar", "bottle", "pot"};
  if (unit.empty()) {
    return UnitKind::none;
  }
  if (grams_in(unit) > 0) {
    return UnitKind::mass;
  }
  if (std::find(k_volumes.begin(), k_volumes.end(), unit) != k_volumes.end()) {
    return UnitKind::volume;
  }
  if (std::find(k_containers.begin(), k_containers.end(), unit) != k_containers.end()) {
    return UnitKind::container;
  }
  if (unit == "percent") {
    return UnitKind::percent;
  }
  if (unit == "part") {
    return UnitKind::part;
  }
  return unit == "piece" ? UnitKind::count : UnitKind::loose;
}

double fixed_ml(std::string_view unit) {
  // Litres exactly; the others by their customary ratios to each other (3 teaspoons a
  // tablespoon, 16 tablespoons a cup, 2 cups a pint), which hold in every country that
  // mixes them in one amount. Only ratios of these are ever used.
  constexpr std::array<std::pair<std::string_view, double>, 12> k_ml{{{"ml", 1.0},
                                                                      {"cl", 10.0},
                                                                      {"dl", 100.0},
                                                                      {"l", 1000.0},
                                                                      {"tsp", 5.0},
                                                                      {"tbsp", 15.0},
                                                                      {"floz", 30.0},
                                                                      {"cup", 240.0},
                                                                      {"pint", 480.0},
                                                                      {"quart", 960.0},
                                                                      {"gallon", 3840.0},
                                                                      {"peck", 7680.0}}};
  for (const auto& [name, ml] : k_ml) {
    if (name == unit) {
      return ml;
    }
  }
  return 0.0;
}

double unit_ratio(std::string_view first, std::string_view second) {
  const double g1 = grams_in(first);
  const double g2 = grams_in(second);
  const double ml1 = fixed_ml(first);
  const double ml2 = fixed_ml(second);
  return g1 > 0 && g2 > 0 ? g2 / g1 : ml1 > 0 && ml2 > 0 ? ml2 / ml1 : first == second ? 1.0 : 0.0;
}

}  // namespace maslin::reading
