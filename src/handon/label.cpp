#include "handon/label.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "handon/label_contents.h"
#include "handon/label_list.h"
#include "handon/label_nutrition.h"
#include "handon/label_rounding.h"
#include "handon/label_tables.h"
#include "quantity/number_text.h"

namespace maslin::handon {
namespace {

constexpr std::array<std::string_view, 4> k_names{"eu", "uk", "us", "codex"};

const LabelTables& tables() {
  static const LabelTables the_tables;
  return the_tables;
}

std::string rules_note(LabelRules rules) {
  switch (rules) {
    case LabelRules::eu:
      return "By Regulation (EU) No 1169/2011. Bread handed over unpacked needs its allergens said "
             "(Article 44); a maker who supplies small amounts directly needs no nutrition "
             "declaration (Annex V 19).";
    case LabelRules::uk:
      return "By the retained Regulation 1169/2011 and the Food Information Regulations 2014. What "
             "is packed on the premises before it is asked for needs its name, this list and its "
             "allergens (SI 2019/1218).";
    case LabelRules::us:
      return "By 21 CFR 101 and section 403(w) of the Food, Drug, and Cosmetic Act. Small makers "
             "may be exempt (101.9(j)); what is made at home and sold is for the law of the state.";
    case LabelRules::codex:
      return "By CXS 1-1985 and CXG 2-1985, which countries take over each in their own way; "
             "figures are rounded as in the European Union, since Codex sets no steps.";
  }
  return "";
}

void add_asks(const LabelContents& contents, Label& out) {
  for (const std::string& line : contents.left_out) {
    out.asks.push_back("\"" + line +
                       "\" has no weight or is not known: it is missing from the "
                       "list and the figures; weigh it and say what it is");
  }
  if (contents.fried) {
    out.asks.push_back(
        "the frying fat that stays in the pieces is not counted: weigh the fat "
        "before and after");
  }
}

/// "Calcium, Potassium: not known for egg replacer", foods that lack the same figures together.
void ask_for_figures(Label& out) {
  std::map<std::string, std::string> nutrients;  // by the foods
  std::vector<std::string> order;
  for (const LabelNutrient& one : out.nutrients) {
    std::string foods;
    for (const std::string& food : one.not_known_for) {
      foods += (foods.empty() ? "" : ", ") + food;
    }
    if (!foods.empty()) {
      std::string& words = nutrients[foods];
      if (words.empty()) {
        order.push_back(foods);
      }
      words += (words.empty() ? "" : ", ") + one.words;
    }
  }
  for (const std::string& foods : order) {
    out.asks.push_back(nutrients[foods] + ": not known for " + foods +
                       "; take it from the packet or a composition table");
  }
}

void add_notes(const LabelContents& contents, const LabelRequest& request, Label& out) {
  if (request.bake_loss_pct.empty()) {
    out.notes.push_back("no loss in the oven is counted: nothing is baked");
  }
  if (contents.pieces_assumed) {
    out.notes.push_back("the recipe does not say how many pieces it makes: " +
                        number_text(contents.pieces, 0) + " are taken");
  }
  for (const LabelNutrient& one : out.nutrients) {
    constexpr double k_sure = 0.9;
    if (one.chance_within_tolerance < k_sure && one.not_known_for.empty()) {
      out.notes.push_back(one.words + ": only in " +
                          number_text(100.0 * one.chance_within_tolerance, 0) +
                          " of 100 batches within the tolerance of the rules; weigh what is "
                          "measured in cups");
    }
  }
  out.notes.push_back(
      "Figures are averages worked out from composition tables, which the rules "
      "allow; an analysis may differ.");
  out.notes.push_back(rules_note(out.rules));
  out.notes.push_back(
      "Local codes, and a licensed adviser or your food authority, rule wherever "
      "food is sold or given to the public; rules change, ask what holds today.");
}

std::string contains_of(LabelRules rules, const std::vector<std::string>& allergens) {
  // A second statement is for American labels alone: beside a list with emphasis European rules
  // want none.
  if (rules != LabelRules::us || allergens.empty()) {
    return "";
  }
  std::string out;
  for (const std::string& word : allergens) {
    out += (out.empty() ? "Contains: " : ", ") + word;
  }
  return out + ".";
}

/// Each once, in order.
void once(std::vector<std::string>& list) {
  std::vector<std::string> out;
  for (std::string& one : list) {
    if (std::find(out.begin(), out.end(), one) == out.end()) {
      out.push_back(std::move(one));
    }
  }
  list = std::move(out);
}

}  // namespace

std::string_view label_rules_name(LabelRules rules) {
  return k_names[static_cast<std::size_t>(rules)];
}

std::optional<LabelRules> label_rules_from(std::string_view name) {
  for (std::size_t i = 0; i < k_names.size(); ++i) {
    if (k_names[i] == name) {
      return static_cast<LabelRules>(i);
    }
  }
  return std::nullopt;
}

Label label_of(const Recipe& recipe, const Pantry& pantry, const LabelRequest& request) {
  Label out;
  out.rules = request.rules;
  out.title = recipe.title;
  const LabelContents contents = contents_of(recipe, pantry, request);
  out.problem = contents.problem;
  if (out.problem.empty() && !(mean_of(contents.finished_grams) > 0.0)) {
    out.problem =
        "Nothing in this recipe has a weight, so there is nothing to label; give amounts.";
  }
  if (!out.problem.empty()) {
    return out;
  }
  const std::vector<double> weight(contents.draws(), 1.0);
  out.pieces = contents.pieces;
  out.finished_grams = band_of(contents.finished_grams, weight);
  out.piece_grams = {out.finished_grams.p10 / out.pieces, out.finished_grams.p50 / out.pieces,
                     out.finished_grams.p90 / out.pieces};
  const std::vector<double>& loss = request.bake_loss_pct;
  out.bake_loss_pct = band_of(loss, std::vector<double>(loss.size(), 1.0));
  IngredientList list = ingredient_list(contents, tables(), request.rules, recipe.title);
  out.ingredients = std::move(list.ingredients);
  out.list = std::move(list.text);
  out.allergens = std::move(list.allergens);
  out.contains = contains_of(request.rules, out.allergens);
  Declaration declaration = declaration_of(contents, tables(), request.rules, recipe.title);
  out.nutrients = std::move(declaration.nutrients);
  out.serving = std::move(declaration.serving);
  out.asks = std::move(list.asks);
  add_asks(contents, out);
  ask_for_figures(out);
  once(out.asks);
  out.notes = std::move(list.notes);
  add_notes(contents, request, out);
  return out;
}

std::string declared(LabelRules rules, const std::string& nutrient, double value) {
  return declared_by(tables().rounding(rules, nutrient), value);
}

double pieces_of_serving(double piece_grams, double reference_grams) {
  constexpr double k_one = 0.67;
  const double share = piece_grams / reference_grams;
  const bool small = share > 0.0 && share < k_one;
  return small ? std::max(1.0, std::floor(1.0 / share + 0.5)) : 1.0;
}

}  // namespace maslin::handon
