#include "finish/syrup.h"

#include "numerics/clones.h"
#include "properties/solution_activity.h"
#include "properties/sucrose.h"
#include "properties/water.h"

namespace maslin {
namespace {

constexpr double k_trace_g = 1e-9;

Lanes per_water(double fraction) {
  return fraction / (1.0 - fraction);
}

Lanes activity_of(const Lanes& sucrose_g, const Lanes& simple_g, const Lanes& water_g) {
  std::array<Lanes, k_component_count> grams{};
  grams[static_cast<std::size_t>(Component::water)] = water_g;
  grams[static_cast<std::size_t>(Component::sucrose)] = sucrose_g;
  grams[static_cast<std::size_t>(Component::glucose)] = 0.5 * simple_g;
  grams[static_cast<std::size_t>(Component::fructose)] = 0.5 * simple_g;
  return dissolved_water_activity(grams);
}

}  // namespace

Lanes SyrupMix::fraction() const {
  return solids_g() / max(solids_g() + water_g, k_trace_g);
}

SyrupMix syrup_mix(const Portions& portions) {
  const auto grams = portions.components();
  const auto of = [&grams](Component c) { return grams[static_cast<std::size_t>(c)]; };
  return {of(Component::water),
          of(Component::sucrose) + of(Component::lactose) + of(Component::maltose) +
              of(Component::other_carbohydrate) + of(Component::acid),
          of(Component::glucose) + of(Component::fructose)};
}

MASLIN_ALL_WIDTHS
Lanes boiling_rise_k(const FinishTables& tables, const SyrupMix& mix) {
  const Lanes ratio = mix.solids_g() / max(mix.water_g, k_trace_g);
  Lanes rise = tables.boiling.empty() ? 0.0 : tables.boiling.back().rise_k;
  for (std::size_t i = tables.boiling.size(); i-- > 1;) {
    const BoilingPoint& from = tables.boiling[i - 1];
    const BoilingPoint& to = tables.boiling[i];
    const Lanes share =
        (ratio - per_water(from.fraction)) / (per_water(to.fraction) - per_water(from.fraction));
    rise = select(ratio < per_water(to.fraction),
                  from.rise_k + max(share, 0.0) * (to.rise_k - from.rise_k), rise);
  }
  // dT = -(R T^2 / L) ln a near water's boiling point: 28.4 K at 373 K.
  constexpr double k_kelvin_per_log = 28.4;
  const Lanes water_g = max(mix.water_g, k_trace_g);
  const Lanes as_is = activity_of(mix.sucrose_g, mix.simple_sugars_g, water_g);
  const Lanes as_sucrose = activity_of(mix.solids_g(), 0.0, water_g);
  return rise + max(k_kelvin_per_log * log(as_sucrose / max(as_is, 1e-6)), 0.0);
}

Lanes fraction_boiling_at(const FinishTables& tables, const Lanes& rise_k) {
  Lanes fraction = tables.boiling.empty() ? 0.0 : tables.boiling.back().fraction;
  for (std::size_t i = tables.boiling.size(); i-- > 1;) {
    const BoilingPoint& from = tables.boiling[i - 1];
    const BoilingPoint& to = tables.boiling[i];
    const Lanes share = max((rise_k - from.rise_k) / (to.rise_k - from.rise_k), 0.0);
    const Lanes ratio =
        per_water(from.fraction) + share * (per_water(to.fraction) - per_water(from.fraction));
    fraction = select(rise_k < to.rise_k, ratio / (1.0 + ratio), fraction);
  }
  return fraction;
}

Lanes water_boils_celsius(const Lanes& altitude_m) {
  return boiling_point_k(pressure_at_altitude_pa(altitude_m)) - k_zero_celsius_k;
}

Lanes boiled_down_g(const SyrupMix& mix, const Lanes& to_fraction) {
  return mix.solids_g() / clamp(to_fraction, 1e-6, 1.0);
}

SyrupMix inverted(const SyrupMix& mix, const Lanes& share) {
  // C12H22O11 + H2O -> 2 C6H12O6.
  constexpr double k_gain = 360.31 / 342.30;
  const Lanes split = share * mix.sucrose_g;
  return {mix.water_g - (k_gain - 1.0) * split, mix.sucrose_g - split,
          mix.simple_sugars_g + k_gain * split};
}

Lanes supersaturation(const SyrupMix& mix, const Lanes& celsius, const FinishUnknowns& unknowns) {
  const Lanes capacity = sucrose_saturation_per_water(celsius) * mix.water_g -
                         unknowns.simple_sugar_claim * mix.simple_sugars_g;
  return mix.sucrose_g / max(capacity, k_trace_g);
}

}  // namespace maslin
