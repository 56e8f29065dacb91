// The dough as sums over its lines, and the programme that balances them.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "adjust/solver.h"
#include "adjust/want.h"
#include "dough/dough.h"
#include "properties/portion.h"

namespace maslin {

/// Per gram of a line: what it adds to each sum of the dough.
struct LineForms {
  double flour = 0.0;
  double water = 0.0;
  double sugar = 0.0;
  double fat = 0.0;
  double salt = 0.0;
  double egg = 0.0;
  double yeast = 0.0;
  double effective = 0.0;  // water equivalent, the sugars' apart
  double sugar_water = 0.0;
  double absorbed = 0.0;  // absorption times flour
  double cost = 0.0;      // with what is left on bowl and hands; 0 where no price is known
};

/// One line of the dough as the programme sees it.
struct BalanceLine {
  Portions per_gram;  // of one gram
  LineForms forms;
  double grams_before = 0.0;  // as the recipe stands
  double grams = 0.0;         // where the change starts from: the same, but scaled
  double weight = 1.0;        // of a change of its whole self
  double most_grams = 1e9;    // beyond which no one would go: yeast, salt, spice
  double unit_grams = 0.0;    // whole items: grams of one; 0 = any amount
  bool pack = false;          // the whole item is a packet, of which part can be weighed out
  bool held = false;
  bool gone = false;  // must be none
};

/// What stays as it was unless wanted otherwise, of the recipe as found.
struct KeptFigures {
  double feel_score = 0.0;
  double sugar_pct = 0.0;
  double fat_pct = 0.0;
  double salt_pct = 0.0;
  double yeast_pct = 0.0;
};

struct Balance {
  const DoughModel* model = nullptr;
  std::vector<BalanceLine> lines;
  KeptFigures kept;
  double fill_low_g = 0.0;  // what the tin takes
  double fill_high_g = 0.0;
  double other_cost = 0.0;  // of what no line of the dough is: the glaze
};

/// Fills `forms` of a line from its portions.
void set_forms(BalanceLine& line, const DoughModel& model);

/// The dough of these grams, by the dough model itself.
DoughState state_of(const Balance& balance, const std::vector<double>& grams);
/// The figures of the dough as its lines stand before any change.
KeptFigures kept_figures(const Balance& balance);
/// The figure a want is about, of a dough; of 0 when it is none of the dough's.
double figure_of(const Balance& balance, const Want& want, const std::vector<double>& grams);
/// Whether it is met within 0.5 % of the bound (0.05 points of feel).
bool is_met(const Balance& balance, const Want& want, const std::vector<double>& grams);

enum class WholeItems : std::uint8_t { kept, packs_divisible, divisible };

/// Rows hard for `wants`, soft for what the recipe was; the least weighted change. With
/// `elastic` set that want is soft instead and comes as near as it can. Divisible items
/// answer faster, for finding out what excludes what.
struct BalanceSolution {
  SolveStatus status = SolveStatus::stopped;
  std::vector<double> grams;
};
BalanceSolution solve_balance(const Balance& balance, const std::vector<Want>& wants,
                              const Want* elastic, WholeItems whole_items);

}  // namespace maslin
