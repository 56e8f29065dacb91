// The list of ingredients: order, water, percentages, emphasis.
#pragma once

#include <string>
#include <vector>

#include "handon/label_contents.h"

namespace maslin::handon {

struct IngredientList {
  std::vector<LabelIngredient> ingredients;
  std::vector<std::string> allergens;  // each once, in the order of the rules
  std::string text;
  std::vector<std::string> asks;
  std::vector<std::string> notes;
};

IngredientList ingredient_list(const LabelContents& contents, const LabelTables& tables,
                               LabelRules rules, const std::string& title);

/// The name with the allergen's word in capitals, or the word behind it in brackets: "WHEAT
/// flour", "butter (MILK)".
std::string emphasised(const std::string& name, const std::string& word);

/// An ingredient's share of the finished product: 1169/2011 Annex VIII (3) and CXS 1-1985 5.1, from
/// memory. Whole per cents, halves below 2 (Commission Notice 2017/C 393/05, from memory); above
/// 100 % the weight used for 100 g.
std::string quantity_declared(double mixed_grams, double finished_grams);

}  // namespace maslin::handon
