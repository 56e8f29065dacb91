#include "properties/water_activity.h"

#include "properties/water.h"

namespace maslin {
namespace {

constexpr double k_sodium_chloride_g_per_mol = 58.44;
constexpr double k_hexose_g_per_mol = 180.16;
constexpr double k_disaccharide_g_per_mol = 342.30;
constexpr double k_acid_g_per_mol = 100.0;  // between lactic 90, malic 134 and acetic 60

Lanes solids_grams(const Portions& portions) {
  return portions.total_grams() - portions.grams_of(Component::water) -
         portions.grams_of(Component::alcohol);
}

}  // namespace

Binding binding(const Portions& portions) {
  const auto grams = portions.components();
  const auto of = [&grams](Component c) { return grams[static_cast<std::size_t>(c)]; };
  const Lanes solids = solids_grams(portions);
  const Lanes polymer = of(Component::starch) + of(Component::protein) + of(Component::fibre) +
                        of(Component::other_carbohydrate);
  const Lanes mol = (of(Component::glucose) + of(Component::fructose)) / k_hexose_g_per_mol +
                    (of(Component::sucrose) + of(Component::lactose) + of(Component::maltose)) /
                        k_disaccharide_g_per_mol +
                    2.0 * of(Component::salt) / k_sodium_chloride_g_per_mol +
                    of(Component::acid) / k_acid_g_per_mol;
  const Mask some = solids > Lanes(1e-9);
  const Lanes per_solids = 1.0 / max(solids, 1e-9);
  return {select(some, clamp(polymer * per_solids, 0.0, 1.0), 1.0),
          select(some, 1000.0 * mol * per_solids, 0.0)};
}

Lanes water_per_solids(const Portions& portions) {
  const Lanes solids = solids_grams(portions);
  return min(portions.grams_of(Component::water) / max(solids, 1e-9), 1e6);
}

Lanes polymer_water_activity(const Lanes& water_per_polymer, const Lanes& temperature_k) {
  const Lanes log_ratio =
      log(max(water_per_polymer, 1e-30) / 0.125) + 0.0056 * (temperature_k - 298.15);
  return 1.0 / (1.0 + exp(log_ratio * (-1.0 / 0.38)));
}

Lanes solute_factor(const Lanes& water_per_solids, const Lanes& solute_mol_per_kg_solids) {
  const Lanes x = max(water_per_solids, 1e-30);
  return x / (x + k_water_molar_mass_kg_per_mol * solute_mol_per_kg_solids);
}

Lanes water_activity(const Binding& binding, const Lanes& water_per_solids,
                     const Lanes& temperature_k) {
  const Lanes polymer = max(binding.polymer_share, 1e-6);
  return polymer_water_activity(water_per_solids / polymer, temperature_k) *
         solute_factor(water_per_solids, binding.solute_mol_per_kg_solids);
}

}  // namespace maslin
