#include "handon/label_tables.h"

#include <algorithm>

#include "handon/embedded_table.h"
#include "quantity/number_text.h"
#include "quantity/table.h"

namespace maslin::handon {
namespace {

/// Protein is nitrogen times this on European and Codex labels: Regulation (EU) 1169/2011 Annex I,
/// CXG 2-1985 3.3.2.1. American labels keep the food's own factor, 21 CFR 101.9(c)(7).
constexpr double k_label_nitrogen = 6.25;

/// kcal a gram of available carbohydrate, 1169/2011 Annex XIV.
constexpr double k_carbohydrate_kcal = 4.0;

std::vector<std::string> words_between(std::string_view text, char separator) {
  std::vector<std::string> out;
  for (std::string_view one : split(text, separator)) {
    while (one.starts_with(' ')) {
      one.remove_prefix(1);
    }
    if (!one.empty()) {
      out.emplace_back(one);
    }
  }
  return out;
}

/// British law kept the European rules; Codex sets no steps of its own.
LabelRules kept_from(LabelRules rules) {
  return rules == LabelRules::us ? LabelRules::us : LabelRules::eu;
}

std::string with_spaces(std::string word) {
  std::replace(word.begin(), word.end(), '_', ' ');
  return word;
}

}  // namespace

LabelTables::LabelTables() {
  read_foods();
  read_allergens();
  const Table names(handon_data::embedded_table("label_names.tsv"));
  for (std::size_t i = 0; i < names.size(); ++i) {
    names_[std::string(names.cell(i, "id"))][std::string(names.cell(i, "rules"))] = {
        std::string(names.cell(i, "name")), words_between(names.cell(i, "parts"), ';'),
        std::string(names.cell(i, "ask"))};
  }
  const Table nutrients(handon_data::embedded_table("label_nutrients.tsv"));
  for (std::size_t i = 0; i < nutrients.size(); ++i) {
    const auto rules = label_rules_from(nutrients.cell(i, "rules"));
    nutrients_[rules.value_or(LabelRules::eu)].push_back(
        {std::string(nutrients.cell(i, "nutrient")), std::string(nutrients.cell(i, "words")),
         std::string(nutrients.cell(i, "unit")), number_from(nutrients.cell(i, "daily")),
         std::string(nutrients.cell(i, "tolerance"))});
  }
  const Table steps(handon_data::embedded_table("label_rounding.tsv"));
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const auto rules = label_rules_from(steps.cell(i, "rules"));
    rounding_[rules.value_or(LabelRules::eu)][std::string(steps.cell(i, "nutrient"))].push_back(
        {number_from(steps.cell(i, "upper")), steps.cell(i, "bound") == "in",
         steps.number(i, "step"), std::string(steps.cell(i, "as"))});
  }
  const Table servings(handon_data::embedded_table("label_servings.tsv"));
  for (std::size_t i = 0; i < servings.size(); ++i) {
    servings_.push_back({std::string(servings.cell(i, "word")),
                         number_from(servings.cell(i, "rich")), servings.number(i, "grams"),
                         std::string(servings.cell(i, "category"))});
  }
}

void LabelTables::read_foods() {
  const Table table(handon_data::embedded_table("label_foods.tsv"));
  for (std::size_t i = 0; i < table.size(); ++i) {
    Food& food = foods_[std::string(table.cell(i, "id"))];
    for (const std::string& entry : words_between(table.cell(i, "species"), ' ')) {
      const std::size_t equals = entry.find('=');
      food.species[entry.substr(0, equals)] = words_between(entry.substr(equals + 1), '|');
    }
    food.nitrogen = number_from(table.cell(i, "nitrogen"));
    food.polyol = number_from(table.cell(i, "polyol"));
    food.sulphite = table.number(i, "sulphite");
  }
}

void LabelTables::read_allergens() {
  const Table table(handon_data::embedded_table("label_allergens.tsv"));
  for (std::size_t i = 0; i < table.size(); ++i) {
    AllergenRow row;
    row.key = table.cell(i, "key");
    row.word = table.cell(i, "word");
    row.word_us = table.cell(i, "word_us");
    row.listed[LabelRules::eu] = row.listed[LabelRules::uk] = !table.cell(i, "eu").empty();
    row.listed[LabelRules::us] = !table.cell(i, "us").empty();
    row.listed[LabelRules::codex] = !table.cell(i, "codex").empty();
    row.over_mg_kg = table.number(i, "over_mg_kg");
    allergens_.push_back(std::move(row));
  }
}

LabelName LabelTables::name_of(const Ingredient& ingredient, LabelRules rules) const {
  const std::string& own =
      rules == LabelRules::us && !ingredient.name_us.empty() ? ingredient.name_us : ingredient.name;
  const auto rows = names_.find(ingredient.id);
  if (rows == names_.end()) {
    return {own, {}, ""};
  }
  for (const std::string_view key :
       {label_rules_name(rules), label_rules_name(kept_from(rules)), std::string_view("any")}) {
    if (const auto row = rows->second.find(std::string(key)); row != rows->second.end()) {
      LabelName out = row->second;
      out.name = out.name.empty() ? own : out.name;
      return out;
    }
  }
  return {own, {}, ""};
}

const LabelTables::Food& LabelTables::food(const Ingredient& ingredient) const {
  static const Food plain;
  const auto at = foods_.find(ingredient.id);
  return at == foods_.end() ? plain : at->second;
}

std::vector<NamedAllergen> LabelTables::allergens_of(const Ingredient& ingredient,
                                                     LabelRules rules) const {
  const Food& known = food(ingredient);
  std::vector<NamedAllergen> out;
  for (const AllergenRow& row : allergens_) {
    if (!row.listed.at(rules)) {
      continue;
    }
    for (const std::string& allergen : ingredient.allergens) {
      const auto species = known.species.find(allergen);
      const bool parted = species != known.species.end();
      const bool same = row.key == allergen;
      const std::string stem = allergen + "=";
      const bool one_of =
          parted && std::any_of(species->second.begin(), species->second.end(),
                                [&](const std::string& s) { return row.key == stem + s; });
      if (!same && !one_of) {
        continue;
      }
      const bool american = rules == LabelRules::us;
      // American rules name the fish, not only that it is one.
      const std::string& word = american && same && parted         ? species->second.front()
                                : american && !row.word_us.empty() ? row.word_us
                                                                   : row.word;
      out.push_back({with_spaces(word), row.over_mg_kg});
    }
  }
  return out;
}

double LabelTables::protein_factor(const Ingredient& ingredient) const {
  if (const auto own = food(ingredient).nitrogen) {
    return k_label_nitrogen / *own;
  }
  const auto of_kind = foods_.find(kind_key(ingredient));
  const bool known = of_kind != foods_.end() && of_kind->second.nitrogen;
  return known ? k_label_nitrogen / *of_kind->second.nitrogen : 1.0;
}

double LabelTables::other_carbohydrate_kcal_per_g(const Ingredient& ingredient) const {
  return food(ingredient).polyol.value_or(k_carbohydrate_kcal);
}

bool LabelTables::is_polyol(const Ingredient& ingredient) const {
  return food(ingredient).polyol.has_value();
}

double LabelTables::sulphite_mg_per_kg(const Ingredient& ingredient) const {
  return food(ingredient).sulphite;
}

const std::vector<NutrientRow>& LabelTables::nutrients(LabelRules rules) const {
  return nutrients_.at(rules == LabelRules::codex ? LabelRules::codex : kept_from(rules));
}

const std::vector<RoundingRow>& LabelTables::rounding(LabelRules rules,
                                                      const std::string& nutrient) const {
  static const std::vector<RoundingRow> none;
  const auto& of_rules = rounding_.at(kept_from(rules));
  const auto at = of_rules.find(nutrient);
  return at == of_rules.end() ? none : at->second;
}

}  // namespace maslin::handon
