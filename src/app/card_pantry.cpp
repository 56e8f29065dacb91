#include "app/card_pantry.h"

#include <algorithm>
#include <functional>
#include <set>
#include <string_view>

#include "adjust/substitution.h"
#include "quantity/table.h"

namespace maslin {
namespace {

using Names = std::set<std::string, std::less<>>;

/// Heading and rows whose first cell is kept; comments stay behind.
std::string rows_of(std::string_view table, const std::function<bool(std::string_view)>& keep) {
  std::string out;
  bool heading = true;
  for (const std::string_view line : split(table, '\n')) {
    if (line.empty() || line.front() == '#') {
      continue;
    }
    if (heading || keep(line.substr(0, line.find('\t')))) {
      out += line;
      out += '\n';
    }
    heading = false;
  }
  return out;
}

void add_ids(std::string_view table, Names& names) {
  const Table rows(table);
  for (std::size_t row = 0; row < rows.size(); ++row) {
    names.emplace(rows.cell(row, "id"));
  }
}

Names needed(const Recipe& recipe, const PantryTables& tables) {
  Names names{"water"};
  for (const Part& part : recipe.parts) {
    for (const Line& line : part.lines) {
      names.insert(line.ingredient_id);
    }
  }
  const Names own = names;
  for (const Substitution& one : substitutions()) {
    if (own.contains(one.from)) {
      names.insert(one.to);
    }
  }
  add_ids(tables.flours, names);
  add_ids(tables.yeasts, names);
  return names;
}

}  // namespace

Json card_pantry(const Recipe& recipe) {
  const PantryTables tables = embedded_pantry_tables();
  const Names names = needed(recipe, tables);
  const auto of_recipe = [&names](std::string_view id) { return names.contains(id); };
  // Rows of a kind, or of anything, stand in where a food has none of its own.
  const auto or_general = [&names](std::string_view id) {
    return names.contains(id) || id.starts_with("kind:") || id == "any";
  };
  const auto all = [](std::string_view) { return true; };
  return {{"ingredients", rows_of(tables.ingredients, of_recipe)},
          {"flours", rows_of(tables.flours, all)},
          {"yeasts", rows_of(tables.yeasts, all)},
          {"densities", rows_of(tables.densities, or_general)},
          {"portions", rows_of(tables.portions, or_general)},
          {"measures", rows_of(tables.measures, all)},
          {"ovens", rows_of(tables.ovens, all)},
          {"fillings", rows_of(tables.fillings, or_general)},
          {"heaps", rows_of(tables.heaps, all)},
          {"locales", rows_of(tables.locales, all)},
          {"pieces", rows_of(tables.pieces, or_general)}};
}

Json card_measures(const Pantry& pantry) {
  Json out = Json::array();
  for (const Measure& measure : pantry.measures()) {
    out.push_back({{"locale", measure.locale}, {"unit", measure.unit}, {"ml", measure.ml}});
  }
  return out;
}

}  // namespace maslin
