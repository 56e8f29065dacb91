// From the tables of data/ to a Pantry.
#include <algorithm>

#include "pantry/embedded_table.h"
#include "pantry/pantry.h"
#include "quantity/table.h"

namespace maslin {
namespace {

Gluten gluten_from(std::string_view word) {
  if (word == "weak") {
    return Gluten::weak;
  }
  if (word == "medium") {
    return Gluten::medium;
  }
  if (word == "strong") {
    return Gluten::strong;
  }
  return word == "very_strong" ? Gluten::very_strong : Gluten::none;
}

YeastKind yeast_kind_from(std::string_view word) {
  // data/yeasts.tsv is finer than the kinds the models tell apart.
  if (word == "sourdough" || word == "dough") {
    return YeastKind::starter;
  }
  if (word == "semi_dry") {
    return YeastKind::instant;
  }
  if (word == "fresh_osmotolerant") {
    return YeastKind::fresh;
  }
  for (const YeastKind kind : {YeastKind::fresh, YeastKind::active_dry, YeastKind::instant,
                               YeastKind::osmotolerant_instant, YeastKind::starter}) {
    if (yeast_kind_name(kind) == word) {
      return kind;
    }
  }
  return YeastKind::none;
}

Ingredient ingredient_at(const Table& table, std::size_t row) {
  Ingredient out;
  out.id = table.cell(row, "id");
  out.name = table.cell(row, "name");
  out.name_us = table.cell(row, "name_us");
  for (const std::string_view alias : split(table.cell(row, "aliases"), '|')) {
    out.aliases.emplace_back(alias);
  }
  out.kind = kind_from(table.cell(row, "kind"));
  for (std::size_t c = 0; c < k_component_count; ++c) {
    out.composition.fraction[c] =
        table.number(row, component_name(static_cast<Component>(c))) / 100.0;
  }
  out.energy_kcal_per_100g = table.number(row, "energy_kcal");
  for (std::string_view allergen : split(table.cell(row, "allergens"), ',')) {
    while (!allergen.empty() && allergen.front() == ' ') {
      allergen.remove_prefix(1);
    }
    if (!allergen.empty()) {
      out.allergens.emplace_back(allergen);
    }
  }
  out.ph = table.number(row, "ph");
  out.protease = table.cell(row, "protease") == "yes";
  out.source = table.cell(row, "source");
  out.note = table.cell(row, "note");
  return out;
}

}  // namespace

PantryTables embedded_pantry_tables() {
  return {embedded_table("ingredients.tsv"), embedded_table("flours.tsv"),
          embedded_table("yeasts.tsv"),      embedded_table("densities.tsv"),
          embedded_table("portions.tsv"),    embedded_table("measures.tsv"),
          embedded_table("ovens.tsv")};
}

Pantry::Pantry(const PantryTables& tables) {
  const Table rows(tables.ingredients);
  ingredients_.reserve(rows.size());
  for (std::size_t row = 0; row < rows.size(); ++row) {
    by_id_.emplace(rows.cell(row, "id"), ingredients_.size());
    ingredients_.push_back(ingredient_at(rows, row));
  }
  // Names proper before aliases: an alias never takes another row's own name.
  const auto name_row = [this](const std::string& name, std::size_t index) {
    std::string folded = folded_name(name);
    if (!folded.empty()) {
      const auto words =
          1 + static_cast<std::size_t>(std::count(folded.begin(), folded.end(), ' '));
      longest_name_words_ = std::max(longest_name_words_, words);
      by_name_.emplace(std::move(folded), index);
    }
  };
  for (std::size_t i = 0; i < ingredients_.size(); ++i) {
    name_row(ingredients_[i].name, i);
  }
  for (std::size_t i = 0; i < ingredients_.size(); ++i) {
    name_row(ingredients_[i].name_us, i);
    name_row(ingredients_[i].id, i);
    for (const std::string& alias : ingredients_[i].aliases) {
      name_row(alias, i);
    }
  }
  const Table flours(tables.flours);
  for (std::size_t row = 0; row < flours.size(); ++row) {
    const auto at = by_id_.find(flours.cell(row, "id"));
    if (at != by_id_.end()) {
      ingredients_[at->second].flour = {
          flours.number(row, "absorption_pct"), flours.number(row, "absorption_sd"),
          gluten_from(flours.cell(row, "gluten")), flours.number(row, "ash_dm")};
    }
  }
  const Table yeasts(tables.yeasts);
  for (std::size_t row = 0; row < yeasts.size(); ++row) {
    const auto at = by_id_.find(yeasts.cell(row, "id"));
    if (at != by_id_.end()) {
      ingredients_[at->second].yeast = {yeast_kind_from(yeasts.cell(row, "kind")),
                                        yeasts.number(row, "activity"),
                                        yeasts.number(row, "loss_per_month_cool")};
    }
  }
  const Table densities(tables.densities);
  for (std::size_t row = 0; row < densities.size(); ++row) {
    packings_[std::string(densities.cell(row, "id"))].push_back(
        {std::string(densities.cell(row, "packing")), densities.number(row, "g_per_ml"),
         densities.number(row, "cv"), std::string(densities.cell(row, "source"))});
  }
  const Table portions(tables.portions);
  for (std::size_t row = 0; row < portions.size(); ++row) {
    portions_[std::string(portions.cell(row, "id"))].push_back(
        {std::string(portions.cell(row, "word")), std::string(portions.cell(row, "size")),
         std::string(portions.cell(row, "locale")), portions.number(row, "grams"),
         portions.number(row, "sd"), std::string(portions.cell(row, "source"))});
  }
  const Table measures(tables.measures);
  for (std::size_t row = 0; row < measures.size(); ++row) {
    measures_.push_back({std::string(measures.cell(row, "unit")),
                         std::string(measures.cell(row, "locale")), measures.number(row, "ml"),
                         measures.number(row, "cv"), std::string(measures.cell(row, "source"))});
  }
  const Table ovens(tables.ovens);
  for (std::size_t row = 0; row < ovens.size(); ++row) {
    oven_marks_.push_back({std::string(ovens.cell(row, "scale")),
                           std::string(ovens.cell(row, "mark")), ovens.number(row, "celsius_low"),
                           ovens.number(row, "celsius"), ovens.number(row, "celsius_high"),
                           std::string(ovens.cell(row, "source"))});
  }
}

}  // namespace maslin
