// Sugar solutions: how much dissolves, how dense, how thick, over lanes.
#pragma once

#include "numerics/lanes.h"

namespace maslin {

/// Molar masses, g/mol.
inline constexpr double k_sucrose_g_per_mol = 342.30;
inline constexpr double k_water_g_per_mol = 18.0153;

/// Density of sucrose crystals, kg/m3. Source: handbooks give 1587-1588.
inline constexpr double k_sucrose_crystal_kg_m3 = 1588.0;

/// Sucrose in a saturated solution, g per g of solution; 0-100 C.
///
/// S = 64.186 + 0.13330 T + 5.813e-4 T^2 - 4.19e-7 T^3 (percent, T in C), fitted to
/// the table in Mohos 2010, Confectionery and Chocolate Engineering, tables A2.2 and
/// A2.3, within 0.04; other tables differ by up to 0.4 percent.
Lanes sucrose_saturation(const Lanes& celsius);

/// The same as g of sucrose per g of water.
Lanes sucrose_saturation_per_water(const Lanes& celsius);

/// Density of a sugar solution, kg/m3; `fraction` g sugar per g, 0-0.75, 0-80 C.
///
/// At 20 C: 1000 / ((1 - w)/0.9982 + w (0.6155 + 0.013 w + 0.013 w^2)), within 0.05 %
/// of NBS Circular 440 (its values from memory); falls by (0.25 + 0.35 w) per K (from
/// memory, within 5 kg/m3). Glucose and fructose solutions differ by under 0.5 %.
Lanes sugar_solution_kg_m3(const Lanes& fraction, const Lanes& celsius);

/// Viscosity of a sucrose solution, Pa s; `fraction` 0-0.80, 0-80 C.
///
/// log10(mPa s) = 22.46 x - 0.114 + F (1.1 + 43.1 x^1.25), x the mole fraction of
/// sucrose, F = (30 - T)/(91 + T). Source: Genotelle's form in Mathlouthi and Reiser
/// 1995, Sucrose (coefficients from memory), within 2.5 % of Bingham and Jackson 1918
/// at 40 and 60 %; 3.5 % low for plain water.
Lanes sucrose_solution_pa_s(const Lanes& fraction, const Lanes& celsius);
/// Its natural logarithm, for searches.
Lanes log_sucrose_solution_pa_s(const Lanes& fraction, const Lanes& celsius);

/// The fraction of sucrose that is as viscous as a mixture of sucrose and simple
/// sugars (all g per g of solution).
///
/// A simple sugar counts for 0.89 of its mass up to 60 % sugar in all, rising to 0.953 at
/// 80 %. Source: fitted to glucose and fructose solutions in Telis et al. 2007, Int. J.
/// Food Properties 10:185 (values read), and to clover honey of 16 % moisture from 14 to
/// 70 C (table read on a beekeepers' page).
Lanes sucrose_equal_in_viscosity(const Lanes& sucrose, const Lanes& simple_sugars);

}  // namespace maslin
