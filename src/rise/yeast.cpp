#include "rise/yeast.h"

#include "quantity/table.h"
#include "rise/embedded_table.h"
#include "rise/kinetics.h"

namespace maslin {
namespace {

Lanes effect_of(const Table& table, std::size_t row, const Lanes& pct) {
  const double half = table.number(row, "half_pct");
  const double full = table.number(row, "help_full_pct", 1.0);
  Lanes factor = 1.0 + table.number(row, "help") * min(pct / full, 1.0);
  if (half > 0.0) {
    factor /= 1.0 + pow(max(pct / half, 1e-12), table.number(row, "power", 1.0));
  }
  return factor;
}

}  // namespace

Lanes spice_factor(const Portions& portions, const Lanes& flour_g) {
  Lanes factor = 1.0;
  bool spiced = false;
  for (const Portions::Item& item : portions.items) {
    spiced = spiced || item.ingredient->kind == IngredientKind::spice;
  }
  if (!spiced) {
    return factor;
  }
  const Table table(rise_data::embedded_table("yeast_effects.tsv"));
  for (std::size_t row = 0; row < table.size(); ++row) {
    Lanes grams = 0.0;
    for (const Portions::Item& item : portions.items) {
      if (item.ingredient->id == table.cell(row, "id")) {
        grams += item.grams;
      }
    }
    factor *= effect_of(table, row, 100.0 * grams / max(flour_g, 1e-9));
  }
  return factor;
}

Lanes yeast_surviving(const Lanes& temperature_k, double minutes, const RiseConstants& constants) {
  return exp(-rise_model::death_rate_per_h(temperature_k, constants) * (minutes / 60.0));
}

YeastComfort yeast_comfort(double temperature_k) {
  const double celsius = temperature_k - 273.15;
  if (celsius < 43.0) {
    return YeastComfort::comfortable;
  }
  if (celsius < 50.0) {
    return YeastComfort::caution;
  }
  return celsius < 55.0 ? YeastComfort::damaging : YeastComfort::deadly;
}

}  // namespace maslin
