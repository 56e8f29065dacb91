// From portions to what the yeast sees.
#include <algorithm>

#include "rise/rise.h"
#include "rise/yeast.h"

namespace maslin {
namespace {

bool is_flour(const Ingredient& i) {
  return i.kind == IngredientKind::flour || i.kind == IngredientKind::bran_germ ||
         i.kind == IngredientKind::grain || i.kind == IngredientKind::starch;
}

/// Critical expansion by the flour's gluten: weak 2.6, bread flour 3.5, strong 4.2,
/// rye and the like 1.8, batter 1.5: common practice, no source.
double critical_expansion(const Ingredient& flour) {
  switch (flour.flour.gluten) {
    case Gluten::none:
      return 1.8;
    case Gluten::weak:
      return 2.6;
    case Gluten::medium:
      return 3.2;
    case Gluten::strong:
      return 3.6;
    case Gluten::very_strong:
      return 4.2;
  }
  return 3.2;
}

/// Time constant of the start, h: instant and fresh 0.15, active dry 0.30: common
/// practice.
double wake_h(YeastKind kind) {
  return kind == YeastKind::active_dry ? 0.30 : 0.15;
}

/// Buffering of food between pH 4 and 6, mmol per pH unit and g of component. Fitted
/// to white flour dough 14 and whole meal 28 mmol per kg (from memory), 165 g of dough
/// to 100 g flour; acid: a third of a weak acid's equivalents per unit.
constexpr double k_buffer_protein = 0.11;
constexpr double k_buffer_minerals = 2.1;
constexpr double k_buffer_acid = 4.7;

double ph_of(const Ingredient& i) {
  if (i.ph > 0.0) {
    return i.ph;
  }
  return is_flour(i) ? 6.0 : 6.5;
}

/// Gas-free volume, mL per g of component; Choi and Okos 1986 at 25 C (from memory),
/// sugar as it is when dissolved, and 2 % lost as starch takes up water, which brings
/// lean dough to 1.24 g/mL (1.22-1.28 in the literature, from memory).
Lanes dense_volume_ml(const Portions& portions) {
  Lanes ml = 0.0;
  for (const Portions::Item& item : portions.items) {
    const Composition& x = item.ingredient->composition;
    const double sugars = x.sugars();
    const double per_g = x[Component::water] / 0.997 + x[Component::protein] / 1.33 +
                         x[Component::fat] / 0.92 +
                         (sugars + x[Component::starch] + x[Component::other_carbohydrate]) / 1.59 +
                         x[Component::fibre] / 1.31 + x[Component::alcohol] / 0.79 +
                         x[Component::acid] / 1.5 + x[Component::minerals] / 2.42;
    ml += item.grams * (0.98 * per_g);
  }
  return ml;
}

/// J/K: water 4.18, ethanol 2.4, protein 2.0, fat 2.0, carbohydrate 1.55, fibre 1.85,
/// minerals 1.1 J/(g K). Choi and Okos 1986 at 25 C (from memory).
Lanes heat_capacity(const Portions& portions) {
  const auto g = portions.components();
  const auto of = [&](Component c) { return g[static_cast<std::size_t>(c)]; };
  return 4.18 * of(Component::water) + 2.4 * of(Component::alcohol) +
         2.0 * (of(Component::protein) + of(Component::fat)) +
         1.55 * (of(Component::sucrose) + of(Component::glucose) + of(Component::fructose) +
                 of(Component::lactose) + of(Component::maltose) + of(Component::starch) +
                 of(Component::other_carbohydrate) + of(Component::acid)) +
         1.85 * of(Component::fibre) + 1.1 * of(Component::minerals);
}

void add_flour(RiseDough& d, const Portions::Item& item, const RiseConstants& c) {
  const Ingredient& i = *item.ingredient;
  const double dry = 1.0 - i.composition[Component::water];
  d.flour_g += item.grams;
  d.flour_dry_g += item.grams * dry;
  d.critical_expansion += item.grams * critical_expansion(i);  // a sum until the end
  // Whole meal has about 10 % more fibre than white flour; interpolate on fibre.
  const double whole =
      std::min(1.0, std::max(0.0, (i.composition[Component::fibre] - 0.03) / 0.08));
  const double osmol =
      c.flour_osmol_per_100g + whole * (c.whole_flour_osmol_per_100g - c.flour_osmol_per_100g);
  d.inert_osmol += item.grams * (osmol / 100.0);
  d.critical_expansion -= item.grams * whole;
  if (i.kind != IngredientKind::starch) {
    d.native_hexose_g += item.grams * (c.native_hexose / 100.0);
    d.native_maltose_g += item.grams * (c.native_maltose / 100.0);
    d.latent_maltose_g += item.grams * (c.latent_maltose * (1.0 + 0.3 * whole) / 100.0);
  }
}

void add_sugars(RiseDough& d, const Portions::Item& item) {
  const Composition& x = item.ingredient->composition;
  d.hexose_g += item.grams * (x[Component::glucose] + x[Component::fructose]);
  d.sucrose_g += item.grams * x[Component::sucrose];
  d.maltose_g += item.grams * x[Component::maltose];
  d.inert_osmol += item.grams * (x[Component::lactose] / 342.3);
  // Minerals other than salt: potassium and calcium salts, two ions of some 40 g/mol.
  const double other = std::max(0.0, x[Component::minerals] - x[Component::salt]);
  d.inert_osmol += item.grams * (other * 2.0 / 80.0 + x[Component::acid] / 150.0);
}

void add_yeast(RiseDough& d, const Portions::Item& item, const YeastStorage& storage,
               Lanes& tolerant_g, Lanes& wake_sum) {
  const YeastFigures& y = item.ingredient->yeast;
  const Lanes months = y.kind == YeastKind::starter ? Lanes(0.0)
                       : y.kind == YeastKind::fresh ? storage.fresh_months
                                                    : storage.months;
  const Lanes kept = exp(months * log(Lanes(1.0 - y.loss_per_month_cool)));
  const Lanes fresh = item.grams * y.activity * kept;
  if (y.kind == YeastKind::starter) {
    d.wild_yeast_g += fresh;
    const double dry = 1.0 - item.ingredient->composition[Component::water];
    d.ripe_flour_g += item.grams * (dry / 0.86);
    d.flour_g += item.grams * (dry / 0.86);
    d.flour_dry_g += item.grams * dry;
    d.critical_expansion += item.grams * (dry / 0.86 * 3.2);
    d.inert_osmol += item.grams * (dry * 0.05 / 100.0);
    return;
  }
  d.yeast_g += fresh;
  wake_sum += fresh * wake_h(y.kind);
  if (y.kind == YeastKind::osmotolerant_instant) {
    tolerant_g += fresh;
  }
}

}  // namespace

RiseDough rise_dough(const Portions& portions, const YeastStorage& storage,
                     const RiseConstants& constants) {
  RiseDough d;
  d.critical_expansion = 0.0;
  d.mass_g = portions.total_grams();
  // What stays in pieces takes room and heat, and keeps its sugar and water to itself.
  const Portions mixed = portions.mixed_in();
  d.water_g = mixed.grams_of(Component::water);
  d.salt_g = mixed.grams_of(Component::salt);
  d.fat_g = mixed.grams_of(Component::fat);
  d.ethanol_g = mixed.grams_of(Component::alcohol);
  d.dense_ml = dense_volume_ml(portions);
  d.heat_capacity_j_per_k = heat_capacity(portions);
  Lanes tolerant_g = 0.0;
  Lanes wake_sum = 0.0;
  Lanes acidity = 0.0;
  for (const Portions::Item& item : mixed.items) {
    const Composition& x = item.ingredient->composition;
    if (is_flour(*item.ingredient)) {
      add_flour(d, item, constants);
    } else if (item.ingredient->yeast.kind != YeastKind::none) {
      add_yeast(d, item, storage, tolerant_g, wake_sum);
    } else {
      add_sugars(d, item);
    }
    const double buffer =
        k_buffer_protein * x[Component::protein] +
        k_buffer_minerals * std::max(0.0, x[Component::minerals] - x[Component::salt]) +
        k_buffer_acid * x[Component::acid];
    d.buffer_mmol += item.grams * buffer;
    acidity += item.grams * (buffer * ph_of(*item.ingredient));
  }
  d.inert_osmol += d.salt_g * (2.0 / 58.44);
  d.spice_factor = spice_factor(portions, d.flour_g);
  d.solvent_water_g =
      max(d.water_g - constants.nonsolvent_water_g_per_g * d.flour_dry_g, 0.1 * d.water_g);
  d.tolerant_share = tolerant_g / max(d.yeast_g, 1e-12);
  d.wake_h = select(d.yeast_g > 0.0, wake_sum / max(d.yeast_g, 1e-12), 0.15);
  d.critical_expansion =
      select(d.flour_g > 0.0, max(d.critical_expansion / max(d.flour_g, 1e-12), 1.4), 1.5);
  d.ph = acidity / max(d.buffer_mmol, 1e-12);
  d.ph = select(d.buffer_mmol > 0.0, d.ph, 6.0);
  return d;
}

}  // namespace maslin
