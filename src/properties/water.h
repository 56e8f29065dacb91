// Water as a baker meets it: when it boils, how hard it wants to leave, what that
// costs. Over lanes.
#pragma once

#include "numerics/lanes.h"

namespace maslin {

inline constexpr double k_standard_pressure_pa = 101325.0;
inline constexpr double k_zero_celsius_k = 273.15;
inline constexpr double k_gas_constant_j_per_mol_k = 8.31446;
inline constexpr double k_water_molar_mass_kg_per_mol = 0.018015;

/// Saturation vapour pressure over liquid water, Pa; 273.16 K to 647.096 K.
/// ln(p/pc) = (Tc/T) (a1 s + a2 s^1.5 + a3 s^3 + a4 s^3.5 + a5 s^4 + a6 s^7.5), s = 1 - T/Tc.
/// Below the range it goes on as the formula does (supercooled water, within 1 % to
/// 253 K); above it stays at the critical pressure.
/// Source: Wagner and Pruss 1993, J. Phys. Chem. Ref. Data 22:783 (coefficients from
/// memory, checked against the IAPWS-95 tables by the published tests).
Lanes saturation_pressure_pa(const Lanes& temperature_k);

/// Temperature at which pure water boils under this pressure, K; 700 Pa to 1.5 MPa,
/// to 1e-6 K (Newton on ln p over 1/T).
Lanes boiling_point_k(const Lanes& pressure_pa);

/// Air pressure of the standard atmosphere, Pa; -400 m to 11 000 m.
/// p = 101325 (1 - 2.25577e-5 z)^5.25588. Source: ISO 2533:1975 (constants from memory).
Lanes pressure_at_altitude_pa(const Lanes& altitude_m);

/// Heat of evaporation of water, J/kg; 273 K to 423 K within 1 kJ/kg of steam tables.
/// 2500.9 - 2.3072 t - 0.001352 t^2 kJ/kg, t in degrees Celsius. Source: own fit to
/// steam-table points 20, 60, 90, 100 degrees (2453.5, 2357.6, 2282.5, 2256.7 kJ/kg).
Lanes latent_heat_j_per_kg(const Lanes& temperature_k);

/// Diffusivity of water vapour in air, m2/s; 270 K to 450 K.
/// 2.56e-5 (T/298.15)^1.81 (101325/P). Source: from memory (form of Marrero and Mason
/// 1972 with the exponent 1.81 used for humid air).
Lanes vapour_diffusivity_m2_per_s(const Lanes& temperature_k, const Lanes& pressure_pa);

}  // namespace maslin
