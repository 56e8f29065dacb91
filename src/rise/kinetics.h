// The rates of the rise, for a double or for lanes. Everything here is per 100 g
// flour and per hour.
#pragma once

#include <array>
#include <cstddef>

#include "numerics/real.h"
#include "rise/constants.h"

namespace maslin::rise_model {

/// What changes in the dough, in the order of the arrays below.
enum Species : std::size_t {
  k_hexose,         // g
  k_sucrose,        // g
  k_maltose,        // g
  k_latent,         // maltose amylase can still free, g
  k_spent_hexose,   // fermented from hexose, g
  k_spent_maltose,  // fermented from maltose, g of hexose
  k_yeast,          // living, g as fresh
  k_wild,           // living wild yeast, g as fresh
  k_bacteria,       // lactic bacteria, share of the full count
  k_awake,          // 0..1
  k_induction,      // 0..1
  k_adaptation,     // 0..1
  k_age,            // h at 27 C
  k_lost,           // CO2 leaked, mol
  k_species
};
template <typename Real>
using Chemistry = std::array<Real, k_species>;

/// g hexose from 1 g of sucrose or maltose and its water.
inline constexpr double k_hexose_per_disaccharide = 1.0526;

/// What stays the same during a prove, per 100 g flour.
template <typename Real>
struct Medium {
  Real solvent_kg;
  Real inert_osmol;
  Real salt_stress_osmol;  // what salt counts for beyond its osmolality
  Real steady_factor;      // fat, spice and the strain's vigour
  Real tolerant_share;
  Real tolerance;  // multiplier on the half osmolality
  Real wake_h;
  Real inversion;      // multiplier
  Real yeast_start;    // at mixing, for the growth limit
  Real ethanol_start;  // g
  Real ph_start;
  Real buffer_mmol;  // per pH unit
  Real salt_g;
  Real air_mol;
  Real carbon_dioxide_start;  // in the dough at the start of the prove, mol
  Real dense_ml;
  Real critical_volume_ml;
  double pressure_pa;
  bool sour;  // wild yeast or bacteria present
};

/// What temperature does, at one moment.
template <typename Real>
struct Warmth {
  Real gas;     // 1 at 30 C
  Real growth;  // 1 at 27 C
  Real enzyme;  // 1 at 30 C
  Real death_per_h;
  Real wild_per_h;  // growth of wild yeast
  Real bacteria_per_h;
  Real henry_mol_per_kg_pa;
  Real molar_ml;  // of gas
};

/// Rosso's cardinal temperature model with inflection, 0..1.
/// Source: Rosso, Lobry, Bajard, Flandrois 1995, Appl. Environ. Microbiol. 61:610
/// (equation from memory).
template <typename Real>
Real cardinal_rate(const Real& temperature_k, const CardinalTemperatures& c) {
  const Real t = max(min(temperature_k, Real(c.most_k)), Real(c.least_k));
  const double span = c.best_k - c.least_k;
  const Real top = (t - c.most_k) * (t - c.least_k) * (t - c.least_k);
  const Real bottom =
      span * (span * (t - c.best_k) - (c.best_k - c.most_k) * (c.best_k + c.least_k - 2.0 * t));
  return top / bottom;
}

template <typename Real>
Real osmotic_factor(const Real& osmolality, const Real& half) {
  const Real x = osmolality / half;
  const Real x2 = x * x;
  return 1.0 / (1.0 + x2 * x2);
}

/// The osmolality at half rate of yeast that has adapted so far.
template <typename Real>
Real adapted_half(const OsmoticTolerance& t, const Real& multiplier, const Real& adaptation) {
  return t.half_osmol_per_kg * multiplier * (1.0 + t.adaptation_gain * adaptation);
}

/// Rosso's cardinal pH model, 0..1; least 2.6, best 5.0, most 8.0 (from memory).
template <typename Real>
Real ph_factor(const Real& ph_in) {
  const Real ph = max(min(ph_in, Real(8.0)), Real(2.6));
  const Real p = (ph - 2.6) * (ph - 8.0);
  return p / (p - (ph - 5.0) * (ph - 5.0));
}

/// Death of yeast by heat, 1/h; the rate stands still above 80 C, where all is over.
template <typename Real>
Real death_rate_per_h(const Real& temperature_k, const RiseConstants& c) {
  constexpr double k_ln10 = 2.302585092994046;
  return k_ln10 / c.death_d60_h *
         exp(k_ln10 / c.death_z_k * (min(temperature_k, Real(353.15)) - 333.15));
}

/// Warmth at one temperature; the gas factor is averaged over the shells by the caller.
template <typename Real>
Warmth<Real> warmth_at(const Real& temperature_k, const RiseConstants& c, const Real& gas,
                       bool sour) {
  Warmth<Real> w;
  w.gas = gas;
  w.growth = cardinal_rate(temperature_k, c.growth_temperatures) /
             cardinal_rate(c.growth_reference_k, c.growth_temperatures);
  w.enzyme = exp(c.enzyme_per_k * (temperature_k - c.reference_k));
  w.death_per_h = Real(0.0);
  if (any(temperature_k > Real(311.15))) {  // below 38 C it is nothing
    w.death_per_h = death_rate_per_h(temperature_k, c);
  }
  w.henry_mol_per_kg_pa =
      1e-5 * c.henry_mol_per_kg_bar * exp(c.henry_k * (1.0 / temperature_k - 1.0 / 298.15));
  w.wild_per_h = Real(0.0);
  w.bacteria_per_h = Real(0.0);
  if (sour) {
    // Growth of C. milleri and L. sanfranciscensis. Source: Gaenzle, Ehmann, Hammes 1998,
    // Appl. Environ. Microbiol. 64:2616 (equations second hand).
    const Real y = max(36.0 - (temperature_k - 273.15), Real(1e-6));
    const Real b = max(41.0 - (temperature_k - 273.15), Real(1e-6));
    w.wild_per_h = 0.0124 * exp(2.981 * log(y) - 0.3355 * y);
    w.bacteria_per_h = 0.1267 * exp(1.5404 * log(b) - 0.1931 * b);
  }
  return w;
}

/// Gas in the dough: volume and the share of new CO2 that goes to bubbles.
template <typename Real>
struct Bubbles {
  Real volume_ml;  // of gas
  Real share;      // d(bubbles)/d(CO2 in the dough)
};

template <typename Real>
Bubbles<Real> bubbles_of(const Real& carbon_dioxide, const Medium<Real>& m, const Warmth<Real>& w) {
  const Real capacity = w.henry_mol_per_kg_pa * m.pressure_pa * m.solvent_kg;
  const Real full = 1.0 - exp(-carbon_dioxide / capacity);
  const Real gas = carbon_dioxide - capacity * full;
  return {(m.air_mol + max(gas, Real(0.0))) * w.molar_ml, full};
}

template <typename Real>
Real mol_per_g_hexose(const RiseConstants& c) {
  return Real(2.0 * c.gas_yield / 180.156);
}

/// CO2 in the dough, mol.
template <typename Real>
Real carbon_dioxide_of(const Chemistry<Real>& s, const Medium<Real>& m, const RiseConstants& c) {
  return m.carbon_dioxide_start +
         (s[k_spent_hexose] + s[k_spent_maltose]) * mol_per_g_hexose<Real>(c) - s[k_lost];
}

template <typename Real>
struct Rates {
  Chemistry<Real> change;  // per h
  Real hexose_slope;       // d(uptake of hexose)/d(hexose), 1/h
  Real maltose_slope;
  Real awake_slope;     // -d(waking)/d(awake)
  Real maltose_relief;  // -d(uptake of maltose)/d(hexose): hexose keeps maltose waiting
};

/// pH with the acid of the lactic bacteria.
template <typename Real>
Real ph_of(const Chemistry<Real>& s, const Medium<Real>& m, const RiseConstants& c) {
  return m.ph_start - s[k_bacteria] * c.ripe_acid_mmol / m.buffer_mmol;
}

/// g hexose equivalent fermented per h at full food by the commercial and wild yeast.
template <typename Real>
Real fermenting_power(const Chemistry<Real>& s, const Medium<Real>& m, const Warmth<Real>& w,
                      const RiseConstants& c, const Real& osmolality) {
  const Real half_ordinary = adapted_half(c.ordinary, m.tolerance, s[k_adaptation]);
  const Real half_tolerant = adapted_half(c.tolerant, m.tolerance, s[k_adaptation]);
  const Real stress = (1.0 - m.tolerant_share) * osmotic_factor(osmolality, half_ordinary) +
                      m.tolerant_share * osmotic_factor(osmolality, half_tolerant);
  const Real ethanol_g =
      m.ethanol_start + (s[k_spent_hexose] + s[k_spent_maltose]) * (0.5114 * c.gas_yield);
  const Real sober =
      soft_positive(Real(1.0 - ethanol_g / (m.solvent_kg * c.ethanol_limit_g_per_kg)), 0.02);
  const Real ph = m.sour ? ph_of(s, m, c) : m.ph_start;
  const Real common = m.steady_factor * sober * ph_factor(ph) *
                      (c.gas_rate_ml_per_g_h / c.gas_ml_per_mol_30c * 180.156 / 2.0 / c.gas_yield);
  Real power = s[k_yeast] * s[k_awake] * stress * w.gas;
  if (m.sour) {
    const Real warm = max(Real(w.wild_per_h / 0.423), Real(0.6 * w.gas));
    power =
        power + s[k_wild] * warm *
                    osmotic_factor(osmolality, adapted_half(c.wild, m.tolerance, s[k_adaptation]));
  }
  return power * common;
}

template <typename Real>
Real osmotic_stress_of(const Chemistry<Real>& s, const Medium<Real>& m) {
  const Real hexose = max(s[k_hexose], Real(0.0));
  return (m.inert_osmol + m.salt_stress_osmol + hexose / 180.156 +
          (s[k_sucrose] + max(s[k_maltose], Real(0.0))) / 342.3) /
         m.solvent_kg;
}

template <typename Real>
void grow(Rates<Real>& out, const Chemistry<Real>& s, const Medium<Real>& m, const Warmth<Real>& w,
          const RiseConstants& c, const Real& osmolality, const Real& food) {
  // Ready for growth about `growth_delay_h` after mixing: a smooth step in age.
  const Real a = s[k_age] / c.growth_delay_h;
  const Real a2 = a * a;
  const Real a8 = a2 * a2 * a2 * a2;
  const Real ready = a8 / (1.0 + a8);
  const Real half = adapted_half(c.ordinary, m.tolerance, s[k_adaptation]);
  const Real room = 1.0 - (s[k_yeast] - m.yeast_start) / c.growth_gain;
  out.change[k_yeast] = s[k_yeast] * (c.growth_per_h * w.growth * ready * food *
                                          osmotic_factor(osmolality, half) * room -
                                      w.death_per_h);
  out.change[k_age] = w.growth;
  out.change[k_wild] = Real(0.0);
  out.change[k_bacteria] = Real(0.0);
  if (m.sour) {
    const Real wild_half = adapted_half(c.wild, m.tolerance, s[k_adaptation]);
    out.change[k_wild] =
        s[k_wild] * (c.wild_vigour * w.wild_per_h * food * osmotic_factor(osmolality, wild_half) *
                         (1.0 - s[k_wild] / c.wild_reach_g) -
                     w.death_per_h);
    const Real salt = max(Real(1.0 - m.salt_g / 4.0), Real(0.0));
    // Bacteria grow best above pH 5 and stop at 3.8 (Gaenzle's summary, read).
    const Real sourness =
        max(min(Real((ph_of(s, m, c) - 3.8) * (1.0 / 1.2)), Real(1.0)), Real(0.0));
    out.change[k_bacteria] =
        s[k_bacteria] *
        (w.bacteria_per_h * salt * sourness * (1.0 - s[k_bacteria]) - w.death_per_h);
  }
}

/// All rates at one moment.
template <typename Real>
Rates<Real> rates_of(const Chemistry<Real>& s, const Medium<Real>& m, const Warmth<Real>& w,
                     const RiseConstants& c) {
  Rates<Real> out;
  const Real hexose = max(s[k_hexose], Real(0.0));
  const Real maltose = max(s[k_maltose], Real(0.0));
  const Real osmolality = osmotic_stress_of(s, m);
  const Real power = fermenting_power(s, m, w, c, osmolality);

  const Real phi = hexose / (hexose + c.hexose_half);
  const Real psi = c.maltose_share * s[k_induction] * maltose / (maltose + c.maltose_half);
  const Real from_hexose = power * phi;
  const Real from_maltose = power * (1.0 - phi) * psi;
  out.hexose_slope = power * c.hexose_half / ((hexose + c.hexose_half) * (hexose + c.hexose_half));
  out.maltose_relief = out.hexose_slope * psi;
  out.maltose_slope = power * (1.0 - phi) * c.maltose_share * s[k_induction] * c.maltose_half /
                      ((maltose + c.maltose_half) * (maltose + c.maltose_half));

  const Real sucrose = max(s[k_sucrose], Real(0.0));
  const Real strength = sucrose / (342.3 * m.solvent_kg);
  const Real inverted =
      c.invertase_g_per_g_h * m.inversion * w.enzyme * (s[k_yeast] + s[k_wild]) * strength /
      (c.invertase_half_mol_per_kg + strength + strength * strength / c.invertase_choke_mol_per_kg);
  const Real freed = c.amylase_per_h * w.enzyme * s[k_latent];

  out.change[k_sucrose] = -inverted;
  out.change[k_hexose] = k_hexose_per_disaccharide * inverted - from_hexose;
  out.change[k_latent] = -freed;
  out.change[k_maltose] = freed - from_maltose / k_hexose_per_disaccharide;
  out.change[k_spent_hexose] = from_hexose;
  out.change[k_spent_maltose] = from_maltose;

  const Real strain = c.osmotic_wake_h * soft_positive(Real(osmolality - 2.0), 0.1);
  out.awake_slope = 1.0 / (m.wake_h + strain);
  out.change[k_awake] = (1.0 - s[k_awake]) * out.awake_slope;
  // Maltose enzymes are held back while glucose is plentiful: a smooth step in phi.
  const Real p2 = phi * phi * (1.0 / 0.81);
  const Real p4 = p2 * p2;
  const Real p8 = p4 * p4;
  const Real hungry = 1.0 / (1.0 + p8 * p8);
  out.change[k_induction] = (0.15 + 0.85 * hungry) * w.gas * (1.0 - s[k_induction]) / c.induction_h;
  out.change[k_adaptation] = w.gas * (1.0 - s[k_adaptation]) / c.adaptation_h;
  grow(out, s, m, w, c, osmolality, Real(phi + (1.0 - phi) * psi));

  const Bubbles<Real> bubbles = bubbles_of(carbon_dioxide_of(s, m, c), m, w);
  const Real over = (m.dense_ml + bubbles.volume_ml - m.critical_volume_ml) / m.critical_volume_ml;
  const Real leak = min(Real(c.loss_base + c.loss_slope * soft_positive(over, 0.05)), Real(1.0));
  out.change[k_lost] =
      (from_hexose + from_maltose) * mol_per_g_hexose<Real>(c) * bubbles.share * leak;
  return out;
}

}  // namespace maslin::rise_model
