// What a cell of dough, crumb or crust does at a temperature and water content.
// In a header because the stepper must see it whole to keep the lanes in registers.
#pragma once

#include "bake/column.h"
#include "properties/water.h"

namespace maslin {

inline constexpr double k_liquid_heat_j_per_kg_k = 4186.0;
inline constexpr double k_vapour_heat_j_per_kg_k = 1900.0;
inline constexpr double k_vapour_at_zero_celsius_j_per_kg = 2.501e6;
inline constexpr double k_stefan_boltzmann = 5.670374e-8;

struct CellPhysics {
  Lanes conductivity;  // W/m K, with the crust's shrinking in it
  Lanes vapour;        // kg/m s Pa, same
  Lanes potential;     // Pa: what drives vapour, grows with vapour pressure
  Lanes potential_t;   // its derivative by temperature, Pa/K
  Lanes potential_x;   // by water, Pa
};

/// ln of the saturation pressure and its derivative: a quartic in 373.15/T - 1 fitted to
/// the IAPWS line, 0.1 % over 260 to 560 K and rising ever after (own fit).
inline Lanes log_saturation(const Lanes& temperature_k, Lanes& by_temperature) {
  const Lanes ratio = 373.15 / temperature_k;
  const Lanes x = ratio - 1.0;
  const Lanes value =
      11.5265805512 +
      x * (-13.3043242512 + x * (-1.90476469354 + x * (-0.166324531189 + x * 1.23563133407)));
  const Lanes slope =
      -13.3043242512 +
      x * (2.0 * -1.90476469354 + x * (3.0 * -0.166324531189 + x * (4.0 * 1.23563133407)));
  by_temperature = -slope * ratio * ratio * (1.0 / 373.15);
  return value;
}

/// Water activity of the cell; see properties/water_activity.h for the two factors.
inline Lanes cell_water_activity(const ColumnFigures& f, const Lanes& temperature_k,
                                 const Lanes& water) {
  const Lanes x = max(water, 1e-4);
  const Lanes log_odds =
      (log(x / (0.125 * f.polymer_share)) + 0.0056 * (temperature_k - 298.15)) * (1.0 / 0.38);
  return x / ((x + f.solute_water) * (1.0 + exp(-log_odds)));
}

/// Vapour diffuses against air that stands still (Stefan): potential -P ln(1 - y) with
/// y = vapour pressure / P. Past y = 0.95 the logarithm goes on as its tangent, and past
/// 1 a growing term lets the steam flow out as through a sieve (Darcy).
inline CellPhysics cell_physics(const ColumnFigures& f, const Lanes& temperature_k,
                                const Lanes& water) {
  constexpr double k_tangent_from = 0.6;
  constexpr double k_relief = 4000.0;
  const Lanes x = max(water, 1e-4);
  const Lanes log_odds =
      (log(x / (0.125 * f.polymer_share)) + 0.0056 * (temperature_k - 298.15)) * (1.0 / 0.38);
  const Lanes polymer = 1.0 / (1.0 + exp(-log_odds));
  const Lanes solution = 1.0 / (x + f.solute_water);
  Lanes log_slope;
  const Lanes log_pure = log_saturation(temperature_k, log_slope);
  const Lanes y = polymer * x * solution * exp(log_pure) / f.pressure;
  const Lanes y_t = y * (log_slope + (0.0056 / 0.38) * (1.0 - polymer));
  const Lanes y_x = y * ((1.0 / 0.38) * (1.0 - polymer) + f.solute_water * solution) / x;
  const Lanes low = min(y, k_tangent_from);
  const Lanes gap = 1.0 / (1.0 - low);
  const Lanes over = max(y - 1.0, 0.0);
  const Lanes slope = gap + k_relief * over;
  CellPhysics out;
  out.potential = f.pressure * ((y - low) * gap - log(1.0 - low) + 0.5 * k_relief * over * over);
  out.potential_t = f.pressure * slope * y_t;
  out.potential_x = f.pressure * slope * y_x;
  // Thickness of a drying crust: 1 - shrink (1 - X/X0), and everything crosses it.
  const Lanes wet = min(x / f.first_water, 1.0);
  const Lanes thin = 1.0 / (1.0 - f.crust_shrink * (1.0 - wet));
  const Lanes share = x * (f.first_water + 0.15) / (f.first_water * (x + 0.15));
  out.conductivity =
      thin * (f.conductivity_dry + (f.conductivity_wet - f.conductivity_dry) * share);
  // D M / (R T), D = 2.56e-5 (T/298.15)^1.81 (101325/P): T^0.81 by its tangent at 373 K.
  const Lanes free = (2.56e-5 * 1.5010 * 101325.0 * k_water_molar_mass_kg_per_mol /
                      (k_gas_constant_j_per_mol_k * 373.15)) /
                     f.pressure * (1.0 + 0.81 / 373.15 * (temperature_k - 373.15));
  out.vapour = f.vapour_passage * (f.crust_passage + (1.0 - f.crust_passage) * wet) * free;
  return out;
}

}  // namespace maslin
