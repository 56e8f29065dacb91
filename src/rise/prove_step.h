// One step of the rise, for a double or for lanes: temperatures first (implicit), then the
// chemistry by a two-stage Rosenbrock scheme that treats the exhaustion of each sugar implicitly,
// so that a step of a minute is stable at any dose of yeast.
#pragma once

#include <optional>

#include "rise/heat.h"
#include "rise/ice.h"
#include "rise/kinetics.h"

namespace maslin::rise_model {

/// Everything one step needs that a prove leaves alone.
template <typename Real>
struct Setting {
  Medium<Real> medium;
  Shells<Real> shells;
  Real heat_transfer_w_per_m2k;
  Real pieces_per_100g_flour;    // heat is reckoned for one piece, chemistry per 100 g flour
  std::optional<Ice<Real>> ice;  // where the dough is frozen, or the air would freeze it
};

template <typename Real>
struct Moment {
  Chemistry<Real> chemistry;
  std::array<Real, k_dough_shells> temperature_k;
  Warmth<Real> warmth;
  Real volume_ml;       // per 100 g flour
  Real next_volume_ml;  // in the middle of the next step, if it goes on as before
  Real heat_w;          // of one piece, in the step before
  Real next_heat_w;     // in the next step, if it goes on as before
};

template <typename Real>
Real mean_of(const std::array<Real, k_dough_shells>& x) {
  Real total = x[0];
  for (std::size_t i = 1; i < k_dough_shells; ++i) {
    total = total + x[i];
  }
  return total / static_cast<double>(k_dough_shells);
}

/// The gas rate is averaged over the shells, all else taken at the mean temperature.
template <typename Real>
Warmth<Real> warmth_of(const std::array<Real, k_dough_shells>& temperature_k, bool sour,
                       double pressure_pa, const RiseConstants& c) {
  Real gas = cardinal_rate(temperature_k[0], c.gas_temperatures);
  for (std::size_t i = 1; i < k_dough_shells; ++i) {
    gas = gas + cardinal_rate(temperature_k[i], c.gas_temperatures);
  }
  gas = gas /
        (static_cast<double>(k_dough_shells) * cardinal_rate(c.reference_k, c.gas_temperatures));
  const Real mean = mean_of(temperature_k);
  Warmth<Real> w = warmth_at(mean, c, gas, sour);
  // Bubbles hold water vapour too. Magnus' formula (from memory), good to 0.5 % here.
  const Real celsius = mean - 273.15;
  const Real vapour_pa = 610.94 * exp(17.625 * celsius / (celsius + 243.04));
  w.molar_ml = 8.314462618e6 * mean / (pressure_pa - 0.96 * vapour_pa);
  return w;
}

template <typename Real>
void settle(Moment<Real>& now, const Setting<Real>& setting, const RiseConstants& c) {
  now.volume_ml =
      setting.medium.dense_ml +
      bubbles_of(carbon_dioxide_of(now.chemistry, setting.medium, c), setting.medium, now.warmth)
          .volume_ml;
}

/// Source: ROS2 of Verwer, Spee, Blom, Hundsdorfer 1999, SIAM J. Sci. Comput. 20:1456
/// (scheme from memory): second order with any approximation to the Jacobian; here its
/// entries for the uptake of hexose and maltose and for the yeast's waking.
template <typename Real>
Chemistry<Real> fermented(const Chemistry<Real>& s, const Medium<Real>& m, const Warmth<Real>& w0,
                          const Warmth<Real>& w1, const RiseConstants& c, double step_h) {
  constexpr double k_gamma = 1.0 - 0.70710678118654752440;
  const auto solve = [&](Chemistry<Real>& k, const Rates<Real>& at) {
    const Real a = k_gamma * step_h * at.hexose_slope;
    const Real b = k_gamma * step_h * at.maltose_slope;
    const Real relief = k_gamma * step_h * at.maltose_relief;
    k[k_hexose] = k[k_hexose] / (1.0 + a);
    k[k_spent_hexose] = k[k_spent_hexose] + a * k[k_hexose];
    const Real spared = relief * k[k_hexose];
    k[k_maltose] =
        (k[k_maltose] + spared / k_hexose_per_disaccharide) / (1.0 + b / k_hexose_per_disaccharide);
    k[k_spent_maltose] = k[k_spent_maltose] + b * k[k_maltose] - spared;
    k[k_awake] = k[k_awake] / (1.0 + k_gamma * step_h * at.awake_slope);
  };
  const Rates<Real> first = rates_of(s, m, w0, c);
  Chemistry<Real> k1 = first.change;
  solve(k1, first);
  Chemistry<Real> between;
  for (std::size_t i = 0; i < k_species; ++i) {
    between[i] = s[i] + step_h * k1[i];
  }
  const Rates<Real> second = rates_of(between, m, w1, c);
  Chemistry<Real> k2;
  for (std::size_t i = 0; i < k_species; ++i) {
    k2[i] = second.change[i] - 2.0 * k1[i];
  }
  solve(k2, first);
  Chemistry<Real> out;
  for (std::size_t i = 0; i < k_species; ++i) {
    out[i] = s[i] + step_h * (1.5 * k1[i] + 0.5 * k2[i]);
  }
  // A last trace taken twice is given back, so that the sum stays.
  const Real owed_hexose = min(out[k_hexose], Real(0.0));
  out[k_hexose] = out[k_hexose] - owed_hexose;
  out[k_spent_hexose] = out[k_spent_hexose] + owed_hexose;
  const Real owed_maltose = min(out[k_maltose], Real(0.0));
  out[k_maltose] = out[k_maltose] - owed_maltose;
  out[k_spent_maltose] = out[k_spent_maltose] + k_hexose_per_disaccharide * owed_maltose;
  const Real owed_sucrose = min(out[k_sucrose], Real(0.0));
  out[k_sucrose] = out[k_sucrose] - owed_sucrose;
  out[k_hexose] = out[k_hexose] + k_hexose_per_disaccharide * owed_sucrose;
  return out;
}

template <typename Real>
Moment<Real> stepped(const Moment<Real>& now, const Setting<Real>& setting, const Real& ambient_k,
                     double step_s, const RiseConstants& c) {
  Moment<Real> next;
  const Medium<Real>& m = setting.medium;
  const Real swelling = now.next_volume_ml / m.dense_ml;
  if (setting.ice) {
    next.temperature_k = frozen_or_thawed(
        now.temperature_k,
        conductances_apart(setting.shells, swelling, setting.heat_transfer_w_per_m2k), ambient_k,
        *setting.ice, setting.shells.capacity_j_per_k, step_s);
  } else {
    const auto g = conductances(setting.shells, swelling, setting.heat_transfer_w_per_m2k);
    next.temperature_k = warmed(now.temperature_k, g, ambient_k, now.next_heat_w,
                                setting.shells.capacity_j_per_k, step_s);
  }
  next.warmth = warmth_of(next.temperature_k, m.sour, m.pressure_pa, c);
  next.chemistry = fermented(now.chemistry, m, now.warmth, next.warmth, c, step_s / 3600.0);
  const Real fermented_g = next.chemistry[k_spent_hexose] + next.chemistry[k_spent_maltose] -
                           now.chemistry[k_spent_hexose] - now.chemistry[k_spent_maltose];
  next.heat_w = fermented_g * mol_per_g_hexose<Real>(c) * c.heat_j_per_mol_co2 / step_s /
                setting.pieces_per_100g_flour;
  settle(next, setting, c);
  next.next_heat_w = max(Real(2.0 * next.heat_w - now.heat_w), Real(0.0));
  next.next_volume_ml = next.volume_ml + 0.5 * (next.volume_ml - now.volume_ml);
  return next;
}

}  // namespace maslin::rise_model
