// From a recipe's steps to what the models run: how it is mixed, how it proves, how it
// is baked. What the text leaves out is assumed, and every assumption is a doubt.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "bake/piece.h"
#include "recipe/kitchen.h"
#include "recipe/recipe.h"

namespace maslin {

enum class ProvePlace : std::uint8_t { room, warm, cold, stated, frozen };

/// What a step does to a dough in the frost (data/frost_words.tsv).
enum class Frost : std::uint8_t { none, freezes, thaws };
Frost frost_of(const Step& step);

/// One prove as the recipe asks for it.
struct PlannedProve {
  std::string name;           // "first prove", "prove after shaping", ...
  double volume_ratio = 2.0;  // over the volume at its start
  std::string target;         // in words: "doubled"
  std::optional<Range> stated_minutes;
  ProvePlace place = ProvePlace::room;
  double stated_celsius = 0.0;        // when place is stated
  double gas_kept_before = 1.0;       // 1 as mixed, 0.87 after a fold, 0.5 after shaping
  std::optional<double> for_minutes;  // by the clock, whatever it has grown; else by the ratio
  bool in_pieces = false;
  Frost frost = Frost::none;

  /// A rise, and neither the freezer nor thawing.
  bool rises() const { return frost == Frost::none; }
};

/// How a preferment stands before it goes into the dough.
struct PlannedPreferment {
  std::size_t part = 0;  // of the recipe
  PlannedProve rest;     // stated_minutes always
};

/// A stretch of the bake at one setting.
struct PlannedHeat {
  double celsius = 190.0;
  std::optional<Range> minutes;
};

struct PlannedBake {
  enum class Way : std::uint8_t { oven, steam, fry, griddle, none };
  Way way = Way::oven;
  std::vector<PlannedHeat> heats;
  PieceShape shape = PieceShape::bun;
  std::string bakeware = "tray";
  bool soft = false;  // a flat bread that is wanted soft, not golden
  double pieces = 1.0;
  double neighbours = 3.0;
  std::optional<double> piece_grams;
  std::optional<Tin> tin;
  std::string until;
};

struct Schedule {
  double knead_minutes = 10.0;
  bool kneaded = false;  // a step says so: a dough, not a batter to be folded or poured
  bool machine = false;
  std::vector<PlannedProve> proves;
  std::vector<PlannedPreferment> preferments;

  /// How the preferment of that part stands; null where it is none.
  const PlannedProve* rest_of(std::size_t part) const;
  PlannedBake bake;
  std::vector<Doubt> doubts;
};

/// The place in `proves` of a rise counted from 0, the freezer and thawing left out; nothing
/// beyond the last.
std::optional<std::size_t> rise_number(const Schedule& schedule, std::size_t number);

/// The schedule of the recipe's dough. `dough_grams` (at the median) decides the number
/// of pieces where the recipe gives none.
Schedule schedule_of(const Recipe& recipe, const Kitchen& kitchen, double dough_grams,
                     bool yeasted);

}  // namespace maslin
