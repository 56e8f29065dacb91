// What the finished batch holds, draw by draw, in the form a label counts it.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "handon/label_tables.h"

namespace maslin::handon {

/// One food of one group, g in each draw, as put in (what was strained off is not).
struct FoodAmount {
  const Ingredient* ingredient = nullptr;  // as it is in the bowl: its juice, its pulp
  const Ingredient* named = nullptr;       // the food of the pantry that it came from
  std::vector<double> grams;
};

/// Foods that are listed together: those of the dough with all that is worked into it, or a
/// compound ingredient (a filling, a topping, a glaze).
struct FoodGroup {
  std::string compound;  // its name; empty for the dough
  std::vector<FoodAmount> foods;
  bool baked = true;               // goes into the oven
  std::vector<double> water_lost;  // boiled off and baked out, g
};

struct LabelContents {
  std::string problem;  // one sentence when nothing can be weighed
  std::vector<FoodGroup> groups;
  std::vector<double> mixed_grams;     // as put in
  std::vector<double> finished_grams;  // as eaten
  std::vector<std::string> left_out;   // lines without a weight or a known food
  double pieces = 0.0;
  bool pieces_assumed = false;
  bool fried = false;
  std::shared_ptr<const ForecastSetup> setup;  // owns the foods

  std::size_t draws() const { return mixed_grams.size(); }
};

LabelContents contents_of(const Recipe& recipe, const Pantry& pantry, const LabelRequest& request);

double mean_of(const std::vector<double>& values);

}  // namespace maslin::handon
