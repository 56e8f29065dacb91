// The constants of the rise model, each with what holds it. "R" in a comment: read in
// the source named, or in an abstract of it; "M": from memory, nobody read it for this
// project; "D": derived by arithmetic; "P": common practice, no source; "F": fitted here
// to the rows marked fit in tests/published/rise_times.tsv together with the trade
// facts of the sweet end, within the bounds named. docs/models/rise.md tells the story.
#pragma once

namespace maslin {

/// Cardinal temperatures, K: no activity at or below `least` and at or above `most`,
/// fastest at `best`.
struct CardinalTemperatures {
  double least_k;
  double best_k;
  double most_k;
};

/// How one kind of yeast bears what is dissolved round it: its rate is multiplied by
/// 1 / (1 + (stress / half)^4), stress in osmol per kg of solvent water with salt
/// weighted (salt_weight). As the yeast gathers glycerol, `half` rises to
/// half * (1 + adaptation_gain).
struct OsmoticTolerance {
  double half_osmol_per_kg;
  double adaptation_gain;
};

struct RiseConstants {
  // Gas.
  double gas_rate_ml_per_g_h = 155.0;   // mL CO2 (30 C, 1 atm) per g fresh yeast, unstressed:
                                        // F within 90-160 by brand (M)
  double gas_ml_per_mol_30c = 24880.0;  // D
  double gas_yield = 0.95;              // of C6H12O6 -> 2 C2H5OH + 2 CO2; rest glycerol,
                                        // acid and cells: M
  // Fastest near 37 C, slow but moving in the fridge, done at 47 C; a degree hurries it by a
  // tenth between 24 and 30 C (R, within its points): P.
  CardinalTemperatures gas_temperatures = {272.15, 310.15, 320.15};
  CardinalTemperatures growth_temperatures = {
      275.95, 305.45, 318.55};  // Salvado 2011,
                                // Appl. Environ. Microbiol. 77:2292: R, least M
  double reference_k = 303.15;

  // Sugars, g per 100 g flour.
  double hexose_half = 0.05;    // M
  double maltose_half = 0.15;   // M
  double maltose_share = 0.85;  // rate on maltose against hexose, once induced: M
  double native_hexose = 0.5;   // of white flour, 0.3-0.8: M
  double native_maltose = 0.3;  // M
  double latent_maltose = 4.5;  // amylase frees it in the end: 5.5 % of the flour's dry matter,
                                // Saunders, Ng, Kline 1972, Cereal Chem. 49:86: R
  double amylase_per_h = 0.24;  // at 30 C; with it 1 g in the first hour (1.5-3.5 g in the
                                // first hours): M
  double induction_h = 0.75;    // at 30 C; maltose takes over after 30-60 min: R, value M

  // Inversion of sucrose by the yeast's invertase.
  double invertase_g_per_g_h = 5.0;          // g sucrose per g fresh yeast and h at 30 C: the
                                             // least that inverts 3 % while the dough is
                                             // mixed (R, abstract, repository 20.500.12811/4702)
  double invertase_half_mol_per_kg = 0.025;  // 24 mmol/L, Essel and Osei 2014: R
  double invertase_choke_mol_per_kg = 1.5;   // substrate inhibition: puts the peak at 0.19
                                             // mol/kg, between the 0.17 and 0.29 mol/L
                                             // reported (R, abstract on the kinetics of
                                             // sucrose and invertase); value D
  double enzyme_per_k = 0.062;               // 11 000-11 500 cal/mol, Sizer 1938: R, D

  // Osmotic stress.
  OsmoticTolerance ordinary = {2.5, 2.0};    // F
  OsmoticTolerance tolerant = {8.0, 0.0};    // F
  OsmoticTolerance wild = {5.0, 0.0};        // M
  double salt_weight = 2.3;                  // salt against sugar at equal osmolality: F;
                                             // that salt is the worse is M (least water
                                             // activity for growth 0.92 in salt, 0.89 in sugar)
  double adaptation_h = 1.05;                // at 30 C: F within the half to two hours in
                                             // which glycerol gathers (M)
  double nonsolvent_water_g_per_g = 0.25;    // per g flour dry matter, 0.2-0.3: M
  double flour_osmol_per_100g = 0.03;        // M
  double whole_flour_osmol_per_100g = 0.05;  // M
  double osmotic_wake_h = 0.10;              // per osmol/kg of stress above 2: F

  // Growth of the yeast in the dough: none at first, then to a gain of `growth_gain`.
  double growth_per_h = 0.20;   // at 27 C: D from counts of cells in dough (R)
  double growth_gain = 0.65;    // g per 100 g flour: D from the same
  double growth_delay_h = 2.0;  // at 27 C: R
  double growth_reference_k = 300.15;

  double ethanol_limit_g_per_kg = 100.0;  // M

  // Death by heat: decimal reduction time 0.3 min at 60 C, z = 5.5 K: M.
  double death_d60_h = 0.005;
  double death_z_k = 5.5;
  // Frost.
  double frozen_loss_per_month = 0.10;     // fresh yeast, frozen: R (a baking page)
  double freezing_loss = 0.10;             // of the yeast each time a dough freezes: M (0.05-0.2)
  double freezing_weakens = 0.05;          // the critical expansion, each time: M
  double frozen_weakens_per_month = 0.05;  // and with the months: M (loaves from dough kept
                                           // 1-3 months come out 10-20 % smaller)
  double cryoscopic_k_kg_per_mol = 1.86;   // of water: D from its heat of melting

  // Carbon dioxide in water: mol/(kg bar) at 25 C, and K; Sander 2023, Atmos. Chem. Phys.
  // 23:10901: R.
  double henry_mol_per_kg_bar = 0.034;
  double henry_k = 2400.0;

  // Retention: share of new gas lost = base + slope * (expansion over the critical one),
  // at most 1.
  double loss_base = 0.02;  // P
  double loss_slope = 0.6;  // P
  double full_gas = 1.2;    // gas over dense volume of a doubled dough; what is beyond goes
                            // first when it is knocked back: P
  double mixed_air = 0.08;  // share of the mixed dough's volume, 0.04-0.12: M

  double heat_j_per_mol_co2 = 50000.0;  // 100 kJ per mol hexose: M

  // Sourdough.
  double wild_reach_g = 1.5;    // most wild yeast, as g fresh per 100 g flour: M
  double wild_vigour = 0.8;     // growth in dough against the broth of the equations: M
  double ripe_acid_mmol = 6.0;  // per 100 g flour when the bacteria are at full count: M
};

}  // namespace maslin
