// What goes into each bowl: the recipe's lines as portions, draw by draw.
#pragma once

#include <cstdint>
#include <deque>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "dough/extract.h"
#include "forecast/ensemble.h"
#include "numerics/lanes.h"
#include "pantry/pantry.h"
#include "properties/portion.h"
#include "recipe/kitchen.h"
#include "recipe/recipe.h"

namespace maslin {

/// The amount of one line as unknowns. A measure filled by the same person errs the
/// same way from cup to cup: the spread of a volume is split into the person's part,
/// shared by all lines of that kind of ingredient, and a small part of its own.
struct LineAmount {
  const Ingredient* ingredient = nullptr;  // null when the line is another part
  std::size_t part = 0;                    // that part, when ingredient is null
  Distribution grams;
  bool whole_part = false;       // all of that part, no amount stated
  bool solved = false;           // flour without an amount: as much as the feel asks for
  std::size_t own_unknown = 0;   // index into the unknowns
  std::size_t fill_unknown = 0;  // the shared one; 0 = none
  double own_sd = 0.0;           // of the logarithm
  double fill_sd = 0.0;
  bool warm = false;  // the line says warm or lukewarm
  bool cold = false;
  std::optional<double> celsius;  // of what is poured, as the line says it
  bool poured = false;            // water, milk, juice, or a strained part
  std::size_t line = 0;           // index in the part
};

/// Whether this is poured into a dough: water, juice, milk and the like, not eggs or cream.
bool is_poured(const Ingredient& ingredient);

/// A part that is strained, pressed or boiled down, and its own unknowns.
struct ExtractPlan {
  std::deque<PartedFood> foods;  // one for each line with an ingredient
  ExtractSetting setting;
  const Ingredient* water = nullptr;
  std::size_t holdup_unknown = 0;
  std::size_t insoluble_unknown = 0;
  std::size_t wash_unknown = 0;
};

/// The parts of a recipe, resolved: which lines weigh what, and what uses what.
struct Bowls {
  struct Bowl {
    PartKind kind = PartKind::dough;
    std::string name;
    std::vector<LineAmount> lines;
    Distribution yield = point(1.0);
    std::size_t yield_unknown = 0;  // 0 = point
    std::optional<ExtractPlan> extract;
  };
  std::vector<Bowl> bowls;         // as the recipe's parts
  std::vector<std::size_t> order;  // used before users
  std::size_t dough = 0;
  std::vector<Unknown> unknowns;  // of the amounts; index 0 is a dummy point
  std::vector<Doubt> doubts;      // what had to be assumed
  /// Ingredients as this kitchen has them (its flour's own protein); lines point here.
  std::shared_ptr<const std::deque<Ingredient>> own_ingredients;
};

/// Preferments, soakers and extracts that no line uses are taken whole into the dough.
Bowls bowls_of(const Recipe& recipe, const Kitchen& kitchen, const Pantry& pantry);

/// Values of the unknowns in one batch of eight draws, same order.
using BatchDraws = std::vector<Lanes>;
BatchDraws draw_batch(const std::vector<Unknown>& unknowns, std::uint64_t seed,
                      const DrawIndices& which);

/// One bowl's portions in this batch; parts it uses are poured in as their own
/// ingredients, in the share taken. Also grams by line (the part's own lines).
struct FilledBowl {
  Portions portions;
  std::vector<Lanes> line_grams;
};
std::vector<FilledBowl> fill_bowls(const Bowls& bowls, const BatchDraws& draws);

}  // namespace maslin
