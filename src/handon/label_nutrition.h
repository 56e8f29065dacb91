// The nutrition declaration: averages over the draws, by the rules' own way of counting.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "handon/label_contents.h"

namespace maslin::handon {

/// The nutrients of a mass of food as one set of rules counts them, by the names of
/// data/handon/label_nutrients.tsv; kJ, kcal, g, and mg of sodium.
using NutrientFigures = std::map<std::string, double, std::less<>>;

/// Of one food, so many grams of it.
NutrientFigures nutrients_of(const Ingredient& food, double grams, const LabelTables& tables,
                             LabelRules rules);

struct Declaration {
  std::vector<LabelNutrient> nutrients;
  std::optional<LabelServing> serving;
};
Declaration declaration_of(const LabelContents& contents, const LabelTables& tables,
                           LabelRules rules, const std::string& title);

}  // namespace maslin::handon
