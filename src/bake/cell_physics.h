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
  Lanes conductivity_x;
  Lanes vapour_t;
  Lanes vapour_x;
};

/// e^x to 3e-10 for |x| < 700: the lanes' own exp with fewer terms.
inline Lanes exp_short(const Lanes& x) {
  constexpr double k_log2e = 1.4426950408889634074;
  constexpr double k_ln2_high = 6.93147180369123816490e-01;
  constexpr double k_ln2_low = 1.90821492927058770002e-10;
  constexpr double k_round = 6755399441055744.0;  // 1.5 * 2^52: adding it rounds
  const Lanes shifted = clamp(x, -700.0, 700.0) * k_log2e + k_round;
  const Lanes n = shifted - k_round;
  const Lanes r = (x - n * k_ln2_high) - n * k_ln2_low;
  Lanes p = 1.0 / 40320.0;
  p = p * r + 1.0 / 5040.0;
  p = p * r + 1.0 / 720.0;
  p = p * r + 1.0 / 120.0;
  p = p * r + 1.0 / 24.0;
  p = p * r + 1.0 / 6.0;
  p = p * r + 0.5;
  p = p * r + 1.0;
  p = p * r + 1.0;
  const auto bits = std::bit_cast<WordVector>(shifted.v);
  const WordVector power = (bits << 52) + (std::int64_t{1023} << 52);
  return Lanes(p.v * std::bit_cast<DoubleVector>(power));
}

/// A positive normal x as 2^exponent times a mantissa between 1/sqrt 2 and sqrt 2.
struct Scaled {
  Lanes exponent, mantissa;
};
inline Scaled scaled(const Lanes& x) {
  const auto bits = std::bit_cast<WordVector>(x.v);
  const WordVector shifted = bits - 0x3fe6a09e667f3bcdLL;
  const WordVector exponent = exponent_bits(shifted);
  const Lanes m(std::bit_cast<DoubleVector>(bits - (exponent << 52)));
  constexpr double k_magic = 6755399441055744.0;
  const auto magic = std::bit_cast<std::int64_t>(k_magic);
  return {Lanes(std::bit_cast<DoubleVector>(exponent + magic)) - k_magic, m};
}

/// ln x to 1e-9, likewise; `over` is one over mantissa + 1.
inline Lanes log_short(const Scaled& x, const Lanes& over) {
  constexpr double k_ln2 = 6.93147180559945309417e-01;
  const Lanes s = (x.mantissa - 1.0) * over;
  const Lanes z = s * s;
  Lanes q = 2.0 / 9.0;
  q = q * z + 2.0 / 7.0;
  q = q * z + 2.0 / 5.0;
  q = q * z + 2.0 / 3.0;
  q = q * z + 2.0;
  return x.exponent * k_ln2 + s * q;
}
inline Lanes log_short(const Lanes& x) {
  const Scaled parts = scaled(x);
  return log_short(parts, 1.0 / (parts.mantissa + 1.0));
}

/// ln of the saturation pressure and its derivative: a quartic in 373.15/T - 1 fitted to
/// the IAPWS line, 0.1 % over 260 to 560 K (own fit); held above, where a crust is coal.
inline constexpr double k_saturation_held_from_k = 560.0;
/// `over`: one over the temperature, at most that from which it is held.
inline Lanes log_saturation(const Lanes& temperature_k, const Lanes& over, Lanes& by_temperature) {
  const Lanes ratio = 373.15 * over;
  const Lanes x = ratio - 1.0;
  const Lanes value =
      11.5265805512 +
      x * (-13.3043242512 + x * (-1.90476469354 + x * (-0.166324531189 + x * 1.23563133407)));
  const Lanes slope =
      -13.3043242512 +
      x * (2.0 * -1.90476469354 + x * (3.0 * -0.166324531189 + x * (4.0 * 1.23563133407)));
  by_temperature =
      select(temperature_k < Lanes(k_saturation_held_from_k), -slope * ratio * over, 0.0);
  return value;
}
inline Lanes log_saturation(const Lanes& temperature_k, Lanes& by_temperature) {
  return log_saturation(temperature_k, 1.0 / min(temperature_k, k_saturation_held_from_k),
                        by_temperature);
}

inline constexpr double k_isotherm_exponent = 1.0 / 0.38;
inline constexpr double k_isotherm_slope_per_k = 0.0056;
inline constexpr double k_least_water = 1e-4;  // kg/kg, under which a cell counts as dry

/// ln of (1 - a) / a for the water activity of starch and protein in the cell.
inline Lanes log_dry_odds(const ColumnFigures& f, const Lanes& temperature_k,
                          const Lanes& log_water) {
  return (f.isotherm_offset - log_water - k_isotherm_slope_per_k * (temperature_k - 298.15)) *
         k_isotherm_exponent;
}

/// Water activity of the cell; see properties/water_activity.h for the two factors.
inline Lanes cell_water_activity(const ColumnFigures& f, const Lanes& temperature_k,
                                 const Lanes& water) {
  const Lanes x = max(water, k_least_water);
  return x /
         ((x + f.solute_water) * (1.0 + exp_short(log_dry_odds(f, temperature_k, log_short(x)))));
}

/// -ln(1 - y) for 0 <= y <= 0.6 to 3e-8: twice the inverse hyperbolic tangent of y/(2-y);
/// `over` is one over 2 - y.
inline Lanes minus_log_one_less(const Lanes& y, const Lanes& over) {
  const Lanes s = y * over;
  const Lanes z = s * s;
  Lanes q = 2.0 / 15.0;
  q = q * z + 2.0 / 13.0;
  q = q * z + 2.0 / 11.0;
  q = q * z + 2.0 / 9.0;
  q = q * z + 2.0 / 7.0;
  q = q * z + 2.0 / 5.0;
  q = q * z + 2.0 / 3.0;
  q = q * z + 2.0;
  return s * q;
}

/// Vapour diffuses against air that stands still (Stefan): potential -P ln(1 - y) with
/// y = vapour pressure / P. From y = 0.6 the logarithm goes on as its tangent, so that
/// evaporation and condensation carry what Purlis and Salvadori's conductivity asks near
/// boiling; around y = 1 the slope climbs to that of steam blown through pores (Darcy).
inline CellPhysics cell_physics(const ColumnFigures& f, const Lanes& temperature_k,
                                const Lanes& water) {
  constexpr double k_tangent_from = 0.6;
  constexpr double k_relief_from = 0.85;
  constexpr double k_relief_width = 0.15;
  constexpr double k_relief = 30.0;
  const Lanes x = max(water, k_least_water);
  // Divisions are what costs: where two divisors are known together, one over their product
  // times the other does for both.
  const Scaled parts = scaled(x);
  const Lanes above = parts.mantissa + 1.0;
  const Lanes warm = min(temperature_k, k_saturation_held_from_k);
  const Lanes over_both = 1.0 / (above * warm);
  const Lanes log_water = log_short(parts, over_both * warm);
  const Lanes dry_odds = exp_short(log_dry_odds(f, temperature_k, log_water));
  // Thickness of a drying crust: 1 - shrink (1 - X/X0), and heat crosses it.
  const Lanes wet = min(x * f.inverse_first_water, 1.0);
  const Lanes wet_x = select(wet < Lanes(1.0), f.inverse_first_water, 0.0);
  const Lanes thick = 1.0 - f.crust_shrink * (1.0 - wet);
  // X/(X + 0.15), 1 at the first water.
  const Lanes moist = x + 0.15;
  const Lanes crossed = moist * thick;
  // One division for both factors of the water activity and for the crust.
  const Lanes wetted = x + f.solute_water;
  const Lanes whole = 1.0 + dry_odds;
  const Lanes bound = wetted * whole;
  const Lanes over_all = 1.0 / (bound * crossed);
  const Lanes inverse = over_all * crossed;
  const Lanes scale = over_all * bound;
  const Lanes unbound = dry_odds * wetted * inverse;  // 1 - a of the polymers
  const Lanes solution = whole * inverse;             // 1 / (x + solute water)
  Lanes log_slope;
  const Lanes log_pure = log_saturation(temperature_k, over_both * above, log_slope);
  const Lanes y_over_x = inverse * exp_short(log_pure) * f.inverse_pressure;
  // Under the least water the isotherm goes straight to nothing, and past it, so that a
  // cell that a step has overdrawn pulls its water back.
  const Lanes y = y_over_x * water;
  const Lanes y_t = y * (log_slope + (k_isotherm_slope_per_k * k_isotherm_exponent) * unbound);
  const Lanes curved = k_isotherm_exponent * unbound + f.solute_water * solution;
  const Lanes y_x = y_over_x * select(water > Lanes(k_least_water), curved, 1.0);
  const Lanes low = min(y, k_tangent_from);
  const Lanes less = 1.0 - low;
  const Lanes over_gaps = 1.0 / (less * (1.0 + less));
  const Lanes gap = over_gaps * (1.0 + less);
  const Lanes over = max(y - k_relief_from, 0.0);
  const Lanes ramp = min(over, k_relief_width);
  const Lanes slope = f.pressure * (gap + (k_relief / k_relief_width) * ramp);
  const Lanes relief = (k_relief / k_relief_width) * ramp * (over - 0.5 * ramp);
  CellPhysics out;
  out.potential =
      f.pressure * ((y - low) * gap + minus_log_one_less(low, over_gaps * less) + relief);
  out.potential_t = slope * y_t;
  out.potential_x = slope * y_x;
  out.conductivity = (f.conductivity_dry * moist + f.conductivity_gain * x) * scale;
  out.conductivity_x = (f.conductivity_dry + f.conductivity_gain -
                        out.conductivity * (thick + moist * f.crust_shrink * wet_x)) *
                       scale;
  // D M / (R T), D = 2.56e-5 (T/298.15)^1.81 (101325/P): T^0.81 by its tangent at 373 K.
  constexpr double k_warmth = 0.81 / 373.15;
  const Lanes free = f.free_vapour * (1.0 + k_warmth * (temperature_k - 373.15));
  const Lanes passage = f.crust_passage + (1.0 - f.crust_passage) * wet;
  out.vapour = passage * free;
  out.vapour_t = passage * f.free_vapour * k_warmth;
  out.vapour_x = (1.0 - f.crust_passage) * wet_x * free;
  return out;
}

}  // namespace maslin
