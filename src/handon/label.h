// A label: what a recipe is made of in the order and with the figures that food law asks for.
//
// The amounts are those of the forecast, draw by draw, and the loss in the oven likewise; a
// declared figure is the average over the draws, rounded once, at the end. What the rules ask and
// no recipe can tell (a packet's own list, vitamins) is asked, never made up.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "forecast/ensemble.h"
#include "forecast/forecast.h"
#include "pantry/pantry.h"
#include "recipe/kitchen.h"
#include "recipe/recipe.h"

namespace maslin::handon {

enum class LabelRules : std::uint8_t { eu, uk, us, codex };
std::string_view label_rules_name(LabelRules rules);
std::optional<LabelRules> label_rules_from(std::string_view name);

struct LabelRequest {
  LabelRules rules = LabelRules::eu;
  Kitchen kitchen;
  ForecastOptions draws{1, 256};
  /// Weight lost in the oven, % of what went in: one figure a draw (of the same seed and number of
  /// draws), or one for all; empty when nothing is baked.
  std::vector<double> bake_loss_pct;
  /// Pieces of the batch, where the recipe does not say; 0 = unknown.
  double pieces = 0.0;
};

/// One entry of the list of ingredients.
struct LabelIngredient {
  std::string name;                    // allergens in capitals
  double mixed_grams = 0.0;            // as put in, average
  double mixed_pct = 0.0;              // of all that is put in
  std::string quantity;                // "22 %" where the rules ask; else empty
  std::vector<std::string> allergens;  // words to be emphasised
  std::vector<LabelIngredient> of;     // of a compound ingredient
};

/// One line of the nutrition declaration.
struct LabelNutrient {
  std::string nutrient;  // energy_kj, energy_kcal, fat, saturates, carbohydrate, sugars, ...
  std::string words;
  std::string unit;
  double per_100_grams = 0.0;  // average over the draws, not rounded
  Band per_100_grams_range;
  double per_piece = 0.0;
  Band per_piece_range;
  double per_serving = 0.0;
  std::string declared_per_100_grams;  // rounded by the rules, without the unit
  std::string declared_per_piece;
  std::string declared_per_serving;
  std::optional<double> daily_pct;  // of the serving, by the rules' daily values, whole
  /// Foods of which nobody knows how much they hold, where that can change what is declared: the
  /// figures above are then lower bounds, declared as "at least 20", or empty.
  std::vector<std::string> not_known_for;
  /// Share of the draws that lie within the rules' tolerance of the declared figure.
  double chance_within_tolerance = 1.0;
};

/// What a declaration is given for beside 100 g: a piece, or by American rules the serving.
struct LabelServing {
  std::string words;  // "1 piece (67 g)"
  double pieces = 0.0;
  double grams = 0.0;
  std::string category;  // of 21 CFR 101.12(b), American rules alone
};

struct Label {
  std::string problem;  // one sentence when there is nothing to label; else empty
  LabelRules rules = LabelRules::eu;
  std::string title;
  double pieces = 0.0;  // 0 = unknown
  Band finished_grams;
  Band piece_grams;
  Band bake_loss_pct;
  std::vector<LabelIngredient> ingredients;
  std::string list;      // the list of ingredients as one text
  std::string contains;  // "Contains: wheat, milk." where the rules know that form
  std::vector<std::string> allergens;
  std::optional<LabelServing> serving;
  std::vector<LabelNutrient> nutrients;
  std::vector<std::string> asks;   // what only a packet or a laboratory tells
  std::vector<std::string> notes;  // how figures were come by; whose word counts
};

Label label_of(const Recipe& recipe, const Pantry& pantry, const LabelRequest& request);

/// The label in lines to read.
std::string label_text(const Label& label);
/// docs/schema/label.schema.json.
std::string label_to_json(const Label& label);

/// A figure as these rules want it declared: nearest step, halves up, "<0.5", "less than 1".
/// Nutrients as in data/handon/label_rounding.tsv; a nutrient without rows keeps three digits.
std::string declared(LabelRules rules, const std::string& nutrient, double value);

/// 21 CFR 101.9(b)(2)(i): how many pieces are a serving. Up to two thirds of the reference amount
/// as many as come closest (from half on, one or two are allowed); above, one.
double pieces_of_serving(double piece_grams, double reference_grams);

}  // namespace maslin::handon
