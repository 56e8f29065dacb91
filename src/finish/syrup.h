// Syrups and boiled fillings: how hot they boil, how far they are boiled down, whether a
// jam sets and whether sugar comes out of it on standing.
#pragma once

#include "finish/tables.h"
#include "finish/unknowns.h"
#include "properties/portion.h"

namespace maslin {

/// Dissolved matter of a syrup, g in each lane.
struct SyrupMix {
  Lanes water_g = 0.0;
  Lanes sucrose_g = 0.0;        // with other disaccharides and acids
  Lanes simple_sugars_g = 0.0;  // glucose and fructose

  Lanes solids_g() const { return sucrose_g + simple_sugars_g; }
  Lanes fraction() const;  // g solids per g of syrup
};
/// All sugars of the bowl dissolved, fibre and starch left out.
SyrupMix syrup_mix(const Portions& portions);

/// K above water's boiling point: Brown's table read off over g sugar per g water, plus,
/// for glucose and fructose, what Norrish and Clausius-Clapeyron give beyond sucrose.
/// 0-0.90 solids; the table's ends beyond.
Lanes boiling_rise_k(const FinishTables& tables, const SyrupMix& mix);

/// The solids of a sucrose syrup that boils so far above water: the table read backwards.
Lanes fraction_boiling_at(const FinishTables& tables, const Lanes& rise_k);

/// Where water boils at this height, C.
Lanes water_boils_celsius(const Lanes& altitude_m);

/// Grams left when a syrup is boiled down to `to_fraction` solids; no less than its solids.
Lanes boiled_down_g(const SyrupMix& mix, const Lanes& to_fraction);

/// The mix after a share of its sucrose has been split by acid and heat (1 g makes 1.0526).
SyrupMix inverted(const SyrupMix& mix, const Lanes& share);

/// Sucrose in solution over what would saturate it at this temperature, 1 = saturated.
/// Above 1 grains come in time, above about 1.2 soon or on stirring (from memory).
Lanes supersaturation(const SyrupMix& mix, const Lanes& celsius, const FinishUnknowns& unknowns);

/// Solids at which high-methoxyl jam sets. Source: FAO Bulletin 119 (read): 60-65 % and
/// pH 3.2-3.4; 65 % boils 3.9-4.4 K above water.
inline constexpr double k_jam_sets_at = 0.65;

}  // namespace maslin
