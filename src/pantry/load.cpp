// From the tables of data/ to a Pantry.
#include <algorithm>
#include <map>

#include "pantry/embedded_table.h"
#include "pantry/filling.h"
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

/// The filling for a food's packings: its own row before its kind's.
const Filling* filling_for(const std::vector<Filling>& fillings, std::string_view id,
                           std::string_view kind, bool spoon) {
  const Filling* of_kind = nullptr;
  for (const Filling& filling : fillings) {
    if (filling.spoon == spoon && filling.of == id) {
      return &filling;
    }
    if (filling.spoon == spoon && filling.of == kind) {
      of_kind = &filling;
    }
  }
  return of_kind;
}

bool has_packing(const std::vector<Packing>& known, std::string_view name) {
  return std::any_of(known.begin(), known.end(),
                     [name](const Packing& packing) { return packing.name == name; });
}

std::vector<Measure> measures_from(std::string_view text) {
  const Table rows(text);
  std::vector<Measure> out;
  out.reserve(rows.size());
  for (std::size_t row = 0; row < rows.size(); ++row) {
    out.push_back({std::string(rows.cell(row, "unit")), std::string(rows.cell(row, "locale")),
                   rows.number(row, "ml"), rows.number(row, "cv"),
                   std::string(rows.cell(row, "source"))});
  }
  return out;
}

std::vector<OvenMark> oven_marks_from(std::string_view text) {
  const Table rows(text);
  std::vector<OvenMark> out;
  out.reserve(rows.size());
  for (std::size_t row = 0; row < rows.size(); ++row) {
    out.push_back({std::string(rows.cell(row, "scale")), std::string(rows.cell(row, "mark")),
                   rows.number(row, "celsius_low"), rows.number(row, "celsius"),
                   rows.number(row, "celsius_high"), std::string(rows.cell(row, "source"))});
  }
  return out;
}

std::vector<Heap> heaps_from(std::string_view text) {
  const Table rows(text);
  std::vector<Heap> out;
  out.reserve(rows.size());
  for (std::size_t row = 0; row < rows.size(); ++row) {
    out.push_back({std::string(rows.cell(row, "word")), rows.cell(row, "measure") == "spoon",
                   rows.number(row, "factor", 1.0), rows.number(row, "cv"),
                   std::string(rows.cell(row, "source"))});
  }
  return out;
}

}  // namespace

PantryTables embedded_pantry_tables() {
  return {embedded_table("ingredients.tsv"), embedded_table("flours.tsv"),
          embedded_table("yeasts.tsv"),      embedded_table("densities.tsv"),
          embedded_table("portions.tsv"),    embedded_table("measures.tsv"),
          embedded_table("ovens.tsv"),       embedded_table("fillings.tsv"),
          embedded_table("heaps.tsv"),       embedded_table("locales.tsv"),
          embedded_table("pieces.tsv")};
}

Pantry::Pantry(const PantryTables& tables)
    : measures_(measures_from(tables.measures)),
      oven_marks_(oven_marks_from(tables.ovens)),
      heaps_(heaps_from(tables.heaps)) {
  read_ingredients(tables.ingredients);
  read_flours_and_yeasts(tables.flours, tables.yeasts);
  read_pieces(tables.pieces);
  read_packings(tables.densities, tables.fillings);
  const Table portions(tables.portions);
  for (std::size_t row = 0; row < portions.size(); ++row) {
    portions_[std::string(portions.cell(row, "id"))].push_back(
        {std::string(portions.cell(row, "word")), std::string(portions.cell(row, "size")),
         std::string(portions.cell(row, "locale")), portions.number(row, "grams"),
         portions.number(row, "sd"), std::string(portions.cell(row, "source"))});
  }
  const Table locales(tables.locales);
  for (std::size_t row = 0; row < locales.size(); ++row) {
    near_locales_.emplace(locales.cell(row, "locale"), locales.cell(row, "near"));
  }
}

void Pantry::read_ingredients(std::string_view table) {
  const Table rows(table);
  ingredients_.reserve(rows.size());
  by_name_.reserve(8 * rows.size());
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
}

void Pantry::read_flours_and_yeasts(std::string_view flour_table, std::string_view yeast_table) {
  const Table flours(flour_table);
  for (std::size_t row = 0; row < flours.size(); ++row) {
    const auto at = by_id_.find(flours.cell(row, "id"));
    if (at != by_id_.end()) {
      ingredients_[at->second].flour = {
          flours.number(row, "absorption_pct"), flours.number(row, "absorption_sd"),
          gluten_from(flours.cell(row, "gluten")), flours.number(row, "ash_dm")};
    }
  }
  const Table yeasts(yeast_table);
  for (std::size_t row = 0; row < yeasts.size(); ++row) {
    const auto at = by_id_.find(yeasts.cell(row, "id"));
    if (at != by_id_.end()) {
      ingredients_[at->second].yeast = {yeast_kind_from(yeasts.cell(row, "kind")),
                                        yeasts.number(row, "activity"),
                                        yeasts.number(row, "loss_per_month_cool")};
    }
  }
}

void Pantry::read_pieces(std::string_view table) {
  const Table rows(table);
  std::map<std::string_view, double> share;
  for (std::size_t row = 0; row < rows.size(); ++row) {
    share.emplace(rows.cell(row, "key"), rows.number(row, "mixes_in", 1.0));
  }
  for (Ingredient& one : ingredients_) {
    const std::string kind = kind_key(one);
    for (const std::string_view key : {std::string_view(one.id), std::string_view(kind)}) {
      if (const auto found = share.find(key); found != share.end()) {
        one.mixes_in = found->second;
        break;
      }
    }
  }
}

void Pantry::read_packings(std::string_view density_table, std::string_view filling_table) {
  const Table rows(density_table);
  for (std::size_t row = 0; row < rows.size(); ++row) {
    packings_[std::string(rows.cell(row, "id"))].push_back(
        {std::string(rows.cell(row, "packing")), rows.number(row, "g_per_ml"),
         rows.number(row, "cv"), std::string(rows.cell(row, "source"))});
  }
  const std::vector<Filling> fillings = fillings_from(filling_table);
  for (auto& [id, known] : packings_) {
    const Ingredient* ingredient = find(id);
    const std::string kind = ingredient != nullptr ? kind_key(*ingredient) : id;
    std::vector<Packing> expected;
    for (const bool spoon : {false, true}) {
      const Filling* filling = filling_for(fillings, id, kind, spoon);
      auto packing = filling == nullptr ? std::nullopt : expected_packing(*filling, known);
      if (packing && !has_packing(known, packing->name)) {
        expected.push_back(std::move(*packing));
      }
    }
    known.insert(known.begin(), expected.begin(), expected.end());
  }
}

}  // namespace maslin
