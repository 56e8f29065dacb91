// Weights as what is at hand: so many mugs, cups and spoons.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "handon/handon.h"
#include "pantry/pantry.h"
#include "recipe/kitchen.h"

namespace maslin::handon {

/// A vessel, and the parts of it that a person can fill.
struct Vessel {
  std::string name;
  double ml = 0.0;
  std::vector<double> parts;  // ascending, each below 1: 1/4, 1/2, 3/4
  bool spoon = false;         // of at most 30 ml
};

enum class MeansFrom : std::uint8_t { kitchen, country, assumed };

/// What a kitchen measures with, largest vessel first.
struct Means {
  bool scale = false;
  std::vector<Vessel> vessels;
  MeansFrom from = MeansFrom::kitchen;
};

/// The kitchen's own; with no measures told, those of its country; else a metric cup and spoons.
/// A kitchen with vessels but no spoon gets none.
Means means_of(const Kitchen& kitchen, const Pantry& pantry);

/// How near an amount must come: flour, liquid, salt and yeast make or break a dough.
enum class Care : std::uint8_t { exact, free };
inline constexpr double k_exact_limit_pct = 4.0;
inline constexpr double k_free_limit_pct = 8.0;
double limit_pct(Care care);
Care care_for(const Ingredient& ingredient);

/// Salt, yeast, leavening and spices are taken with spoons alone.
bool by_spoon_alone(const Ingredient& ingredient);

struct MeasureAsk {
  double ml = 0.0;  // wanted
  Care care = Care::free;
  bool spoons_only = false;
};

/// Counts of vessels that add up to the wanted volume.
struct Combination {
  std::vector<MeasureCount> counts;  // largest first
  double ml = 0.0;
  double error_pct = 0.0;  // signed, of the wanted volume
  double effort = 0.0;     // fills, and the trouble of judging parts and of changing vessels
};

/// The easiest combination of at most three vessels within the limit; where there is none the
/// nearest. Nothing when there is no vessel that may be used. A search over small whole
/// numbers: every count of the larger vessels, the smallest taking what is left.
std::optional<Combination> combination(const std::vector<Vessel>& vessels, const MeasureAsk& ask);

/// A little of something exactly, by way of water: so many level spoons of it stirred into so many
/// of water, and so many of that taken.
struct Dilution {
  double spoons = 0.0;
  double water_spoons = 0.0;
  double take_spoons = 0.0;
  double error_pct = 0.0;  // signed, of the grams wanted
};

/// The shortest within 3 %, one or two spoons in at most 12 of water; nothing when there is none.
/// A gram of dissolved salt adds 0.33 ml to its water (10 % brine weighs 1.0707 g/ml: CRC
/// Handbook, from memory), a gram of dry yeast 0.75 ml (swollen cells; from memory).
/// `most_g_per_ml`: what a millilitre of the water takes up.
std::optional<Dilution> dilution(const Vessel& spoon, double g_per_ml, double added_ml_per_g,
                                 double grams, double most_g_per_ml);

/// The amount of an ingredient by these vessels, without its words; nothing when it cannot be
/// measured by volume (no density) or no vessel may be used.
std::optional<HouseholdAmount> measured(const Means& means, const Pantry& pantry,
                                        const Ingredient& ingredient, const std::string& packing,
                                        double grams);

}  // namespace maslin::handon
