// What each ingredient counts for as water, and as flour, in a dough.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <string_view>

#include "pantry/ingredient.h"

namespace maslin {

/// Whether an ingredient's mass is among the 100 of the baker's percentages.
enum class CountsAsFlour : std::uint8_t {
  no,
  yes,
  by_solids,  // a starter: its dry matter as flour of 14 % moisture
  by_starch   // a cooked flour paste: its starch as white flour
};

/// Water equivalents, g of free water per g of the component (or of the whole item).
/// Alcohol counts as water.
struct HydrationCoefficients {
  CountsAsFlour flour = CountsAsFlour::no;
  double water = 1.0;
  double sugar = 0.0;
  double fat = 0.0;
  double protein = 0.0;
  double starch = 0.0;
  double fibre = 0.0;
  double whole = 0.0;
  double buffer_mmol_per_kg_ph = 0.0;
};

/// The table data/hydration.tsv, by id and by kind.
class HydrationTable {
 public:
  explicit HydrationTable(std::string_view table);
  /// The row of the ingredient: a starter's, else by id, variant, kind, default.
  const HydrationCoefficients& of(const Ingredient& ingredient) const;

 private:
  std::map<std::string, HydrationCoefficients, std::less<>> rows_;
  HydrationCoefficients otherwise_;
};

/// Water equivalent of a gram of the item beside its components: the row's `whole`, but
/// for bran, germ and flakes whose absorption the pantry knows, that absorption.
double whole_equivalent(const Ingredient& ingredient, const HydrationCoefficients& coefficients);

/// Share of the ingredient's mass that is flour of 14 % moisture, 0..1.
double flour_share(const Ingredient& ingredient, const HydrationCoefficients& coefficients);

}  // namespace maslin
