// Heat capacity, density and conductivity from what a dough is made of.
#pragma once

#include "numerics/lanes.h"
#include "properties/portion.h"

namespace maslin {

/// Mass fractions of the groups that the component models know; they sum to 1.
struct FoodFractions {
  Lanes water, protein, fat, carbohydrate, fibre, ash, alcohol;
};

/// The groups of a bowl: sugars, starch, other carbohydrate and acids count as
/// carbohydrate, salt and other minerals as ash. An empty bowl gives all zeros.
FoodFractions food_fractions(const Portions& portions);

/// Properties of a food without pores, at one temperature.
struct ThermalProperties {
  Lanes density_kg_per_m3;
  Lanes heat_capacity_j_per_kg_k;
  Lanes conductivity_parallel_w_per_m_k;  // heat along the layers: the upper bound
  Lanes conductivity_series_w_per_m_k;    // across them: the lower bound
};

/// Component models mixed by mass (heat capacity) and by volume (conductivity);
/// -40 to 150 degrees Celsius, no ice. The temperature is held inside that range.
/// Source: Choi and Okos 1986 as reprinted in ASHRAE Handbook Refrigeration, Thermal
/// properties of foods (coefficients read in a public implementation and in four
/// excerpts). Ethanol (2.44 kJ/kg K, 789 kg/m3, 0.17 W/m K) from memory.
ThermalProperties thermal_properties(const FoodFractions& food, const Lanes& temperature_k);

/// Conductivity with round pores of air: Maxwell-Eucken, the dough continuous, W/m K.
/// `porosity` is volume of pores per volume of the whole, 0 to 0.95.
Lanes porous_conductivity_w_per_m_k(const Lanes& dense_conductivity_w_per_m_k,
                                    const Lanes& porosity, const Lanes& temperature_k);

}  // namespace maslin
