// Ingredients and rows of the rise tables for the tests: compositions from memory of
// standard food tables, rounded.
#pragma once

#include <algorithm>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "quantity/table.h"
#include "rise/rise.h"
#include "support/book.h"

namespace rise_kit {

using namespace maslin;

inline Ingredient make(const char* id, IngredientKind kind,
                       std::vector<std::pair<Component, double>> parts) {
  Ingredient i;
  i.id = id;
  i.kind = kind;
  for (const auto& [component, share] : parts) {
    i.composition[component] = share;
  }
  return i;
}

inline Ingredient yeast_of(YeastKind kind, double activity) {
  const bool fresh = kind == YeastKind::fresh;
  Ingredient i = make("yeast", IngredientKind::yeast,
                      {{Component::water, fresh ? 0.70 : 0.06},
                       {Component::protein, fresh ? 0.14 : 0.42},
                       {Component::fibre, fresh ? 0.14 : 0.46},
                       {Component::minerals, fresh ? 0.02 : 0.06}});
  i.yeast = {kind, activity, 0.01};
  return i;
}

struct Shelf {
  std::map<std::string, Ingredient> by_column;
  std::map<std::string, Ingredient> yeasts;
  Shelf() {
    using C = Component;
    using K = IngredientKind;
    auto flour = make("white-flour", K::flour,
                      {{C::water, .14},
                       {C::protein, .115},
                       {C::fat, .012},
                       {C::starch, .698},
                       {C::fibre, .03},
                       {C::minerals, .005}});
    flour.flour.gluten = Gluten::medium;
    auto whole = make("whole-flour", K::flour,
                      {{C::water, .13},
                       {C::protein, .13},
                       {C::fat, .025},
                       {C::starch, .59},
                       {C::fibre, .11},
                       {C::minerals, .015}});
    whole.flour.gluten = Gluten::medium;
    by_column["flour_g"] = flour;
    by_column["whole_g"] = whole;
    by_column["water_g"] = make("water", K::water, {{C::water, 1.0}});
    by_column["milk_g"] = make("milk", K::dairy,
                               {{C::water, .88},
                                {C::protein, .032},
                                {C::fat, .033},
                                {C::lactose, .048},
                                {C::minerals, .007}});
    by_column["juice_g"] = make("juice", K::juice,
                                {{C::water, .86},
                                 {C::sucrose, .05},
                                 {C::glucose, .035},
                                 {C::fructose, .04},
                                 {C::acid, .007},
                                 {C::fibre, .005},
                                 {C::minerals, .003}});
    by_column["juice_g"].ph = 3.9;
    by_column["egg_g"] = make(
        "egg", K::egg,
        {{C::water, .76}, {C::protein, .126}, {C::fat, .1}, {C::minerals, .011}, {C::salt, .0036}});
    by_column["white_g"] =
        make("white", K::egg, {{C::water, .88}, {C::protein, .11}, {C::minerals, .007}});
    by_column["yolk_g"] = make(
        "yolk", K::egg, {{C::water, .52}, {C::protein, .16}, {C::fat, .27}, {C::minerals, .017}});
    by_column["sour_cream_g"] = make("sour-cream", K::dairy,
                                     {{C::water, .74},
                                      {C::protein, .024},
                                      {C::fat, .19},
                                      {C::lactose, .034},
                                      {C::acid, .007},
                                      {C::minerals, .006}});
    by_column["sour_cream_g"].ph = 4.5;
    by_column["milk_powder_g"] = make(
        "milk-powder", K::dairy,
        {{C::water, .03}, {C::protein, .36}, {C::fat, .01}, {C::lactose, .52}, {C::minerals, .08}});
    by_column["butter_g"] =
        make("butter", K::fat, {{C::water, .16}, {C::fat, .81}, {C::protein, .01}});
    by_column["oil_g"] = make("oil", K::fat, {{C::fat, 1.0}});
    by_column["sugar_g"] = make("sugar", K::sugar, {{C::sucrose, 1.0}});
    by_column["salt_g"] = make("salt", K::salt, {{C::minerals, 1.0}, {C::salt, 1.0}});
    // Gisslen, Professional Cooking, yeast section (read second hand): active dry 0.5,
    // instant 0.35 g for 1 g of fresh.
    yeasts["fresh"] = yeast_of(YeastKind::fresh, 1.0);
    yeasts["active_dry"] = yeast_of(YeastKind::active_dry, 2.0);
    yeasts["instant"] = yeast_of(YeastKind::instant, 2.86);
    yeasts["osmotolerant"] = yeast_of(YeastKind::osmotolerant_instant, 2.5);
  }
};

/// One rise of a recipe or an experiment.
struct Row {
  std::string id;
  std::map<std::string, double> grams;
  std::string yeast = "instant";
  double ready_min = 10.0;
  double dough_c = 27.0;
  double room_c = 27.0;
  double piece_g = 0.0;
  double kept = 1.0;
  double ratio = 2.0;
  double minutes_low = 0.0;
  double minutes_high = 0.0;
  std::string after;
  std::string use;
  bool temperature_stated = false;  // in figures, not in words
  std::string source;
};

inline std::string read_file(const std::string& path) {
  std::ifstream in(path);
  std::stringstream text;
  text << in.rdbuf();
  return text.str();
}

inline std::vector<Row> read_rows(const std::string& text) {
  const Shelf shelf;
  const Table table(text);
  std::vector<Row> rows;
  for (std::size_t i = 0; i < table.size(); ++i) {
    Row r;
    r.id = table.cell(i, "id");
    for (const auto& [column, ingredient] : shelf.by_column) {
      r.grams[column] = table.number(i, column);
    }
    r.grams["yeast_g"] = table.number(i, "yeast_g");
    r.yeast = table.cell(i, "yeast");
    r.ready_min = table.number(i, "ready_min");
    r.dough_c = table.number(i, "dough_c");
    r.room_c = table.number(i, "room_c");
    r.piece_g = table.number(i, "piece_g");
    r.kept = table.number(i, "kept", 1.0);
    r.ratio = table.number(i, "ratio", 2.0);
    r.minutes_low = table.number(i, "minutes_low");
    r.minutes_high = table.number(i, "minutes_high");
    r.after = table.cell(i, "after");
    r.use = table.cell(i, "use");
    r.temperature_stated = table.cell(i, "temperature_stated") == "figure";
    r.source = table.cell(i, "source");
    rows.push_back(r);
  }
  return rows;
}

inline Portions portions_of(const Shelf& shelf, const Row& row) {
  Portions p;
  for (const auto& [column, grams] : row.grams) {
    if (grams <= 0.0) {
      continue;
    }
    if (column == "yeast_g") {
      p.items.push_back({&shelf.yeasts.at(row.yeast), grams});
    } else {
      p.items.push_back({&shelf.by_column.at(column), grams});
    }
  }
  return p;
}

/// Standing, mixing and kneading: the yeast wakes, nothing is counted yet.
inline Prove readying(const Row& row) {
  Prove p;
  p.name = "ready";
  p.target = ProveTarget::minutes;
  p.value = row.ready_min;
  p.ambient = {{0.0, row.dough_c + 273.15}};
  return p;
}

inline Prove rising(const Row& row) {
  Prove p;
  p.name = row.id;
  p.target = row.ratio > 0.0 ? ProveTarget::volume_ratio : ProveTarget::minutes;
  p.value = row.ratio > 0.0 ? row.ratio : row.minutes_low;
  p.ambient = {{0.0, row.room_c + 273.15}};
  p.piece_g = row.piece_g;
  p.gas_kept_before = row.kept;
  return p;
}

/// The whole way to a row's rise: readying, the rise before it if any, knocking back
/// and ten minutes of shaping, the rise. Knocking back and shaping press out gas in
/// equal parts.
inline std::vector<Prove> way_to(const Row& row, const std::vector<Row>& rows) {
  std::vector<Prove> way = {readying(row)};
  for (const Row& before : rows) {
    if (!row.after.empty() && before.id == row.after) {
      way.push_back(rising(before));
      Prove shaping;
      shaping.name = "shaping";
      shaping.target = ProveTarget::minutes;
      shaping.value = 10.0;
      shaping.ambient = {{0.0, 24.0 + 273.15}};
      shaping.gas_kept_before = row.kept;
      way.push_back(shaping);
    }
  }
  way.push_back(rising(row));
  return way;
}

inline const Shelf k_shelf;

/// Minutes of a row's own rise, everything at its median.
inline double minutes_to(const Row& row, const std::vector<Row>& rows = {}) {
  const RiseDough dough = rise_dough(portions_of(k_shelf, row));
  const RiseState start = start_of_rise(dough, row.dough_c + 273.15);
  return run_proves(dough, start, way_to(row, rows)).proves.back().minutes_to_target[0];
}

inline std::vector<Row> table_rows() {
  return read_rows(read_file(std::string(MASLIN_SOURCE_DIR) + "/tests/published/rise_times.tsv"));
}

/// A row of the book of checks under "rise".
inline book::Figure rise(std::string what, std::string_view unit, std::string_view source,
                         book::Mark mark = book::Mark::read) {
  return {"rise", std::move(what), unit, source, mark};
}
inline constexpr std::string_view k_practice = "common practice, no source";

/// A dough of so many grams at one temperature, in a room of the same.
inline Row formula(std::map<std::string, double> grams, const char* yeast, double celsius) {
  Row row;
  row.grams = std::move(grams);
  row.yeast = yeast;
  row.dough_c = celsius;
  row.room_c = celsius;
  return row;
}

inline const Row& row_named(const std::vector<Row>& rows, const std::string& id) {
  return *std::find_if(rows.begin(), rows.end(), [&](const Row& r) { return r.id == id; });
}

}  // namespace rise_kit
