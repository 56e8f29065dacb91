// The constants of the rise model, each with what holds it. "R" in a comment: read in
// the source named; "M": from memory, nobody read it for this project; "D": derived by
// arithmetic; "P": common practice, no source; "F": fitted in this project to the
// table tests/published/rise_times.tsv (rows marked seen) and to the trade facts at the
// sweet end, see docs/models/rise.md.
#pragma once

namespace maslin {

/// Cardinal temperatures, K: no activity at or below `least` and at or above `most`,
/// fastest at `best`.
struct CardinalTemperatures {
  double least_k;
  double best_k;
  double most_k;
};

/// How one kind of yeast bears the dissolved matter around it:
/// factor = 1 / (1 + (osmolality / half)^steepness), osmolality in mol per kg of
/// solvent water.
struct OsmoticTolerance {
  double half_osmol_per_kg;
  double steepness;
};

struct RiseConstants {
  // Gas.
  double gas_rate_ml_per_g_h = 130.0;   // mL CO2 (30 C, 1 atm) per g fresh yeast, unstressed: F
  double gas_ml_per_mol_30c = 24880.0;  // D
  double gas_yield = 0.95;              // of C6H12O6 -> 2 C2H5OH + 2 CO2: M

  CardinalTemperatures gas_temperatures = {271.15, 309.15, 320.15};     // P, F
  CardinalTemperatures growth_temperatures = {275.95, 305.45, 318.55};  // Salvado 2011: R
  double reference_k = 303.15;

  // Sugars, g per 100 g flour.
  double hexose_half = 0.05;    // M
  double maltose_half = 0.15;   // M
  double maltose_share = 0.85;  // rate on maltose against hexose, induced: M
  double native_hexose = 0.5;   // of white flour: M
  double native_maltose = 0.3;  // M
  double latent_maltose = 2.2;  // freed by amylase from damaged starch: M
  double amylase_per_h = 0.5;   // at 30 C: M
  double induction_h = 0.75;    // at 30 C: M

  // Inversion of sucrose by the yeast's invertase.
  double invertase_g_per_g_h = 6.0;      // g sucrose per g fresh yeast and h at 30 C: F
  double invertase_half_g_per_kg = 8.6;  // 25 mmol/kg: M
  double enzyme_per_k = 0.055;           // relative rise per K (Q10 1.7): M

  // Osmotic stress.
  OsmoticTolerance ordinary = {3.0, 3.0};
  OsmoticTolerance tolerant = {5.2, 3.0};
  OsmoticTolerance wild = {4.0, 3.0};
  double nonsolvent_water_g_per_g = 0.25;    // per g flour dry matter: M
  double flour_osmol_per_100g = 0.03;        // M
  double whole_flour_osmol_per_100g = 0.05;  // M
  double osmotic_wake_h = 0.25;              // per osmol/kg above 2: M

  // Growth of the yeast in the dough: none at first, then to a gain of `growth_gain`.
  double growth_per_h = 0.20;   // at 27 C: D
  double growth_gain = 0.65;    // g per 100 g flour: D
  double growth_delay_h = 2.0;  // at 27 C: D
  double growth_reference_k = 300.15;

  double ethanol_limit_g_per_kg = 100.0;  // M
  double tolerant_vigour_lean = 0.88;     // M

  // Death by heat: decimal reduction time 0.3 min at 60 C, z = 5.5 K: M.
  double death_d60_h = 0.005;
  double death_z_k = 5.5;

  // Carbon dioxide in water: mol/(kg bar) at 25 C, and K; Sander 2023: R.
  double henry_mol_per_kg_bar = 0.034;
  double henry_k = 2400.0;

  // Retention: loss = base + slope * (expansion - critical)/critical, at most 1.
  double loss_base = 0.02;  // P
  double loss_slope = 0.6;  // P
  double mixed_air = 0.08;  // share of the mixed dough's volume: M

  double heat_j_per_mol_co2 = 50000.0;  // 100 kJ per mol hexose: M

  // Sourdough.
  double wild_reach_g = 1.5;    // M, per 100 g flour
  double ripe_acid_mmol = 6.0;  // per 100 g flour at full count: M
};

}  // namespace maslin
