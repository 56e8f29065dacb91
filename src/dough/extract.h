// Fruit and vegetables blended, strained, pressed, washed, reduced: what comes out.
//
// A food is its liquor (water with what is dissolved) and its solids. Straining keeps back
// some liquor with the solids; washing pours water over them and presses again. The result
// is portions of liquor and water for each draw, so that a dough takes it like anything else.
#pragma once

#include <cstdint>
#include <deque>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "numerics/lanes.h"
#include "properties/portion.h"
#include "recipe/recipe.h"

namespace maslin {

enum class Heating : std::uint8_t { raw, heated };  // heated: 85 C or more for five minutes

/// One way of parting liquor from pulp, a row of data/pressing.tsv.
struct Pressing {
  std::string name;                // none, press, cloth, sieve, gravity
  double holdup_g_per_g = 0.0;     // liquor kept per g of insoluble solids
  double holdup_spread = 0.0;      // relative
  double through_share = 1.0;      // of the solids that go through
  std::vector<std::string> words;  // by which a step's text is known
};

/// What is known of a food for straining, a row of data/extracts.tsv.
struct ExtractFigures {
  std::optional<double> insoluble;
  double pectin = 0.0;
  double bitter_mg_per_kg = 0.0;
  double bitter_threshold_mg_per_l = 0.0;
};

struct ExtractTables {
  std::vector<Pressing> pressings;
  std::map<std::string, ExtractFigures, std::less<>> foods;
  /// The pressing of that name, else the first (none).
  const Pressing& pressing(std::string_view name) const;
};
ExtractTables extract_tables();

/// One food parted into liquor and solids; liquor_share g of liquor per g of food.
struct PartedFood {
  Ingredient liquor;
  Ingredient solids;
  double liquor_share = 1.0;
  ExtractFigures figures;
};
PartedFood part_food(const Ingredient& food, const ExtractTables& tables, Heating heating);

/// What is not known of a straining; medians by default. Spreads: holdup as the pressing's
/// row, insoluble solids 0.2, washing 0.85 to 1 (common practice, no source).
struct ExtractUnknowns {
  Lanes holdup_scale = 1.0;
  Lanes insoluble_scale = 1.0;
  Lanes wash_efficiency = 0.92;
};

struct ExtractSetting {
  Pressing pressing;
  std::vector<double> washes_g;            // water poured over the pulp, one after another
  double roasted_share = 1.0;              // of the foods' mass left after roasting
  double reduced_share = 1.0;              // of the extract's mass left after boiling down
  std::optional<double> measured_yield_g;  // weighed before boiling down; rules over the model
};

/// An extract of given foods, g in each lane.
struct Extract {
  Lanes yield_g;                // after boiling down
  Lanes pulp_g;                 // left behind, wet
  std::vector<Lanes> liquor_g;  // that passed, one for each food
  std::vector<Lanes> solids_g;  // that passed, one for each food
  Lanes water_g;                // of washing that passed, less what roasting and boiling took
  Lanes recovery;               // share of the foods' soluble solids in the extract
  Lanes soluble_solids_pct;     // of the extract ("Brix")
  Lanes acid_pct;
  Lanes pectin_pct;
  Lanes bitterness;      // times the threshold; above 1 it is tasted, later than made
  Lanes holdup_g_per_g;  // as assumed, or as the measured yield implies
};

/// Runs the straining. `grams` has one entry for each food.
Extract make_extract(const std::deque<PartedFood>& foods, std::span<const Lanes> grams,
                     const ExtractSetting& setting, const ExtractUnknowns& unknowns);

/// `used_g` grams of the extract as portions; `foods` and `water` must outlive them.
Portions extract_portions(const std::deque<PartedFood>& foods, const Extract& extract,
                          const Ingredient& water, const Lanes& used_g);

/// The setting a recipe's part describes by its steps ("squeeze through a cloth", "boil
/// down to half") and by lines whose note pours water over the pulp.
ExtractSetting extract_setting_of(const Part& part, const ExtractTables& tables);
/// Whether the part's steps heat it enough to kill proteases.
Heating heating_of(const Part& part);

}  // namespace maslin
