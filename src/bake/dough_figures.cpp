#include "bake/dough_figures.h"

#include "properties/thermal.h"

namespace maslin {

DoughFigures dough_figures(const Portions& portions) {
  constexpr double k_mid_bake_k = 333.15;
  const Lanes total = portions.total_grams();
  const Mask some = total > Lanes(1e-9);
  DoughFigures lean;
  if (!any(some)) {
    return lean;
  }
  const FoodFractions food = food_fractions(portions);
  const ThermalProperties whole = thermal_properties(food, k_mid_bake_k);
  FoodFractions dry = food;
  dry.water = 0.0;
  dry.alcohol = 0.0;
  const Lanes solids =
      clamp(food.protein + food.fat + food.carbohydrate + food.fibre + food.ash, 0.02, 1.0);
  const ThermalProperties dry_part = thermal_properties(dry, k_mid_bake_k);
  const auto grams = portions.components();
  const auto of = [&grams](Component c) { return grams[static_cast<std::size_t>(c)]; };
  const Lanes sugars = of(Component::sucrose) + of(Component::glucose) + of(Component::fructose) +
                       of(Component::lactose) + of(Component::maltose);
  const Lanes per_solids = 100.0 / (max(total, 1e-9) * solids);
  const Binding bound = binding(portions);
  DoughFigures out;
  out.water_share = select(some, food.water, lean.water_share);
  out.solids_share = select(some, solids, lean.solids_share);
  out.solids_heat_j_per_kg_k =
      select(some, dry_part.heat_capacity_j_per_kg_k / solids, lean.solids_heat_j_per_kg_k);
  out.density_kg_per_m3 = select(some, whole.density_kg_per_m3, lean.density_kg_per_m3);
  out.conductivity_w_per_m_k = select(
      some, 0.5 * (whole.conductivity_parallel_w_per_m_k + whole.conductivity_series_w_per_m_k),
      lean.conductivity_w_per_m_k);
  out.sugar_pct_solids = select(some, sugars * per_solids, lean.sugar_pct_solids);
  out.protein_pct_solids =
      select(some, of(Component::protein) * per_solids, lean.protein_pct_solids);
  out.fat_pct_solids = select(some, of(Component::fat) * per_solids, lean.fat_pct_solids);
  out.binding.polymer_share = select(some, bound.polymer_share, lean.binding.polymer_share);
  out.binding.solute_mol_per_kg_solids =
      select(some, bound.solute_mol_per_kg_solids, lean.binding.solute_mol_per_kg_solids);
  return out;
}

}  // namespace maslin
