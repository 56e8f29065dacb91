// Doughs as the tables of published times give them.
#pragma once

#include "bake/dough_figures.h"
#include "properties/thermal.h"

namespace maslin {

/// A dough from its water (share of the dough) and sugar and fat (of the flour), all in
/// per cent, made of a flour of 14 % moisture and 11.5 % protein with 2 % salt.
inline DoughFigures dough_of(double water_pct, double sugar_pct, double fat_pct) {
  const double solids = 86.0 + sugar_pct + fat_pct + 2.0;
  const double dry = 1.0 - water_pct / 100.0;
  FoodFractions food;
  food.water = water_pct / 100.0;
  food.protein = dry * 11.5 / solids;
  food.fat = dry * (1.2 + fat_pct) / solids;
  food.fibre = dry * 2.7 / solids;
  food.ash = dry * 2.6 / solids;
  food.carbohydrate = dry * (70.0 + sugar_pct) / solids;
  food.alcohol = 0.0;
  const ThermalProperties whole = thermal_properties(food, 333.15);
  FoodFractions without_water = food;
  without_water.water = 0.0;
  DoughFigures out;
  out.water_share = water_pct / 100.0;
  out.solids_share = dry;
  out.solids_heat_j_per_kg_k =
      thermal_properties(without_water, 333.15).heat_capacity_j_per_kg_k / dry;
  out.density_kg_per_m3 = whole.density_kg_per_m3;
  out.conductivity_w_per_m_k =
      0.5 * (whole.conductivity_parallel_w_per_m_k + whole.conductivity_series_w_per_m_k);
  out.sugar_pct_solids = 100.0 * sugar_pct / solids + 1.5;
  out.fat_pct_solids = 100.0 * fat_pct / solids;
  out.binding.polymer_share = (84.0) / solids;
  out.binding.solute_mol_per_kg_solids = 1000.0 * (sugar_pct / 300.0 + 0.07) / solids;
  return out;
}

}  // namespace maslin
