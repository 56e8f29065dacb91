#include "dough/hydration.h"

#include <algorithm>

#include "quantity/table.h"

namespace maslin {
namespace {

CountsAsFlour counts_as_flour_from(std::string_view word) {
  if (word == "yes") {
    return CountsAsFlour::yes;
  }
  if (word == "solids") {
    return CountsAsFlour::by_solids;
  }
  return word == "starch" ? CountsAsFlour::by_starch : CountsAsFlour::no;
}

/// "dry", "oil" and "floury" as the head of data/hydration.tsv defines them.
std::string_view variant_of(const Ingredient& ingredient) {
  const Composition& c = ingredient.composition;
  if (ingredient.kind == IngredientKind::fat && c[Component::water] < 0.02 &&
      c[Component::saturated] < 0.25 * c[Component::fat]) {
    return ":oil";
  }
  if (ingredient.kind == IngredientKind::cooked && ingredient.flour.absorption_pct > 0.0) {
    return ":floury";
  }
  return c[Component::water] < 0.10 ? ":dry" : "";
}

}  // namespace

HydrationTable::HydrationTable(std::string_view text) {
  const Table table(text);
  for (std::size_t row = 0; row < table.size(); ++row) {
    const HydrationCoefficients coefficients{counts_as_flour_from(table.cell(row, "flour")),
                                             table.number(row, "water"),
                                             table.number(row, "sugar"),
                                             table.number(row, "fat"),
                                             table.number(row, "protein"),
                                             table.number(row, "starch"),
                                             table.number(row, "fibre"),
                                             table.number(row, "whole"),
                                             table.number(row, "buffer")};
    rows_.emplace(table.cell(row, "key"), coefficients);
    if (table.cell(row, "key") == "default") {
      otherwise_ = coefficients;
    }
  }
}

const HydrationCoefficients& HydrationTable::of(const Ingredient& ingredient) const {
  const std::string kind = "kind:" + std::string(kind_name(ingredient.kind));
  for (const std::string& key : {ingredient.id, kind + std::string(variant_of(ingredient)), kind}) {
    if (const auto at = rows_.find(key); at != rows_.end()) {
      return at->second;
    }
  }
  return otherwise_;
}

double whole_equivalent(const Ingredient& ingredient, const HydrationCoefficients& coefficients) {
  const bool takes_up_water =
      ingredient.kind == IngredientKind::bran_germ || ingredient.kind == IngredientKind::grain;
  return takes_up_water && ingredient.flour.absorption_pct > 0.0
             ? -ingredient.flour.absorption_pct / 100.0
             : coefficients.whole;
}

double flour_share(const Ingredient& ingredient, const HydrationCoefficients& coefficients) {
  // Flour as sold holds 14 % water and, when white, about 70 % starch.
  constexpr double k_flour_solids = 0.86;
  constexpr double k_flour_starch = 0.70;
  switch (coefficients.flour) {
    case CountsAsFlour::yes:
      return 1.0;
    case CountsAsFlour::by_solids:
      return std::min(1.0, (1.0 - ingredient.composition[Component::water]) / k_flour_solids);
    case CountsAsFlour::by_starch:
      return std::min(1.0, ingredient.composition[Component::starch] / k_flour_starch);
    case CountsAsFlour::no:
      break;
  }
  return 0.0;
}

}  // namespace maslin
