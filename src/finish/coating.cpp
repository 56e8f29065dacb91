#include "finish/coating.h"

namespace maslin {
namespace {

constexpr double k_trace_g = 1e-9;
constexpr double k_gravity = 9.80665;
constexpr double k_fat_kg_m3 = 895.0;   // liquid fat at 40 C, from memory
constexpr double k_dry_kg_m3 = 1520.0;  // sugar 1590 and cocoa 1450, from memory
constexpr double k_fat_pa_s = 0.040;    // cocoa butter at 40 C, from memory
constexpr double k_packing = 0.70;      // both set on Afoakwa 2008; see the header
constexpr double k_exponent = 2.6;
constexpr double k_yield_pa = 0.30;
constexpr double k_yield_exponent = 1.87;
constexpr double k_shear_per_s = 5.0;  // ICA's shear rate for a yield value (read)
/// Setting falls so far from all cocoa butter to none; from memory: milk chocolate with a
/// seventh of butterfat sets about 1.5 K lower.
constexpr double k_set_fall_k = 10.0;

}  // namespace

bool melts_to_a_coat(const Ingredient& one) {
  return one.kind == IngredientKind::chocolate && one.composition[Component::fat] > 0.25;
}

CoatingMix coating_mix(const Portions& portions) {
  CoatingMix out{0.0, 0.0, 0.0, 0.0, 0.0};
  for (const Portions::Item& item : portions.items) {
    const Composition& of = item.ingredient->composition;
    const Lanes fat = item.grams * of[Component::fat];
    const Lanes wet = item.grams * (of[Component::water] + of[Component::alcohol]);
    const IngredientKind kind = item.ingredient->kind;
    out.fat_g += fat;
    out.total_g += item.grams;
    out.dry_g += item.grams - fat - wet;
    if (kind != IngredientKind::chocolate) {
      out.other_fat_g += fat;
      // Butter's water is held in its fat.
      out.free_water_g += of[Component::fat] > 0.6 ? Lanes(0.0) : wet;
    }
  }
  return out;
}

CoatingState coating_state(const CoatingMix& mix, const FinishUnknowns& unknowns) {
  const Lanes dry = mix.dry_g / k_dry_kg_m3;
  const Lanes fat = mix.fat_g / k_fat_kg_m3;
  CoatingState out;
  out.grains = dry / max(dry + fat, k_trace_g);
  const Lanes log_room = log(max(1.0 - out.grains / k_packing, 0.02));
  out.plastic_pa_s = unknowns.chocolate_factor * k_fat_pa_s * exp(-k_exponent * log_room);
  out.yield_pa = unknowns.chocolate_factor * k_yield_pa * exp(-k_yield_exponent * log_room);
  const Lanes root = sqrt(out.yield_pa) + sqrt(out.plastic_pa_s * k_shear_per_s);
  out.viscosity_pa_s = root * root / k_shear_per_s;
  out.kg_m3 = mix.total_g / max(dry + fat + mix.free_water_g / 1000.0, k_trace_g);
  out.film_mm = 1e3 * out.yield_pa / (out.kg_m3 * k_gravity);
  const Lanes wetness = mix.free_water_g / max(mix.total_g - mix.free_water_g, k_trace_g);
  out.ganache = select(wetness > unknowns.ganache_from, 1.0, 0.0);
  out.seizes = select(wetness > unknowns.seizes_from, 1.0 - out.ganache, 0.0);
  out.sets_below_celsius =
      unknowns.chocolate_sets_celsius - k_set_fall_k * mix.other_fat_g / max(mix.fat_g, k_trace_g);
  return out;
}

Lanes oil_to_reach_g(const CoatingMix& mix, double target_pa_s, const FinishUnknowns& unknowns) {
  const auto with = [&mix](const Lanes& oil) {
    CoatingMix out = mix;
    out.fat_g += oil;
    out.other_fat_g += oil;
    out.total_g += oil;
    return out;
  };
  // Falls with every gram of oil: halves between none and as much as there is of the rest.
  Lanes low = 0.0;
  Lanes high = mix.total_g;
  constexpr int k_halvings = 20;  // to a millionth of the batch
  for (int i = 0; i < k_halvings; ++i) {
    const Lanes middle = 0.5 * (low + high);
    const Mask thick = coating_state(with(middle), unknowns).viscosity_pa_s > Lanes(target_pa_s);
    low = select(thick, middle, low);
    high = select(thick, high, middle);
  }
  return select(coating_state(mix, unknowns).viscosity_pa_s > Lanes(target_pa_s), high, 0.0);
}

}  // namespace maslin
