// What a cell of dough, crumb or crust does at a temperature and water content.
// In a header because the stepper must see it whole to keep the lanes in registers.
#pragma once

#include "bake/column.h"
#include "properties/water.h"

namespace maslin {

inline constexpr double k_liquid_heat_j_per_kg_k = 4186.0;
/// Chosen together with the liquid's so that evaporation costs what IAPWS-IF97 gives,
/// to 0.1 % over 0 to 100 degrees (steam.tsv of the published tests).
inline constexpr double k_vapour_heat_j_per_kg_k = 1731.0;
inline constexpr double k_vapour_at_zero_celsius_j_per_kg = 2.503e6;
inline constexpr double k_stefan_boltzmann = 5.670374e-8;

template <typename Real>
struct CellPhysicsOf {
  Real conductivity;  // W/m K, with the crust's shrinking in it
  Real vapour;        // kg/m s Pa, same
  Real potential;     // Pa: what drives vapour, grows with vapour pressure
  Real potential_t;   // its derivative by temperature, Pa/K
  Real potential_x;   // by water, Pa
  Real conductivity_x;
  Real vapour_t;
  Real vapour_x;
};
using CellPhysics = CellPhysicsOf<Lanes>;

/// e^x to 3e-10 for |x| < 700: the lanes' own exp with fewer terms.
template <typename Real>
inline Real exp_short(const Real& x) {
  constexpr double k_log2e = 1.4426950408889634074;
  constexpr double k_ln2_high = 6.93147180369123816490e-01;
  constexpr double k_ln2_low = 1.90821492927058770002e-10;
  constexpr double k_round = 6755399441055744.0;  // 1.5 * 2^52: adding it rounds
  const Real shifted = clamp(x, -700.0, 700.0) * k_log2e + k_round;
  const Real n = shifted - k_round;
  const Real r = (x - n * k_ln2_high) - n * k_ln2_low;
  Real p = 1.0 / 40320.0;
  p = p * r + 1.0 / 5040.0;
  p = p * r + 1.0 / 720.0;
  p = p * r + 1.0 / 120.0;
  p = p * r + 1.0 / 24.0;
  p = p * r + 1.0 / 6.0;
  p = p * r + 0.5;
  p = p * r + 1.0;
  p = p * r + 1.0;
  const auto bits = std::bit_cast<typename Real::Words>(shifted.v);
  const typename Real::Words power = (bits << 52) + (std::int64_t{1023} << 52);
  return Real(p.v * std::bit_cast<decltype(x.v)>(power));
}

/// A positive normal x as 2^exponent times a mantissa between 1/sqrt 2 and sqrt 2.
template <typename Real>
struct Scaled {
  Real exponent, mantissa;
};
template <typename Real>
inline Scaled<Real> scaled(const Real& x) {
  const auto bits = std::bit_cast<typename Real::Words>(x.v);
  const typename Real::Words shifted = bits - 0x3fe6a09e667f3bcdLL;
  const typename Real::Words exponent = exponent_bits(shifted);
  const Real m(std::bit_cast<decltype(x.v)>(bits - (exponent << 52)));
  constexpr double k_magic = 6755399441055744.0;
  const auto magic = std::bit_cast<std::int64_t>(k_magic);
  return {Real(std::bit_cast<decltype(x.v)>(exponent + magic)) - k_magic, m};
}

/// ln x to 1e-9, likewise; `over` is one over mantissa + 1.
template <typename Real>
inline Real log_short(const Scaled<Real>& x, const Real& over) {
  constexpr double k_ln2 = 6.93147180559945309417e-01;
  const Real s = (x.mantissa - 1.0) * over;
  const Real z = s * s;
  Real q = 2.0 / 9.0;
  q = q * z + 2.0 / 7.0;
  q = q * z + 2.0 / 5.0;
  q = q * z + 2.0 / 3.0;
  q = q * z + 2.0;
  return x.exponent * k_ln2 + s * q;
}
template <typename Real>
inline Real log_short(const Real& x) {
  const Scaled<Real> parts = scaled(x);
  return log_short(parts, 1.0 / (parts.mantissa + 1.0));
}

/// ln of the saturation pressure and its derivative: a quartic in 373.15/T - 1 fitted to
/// the IAPWS line, 0.11 % over 260 to 560 K (own fit); held above, where a crust is coal.
inline constexpr double k_saturation_held_from_k = 560.0;
/// `over`: one over the temperature, at most that from which it is held.
template <typename Real>
inline Real log_saturation(const Also<Real>& temperature_k, const Also<Real>& over,
                           Real& by_temperature) {
  const Real ratio = 373.15 * over;
  const Real x = ratio - 1.0;
  const Real value =
      11.5265805512 +
      x * (-13.3043242512 + x * (-1.90476469354 + x * (-0.166324531189 + x * 1.23563133407)));
  const Real slope = -13.3043242512 + x * (2.0 * -1.90476469354 +
                                           x * (3.0 * -0.166324531189 + x * (4.0 * 1.23563133407)));
  by_temperature =
      select(temperature_k < Real(k_saturation_held_from_k), -slope * ratio * over, 0.0);
  return value;
}
template <typename Real>
inline Real log_saturation(const Also<Real>& temperature_k, Real& by_temperature) {
  return log_saturation(temperature_k, 1.0 / min(temperature_k, k_saturation_held_from_k),
                        by_temperature);
}

inline constexpr double k_isotherm_exponent = 1.0 / 0.38;
inline constexpr double k_isotherm_slope_per_k = 0.0056;
inline constexpr double k_least_water = 1e-4;  // kg/kg, under which a cell counts as dry

/// ln of (1 - a) / a for the water activity of starch and protein in the cell.
template <typename Real>
inline Real log_dry_odds(const CellFigures<Real>& f, const Also<Real>& temperature_k,
                         const Also<Real>& log_water) {
  return (f.isotherm_offset - log_water - k_isotherm_slope_per_k * (temperature_k - 298.15)) *
         k_isotherm_exponent;
}

/// Water activity of the cell; see properties/water_activity.h for the two factors.
template <typename Real>
inline Real cell_water_activity(const CellFigures<Real>& f, const Also<Real>& temperature_k,
                                const Also<Real>& water) {
  const Real x = max(water, k_least_water);
  return x /
         ((x + f.solute_water) * (1.0 + exp_short(log_dry_odds(f, temperature_k, log_short(x)))));
}

/// -ln(1 - y) for 0 <= y <= 0.6 to 3e-8: twice the inverse hyperbolic tangent of y/(2-y);
/// `over` is one over 2 - y.
template <typename Real>
inline Real minus_log_one_less(const Real& y, const Real& over) {
  const Real s = y * over;
  const Real z = s * s;
  Real q = 2.0 / 15.0;
  q = q * z + 2.0 / 13.0;
  q = q * z + 2.0 / 11.0;
  q = q * z + 2.0 / 9.0;
  q = q * z + 2.0 / 7.0;
  q = q * z + 2.0 / 5.0;
  q = q * z + 2.0 / 3.0;
  q = q * z + 2.0;
  return s * q;
}

/// What a cell's physics takes exponentials of.
template <typename Real>
struct CellLogs {
  Real dry_odds;    // ln of (1 - a) / a of starch and protein
  Real pure;        // ln of the saturation pressure
  Real pure_slope;  // its derivative by temperature, 1/K
};

template <typename Real>
inline CellLogs<Real> cell_logs(const CellFigures<Real>& f, const Also<Real>& temperature_k,
                                const Also<Real>& water) {
  // Divisions are what costs: where two divisors are known together, one over their product
  // times the other does for both.
  const Scaled<Real> parts = scaled(max(water, Real(k_least_water)));
  const Real above = parts.mantissa + 1.0;
  const Real warm = min(temperature_k, k_saturation_held_from_k);
  const Real over_both = 1.0 / (above * warm);
  CellLogs<Real> out;
  out.dry_odds = log_dry_odds(f, temperature_k, log_short(parts, Real(over_both * warm)));
  out.pure = log_saturation(temperature_k, over_both * above, out.pure_slope);
  return out;
}

/// Vapour diffuses against air that stands still (Stefan): potential -P ln(1 - y) with
/// y = vapour pressure / P. From y = 0.6 the logarithm goes on as its tangent, so that
/// evaporation and condensation carry what Purlis and Salvadori's conductivity asks near
/// boiling; around y = 1 the slope climbs to that of steam blown through pores (Darcy).
/// From the exponentials of the logarithms above, and the slope of the second.
template <typename Real>
inline CellPhysicsOf<Real> cell_physics(const CellFigures<Real>& f, const Also<Real>& temperature_k,
                                        const Also<Real>& water, const Also<Real>& dry_odds,
                                        const Also<Real>& pure_pa, const Also<Real>& pure_slope) {
  constexpr double k_tangent_from = 0.6;
  constexpr double k_relief_from = 0.85;
  constexpr double k_relief_width = 0.15;
  constexpr double k_relief = 30.0;
  const Real x = max(water, k_least_water);
  // Thickness of a drying crust: 1 - shrink (1 - X/X0), and heat crosses it.
  const Real wet = min(x * f.inverse_first_water, 1.0);
  const Real wet_x = select(wet < Real(1.0), f.inverse_first_water, 0.0);
  const Real thick = 1.0 - f.crust_shrink * (1.0 - wet);
  // X/(X + 0.15), 1 at the first water.
  const Real moist = x + 0.15;
  const Real crossed = moist * thick;
  // One division for both factors of the water activity and for the crust.
  const Real wetted = x + f.solute_water;
  const Real whole = 1.0 + dry_odds;
  const Real bound = wetted * whole;
  const Real over_all = 1.0 / (bound * crossed);
  const Real inverse = over_all * crossed;
  const Real scale = over_all * bound;
  const Real unbound = dry_odds * wetted * inverse;  // 1 - a of the polymers
  const Real solution = whole * inverse;             // 1 / (x + solute water)
  const Real y_over_x = inverse * pure_pa * f.inverse_pressure;
  // Under the least water the isotherm goes straight to nothing, and past it, so that a
  // cell that a step has overdrawn pulls its water back.
  const Real y = y_over_x * water;
  const Real y_t = y * (pure_slope + (k_isotherm_slope_per_k * k_isotherm_exponent) * unbound);
  const Real curved = k_isotherm_exponent * unbound + f.solute_water * solution;
  const Real y_x = y_over_x * select(water > Real(k_least_water), curved, 1.0);
  const Real low = min(y, k_tangent_from);
  const Real less = 1.0 - low;
  const Real over_gaps = 1.0 / (less * (1.0 + less));
  const Real gap = over_gaps * (1.0 + less);
  const Real over = max(y - k_relief_from, 0.0);
  const Real ramp = min(over, k_relief_width);
  const Real slope = f.pressure * (gap + (k_relief / k_relief_width) * ramp);
  const Real relief = (k_relief / k_relief_width) * ramp * (over - 0.5 * ramp);
  CellPhysicsOf<Real> out;
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
  const Real free = f.free_vapour * (1.0 + k_warmth * (temperature_k - 373.15));
  const Real passage = f.crust_passage + (1.0 - f.crust_passage) * wet;
  out.vapour = passage * free;
  out.vapour_t = passage * f.free_vapour * k_warmth;
  out.vapour_x = (1.0 - f.crust_passage) * wet_x * free;
  return out;
}

template <typename Real>
inline CellPhysicsOf<Real> cell_physics(const CellFigures<Real>& f, const Also<Real>& temperature_k,
                                        const Also<Real>& water) {
  const CellLogs<Real> logs = cell_logs(f, temperature_k, water);
  return cell_physics(f, temperature_k, water, exp_short(logs.dry_odds), exp_short(logs.pure),
                      logs.pure_slope);
}

}  // namespace maslin
