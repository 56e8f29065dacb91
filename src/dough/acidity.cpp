#include "dough/acidity.h"

namespace maslin {

Lanes ph_of(const Portions& portions, const HydrationTable& table) {
  constexpr double k_flour_ph = 6.1;
  constexpr double k_sour_ph = 3.5;
  constexpr double k_titrated_ph = 8.1;
  constexpr double k_acid_g_per_mol = 67.0;
  Lanes buffered_ph = 0.0;
  Lanes buffer = 0.0;
  for (const Portions::Item& item : portions.items) {
    const double acid = item.ingredient->composition[Component::acid];
    double ph = item.ingredient->ph;
    if (ph <= 0.0) {
      ph = acid > 0.003 ? k_sour_ph : k_flour_ph;
    }
    double mmol_per_g_ph = table.of(*item.ingredient).buffer_mmol_per_kg_ph / 1000.0;
    if (ph < k_titrated_ph - 1.0) {
      mmol_per_g_ph += 1000.0 * acid / k_acid_g_per_mol / (k_titrated_ph - ph);
    }
    buffered_ph += item.grams * (mmol_per_g_ph * ph);
    buffer += item.grams * mmol_per_g_ph;
  }
  return select(buffer > 0.0, buffered_ph / max(buffer, 1e-12), Lanes(7.0));
}

}  // namespace maslin
