// The rules of labels as data (data/handon/label_*.tsv): what a food is called, which allergens are
// named, how figures are rounded.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "handon/label.h"
#include "handon/label_figures.h"
#include "pantry/ingredient.h"

namespace maslin::handon {

/// A food as a list of ingredients names it.
struct LabelName {
  std::string name;
  std::vector<std::string> parts;  // its own ingredients, in its list's order
  std::string ask;                 // what only its packet tells
};

/// A word that the rules want named.
struct NamedAllergen {
  std::string word;
  double over_mg_kg = 0.0;  // in the finished food; 0 = whatever the amount
};

/// One step of rounding: figures up to `upper` go to the nearest `step`, or are said `as`.
struct RoundingRow {
  std::optional<double> upper;
  bool upper_included = false;
  double step = 0.0;
  std::string as;
};

/// One line of a declaration.
struct NutrientRow {
  std::string nutrient;
  std::string words;
  std::string unit;
  std::optional<double> daily;
  std::string tolerance;
};

/// A reference amount customarily eaten, 21 CFR 101.12(b).
struct ServingRow {
  std::string word;
  std::optional<double> rich_pct_flour;
  double grams = 0.0;
  std::string category;
};

class LabelTables {
 public:
  /// From the tables built into the program.
  LabelTables();

  LabelName name_of(const Ingredient& ingredient, LabelRules rules) const;
  /// What must be named of the food, in the order of the rules' list; each word once.
  std::vector<NamedAllergen> allergens_of(const Ingredient& ingredient, LabelRules rules) const;
  /// Protein by nitrogen times 6.25 over the protein of the food's own source.
  double protein_factor(const Ingredient& ingredient) const;
  /// kcal a gram of other carbohydrate where that is a sugar alcohol; 4 where it is none.
  double other_carbohydrate_kcal_per_g(const Ingredient& ingredient) const;
  bool is_polyol(const Ingredient& ingredient) const;
  /// The most sulphur dioxide the food may lawfully hold, mg/kg.
  double sulphite_mg_per_kg(const Ingredient& ingredient) const;

  const std::vector<NutrientRow>& nutrients(LabelRules rules) const;
  const std::vector<RoundingRow>& rounding(LabelRules rules, const std::string& nutrient) const;
  const LabelFigures& figures() const { return figures_; }
  const std::vector<ServingRow>& servings() const { return servings_; }

 private:
  struct Food {
    std::map<std::string, std::vector<std::string>> species;  // by the pantry's allergen
    std::optional<double> nitrogen;
    std::optional<double> polyol;
    double sulphite = 0.0;
  };
  struct AllergenRow {
    std::string key;
    std::string word;
    std::string word_us;
    std::map<LabelRules, bool> listed;
    double over_mg_kg = 0.0;
  };
  void read_foods();
  void read_allergens();
  const Food& food(const Ingredient& ingredient) const;

  std::map<std::string, Food, std::less<>> foods_;
  std::map<std::string, std::map<std::string, LabelName>, std::less<>> names_;  // id, rules
  std::vector<AllergenRow> allergens_;
  std::map<LabelRules, std::vector<NutrientRow>> nutrients_;
  std::map<LabelRules, std::map<std::string, std::vector<RoundingRow>>> rounding_;
  std::vector<ServingRow> servings_;
  LabelFigures figures_;
};

}  // namespace maslin::handon
