// How firmly water is held: by starch and protein, and by what is dissolved in it.
#pragma once

#include "numerics/lanes.h"
#include "properties/portion.h"

namespace maslin {

/// What decides water activity, per kg of dry solids.
struct Binding {
  Lanes polymer_share = 1.0;             // kg starch, protein, fibre per kg dry solids, 0..1
  Lanes solute_mol_per_kg_solids = 0.0;  // molecules and ions dissolved, mol
};

/// The binding of a bowl. Dry solids are everything but water and alcohol. Sugars
/// count whole, salt twice (two ions); other minerals (0.03 mol per 100 g white flour,
/// memory) are in the flour's own sorption. A bowl without solids gives defaults.
Binding binding(const Portions& portions);

/// Water per kg of dry solids, kg/kg; 1e6 for a bowl without solids.
Lanes water_per_solids(const Portions& portions);

/// Water activity of starch and protein with `water_per_polymer` kg/kg; 0 to 200 degrees
/// Celsius, strictly increasing in both arguments, from 0 to 1.
/// a = 1 / (1 + (X / A(T))^(-1/0.38)), A = 0.125 exp(-0.0056 (T - 298.15)).
/// Source: the Oswin form with the exponent 0.38 and the temperature slope 0.0056 /K given
/// for bread after Lind and Rask 1991 (from memory); A set to give wheat of 10.8 %
/// moisture at 32 degrees and 50 % humidity (extension-service table, read); flour of 14 %
/// moisture then has 0.67 and crumb of 37 % 0.965 with its salt, as common practice has it.
Lanes polymer_water_activity(const Lanes& water_per_polymer, const Lanes& temperature_k);

/// Share by which dissolved molecules lower water activity (Raoult): X / (X + 0.018 n).
Lanes solute_factor(const Lanes& water_per_solids, const Lanes& solute_mol_per_kg_solids);

/// Water activity of a dough or crumb: the product of both (Ross). Validity as above;
/// for syrups and glazes (no polymer) it is Raoult alone, 0.02 to 0.05 high above 60 %
/// sugar, where Norrish's equation is the better one.
Lanes water_activity(const Binding& binding, const Lanes& water_per_solids,
                     const Lanes& temperature_k);

}  // namespace maslin
