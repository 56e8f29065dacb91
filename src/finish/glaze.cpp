#include "finish/glaze.h"

#include <limits>

#include "numerics/clones.h"
#include "numerics/roots.h"
#include "numerics/trigonometry.h"
#include "properties/solution_activity.h"
#include "properties/sucrose.h"
#include "properties/water.h"

namespace maslin {
namespace {

constexpr double k_starch_kg_m3 = 1500.0;
constexpr double k_grit_kg_m3 = 1450.0;
constexpr double k_fat_kg_m3 = 920.0;
constexpr double k_gravity = 9.80665;
constexpr double k_trace_g = 1e-9;
/// Nearest the grains come to jamming before we call it a paste.
constexpr double k_fullest = 0.998;

bool is_gritty(IngredientKind kind) {
  return kind == IngredientKind::chocolate || kind == IngredientKind::nut ||
         kind == IngredientKind::nut_paste || kind == IngredientKind::seed ||
         kind == IngredientKind::spice || kind == IngredientKind::flour ||
         kind == IngredientKind::starch || kind == IngredientKind::topping;
}
bool is_pulpy(IngredientKind kind) {
  return kind == IngredientKind::juice || kind == IngredientKind::puree ||
         kind == IngredientKind::fruit || kind == IngredientKind::preserve;
}

GlazeMix mix_of(const Portions::Item& item, const FinishUnknowns& unknowns) {
  const Ingredient& what = *item.ingredient;
  const auto grams = [&item, &what](Component c) { return item.grams * what.composition[c]; };
  GlazeMix mix;
  mix.fat_g = grams(Component::fat);
  mix.saturated_g = grams(Component::saturated);
  mix.water_g = grams(Component::water) + grams(Component::alcohol);
  mix.simple_sugars_g = grams(Component::glucose) + grams(Component::fructose);
  const Lanes others = grams(Component::lactose) + grams(Component::maltose) +
                       grams(Component::other_carbohydrate) + grams(Component::acid) +
                       grams(Component::minerals);
  const Lanes coarse =
      grams(Component::protein) + grams(Component::fibre) + grams(Component::starch);
  if (what.kind == IngredientKind::sugar) {
    mix.crystals_g = grams(Component::sucrose);
    mix.starch_g = coarse;
    mix.sucrose_g = others;
  } else if (is_gritty(what.kind)) {
    mix.crystals_g = grams(Component::sucrose);
    mix.grit_g = coarse;
    mix.sucrose_g = others;
  } else {
    // Milk and egg protein and fruit fibre are too fine to count as grains.
    mix.sucrose_g = grams(Component::sucrose) + others + coarse;
  }
  if (is_pulpy(what.kind)) {
    mix.pulpy_g = item.grams;
    const Lanes solids = mix.sucrose_g + mix.simple_sugars_g;
    const Lanes factor =
        min(unknowns.juice_solids_factor, (solids + mix.water_g) / max(solids, k_trace_g));
    mix.water_g += solids * (1.0 - factor);
    mix.sucrose_g *= factor;
    mix.simple_sugars_g *= factor;
  }
  return mix;
}

/// The syrup between the grains.
struct Syrup {
  Lanes dissolved_g;  // of the crystals
  Lanes sucrose_g;
  Lanes total_g;
};

Syrup syrup_of(const GlazeMix& mix, const Lanes& celsius, const FinishUnknowns& unknowns) {
  const Lanes room_for_sucrose =
      max(sucrose_saturation_per_water(celsius) * mix.water_g - mix.sucrose_g -
              unknowns.simple_sugar_claim * mix.simple_sugars_g,
          0.0);
  Syrup syrup;
  syrup.dissolved_g = min(mix.crystals_g, room_for_sucrose);
  syrup.sucrose_g = syrup.dissolved_g + mix.sucrose_g;
  syrup.total_g = max(syrup.sucrose_g + mix.simple_sugars_g + mix.water_g, k_trace_g);
  return syrup;
}

/// Volume of grains that a mix would hold if none of its crystals dissolved, l.
Lanes dry_volume(const GlazeMix& mix) {
  return mix.crystals_g / k_sucrose_crystal_kg_m3 + mix.starch_g / k_starch_kg_m3 +
         mix.grit_g / k_grit_kg_m3 + mix.fat_g / k_fat_kg_m3;
}

/// Volume fraction of grains, and how dense the whole is.
struct Packing {
  Lanes grains;
  Lanes kg_m3;
};

Packing packing_of(const GlazeMix& mix, const Syrup& syrup, const Lanes& syrup_kg_m3) {
  const Lanes undissolved_g = mix.crystals_g - syrup.dissolved_g;
  GlazeMix grains = mix;
  grains.crystals_g = undissolved_g;
  const Lanes grain_volume = dry_volume(grains);
  const Lanes whole = grain_volume + syrup.total_g / syrup_kg_m3;
  return {grain_volume / whole, max(mix.total_g(), k_trace_g) / whole};
}

Lanes syrup_activity(const GlazeMix& mix, const Syrup& syrup, const FinishUnknowns& unknowns) {
  std::array<Lanes, k_component_count> grams{};
  grams[static_cast<std::size_t>(Component::water)] = mix.water_g;
  grams[static_cast<std::size_t>(Component::sucrose)] = syrup.sucrose_g;
  grams[static_cast<std::size_t>(Component::glucose)] = 0.5 * mix.simple_sugars_g;
  grams[static_cast<std::size_t>(Component::fructose)] = 0.5 * mix.simple_sugars_g;
  return clamp(dissolved_water_activity(grams) + unknowns.solution_activity_error, 0.0, 1.0);
}

/// What the viscosity is made of; the searches call this.
struct Thickness {
  Syrup syrup;
  Packing packing;
  Lanes syrup_fraction;
  Lanes fullness;  // grains against the most that can move
  Lanes log_syrup_pa_s;
};

Thickness thickness_of(const GlazeMix& mix, const Lanes& celsius, const FinishUnknowns& unknowns) {
  Thickness out;
  out.syrup = syrup_of(mix, celsius, unknowns);
  const Lanes per_g = 1.0 / out.syrup.total_g;
  out.syrup_fraction = (out.syrup.sucrose_g + mix.simple_sugars_g) * per_g;
  const Lanes alike = min(
      sucrose_equal_in_viscosity(out.syrup.sucrose_g * per_g, mix.simple_sugars_g * per_g), 0.87);
  out.packing = packing_of(mix, out.syrup, sugar_solution_kg_m3(out.syrup_fraction, celsius));
  out.fullness = out.packing.grains / unknowns.packing_limit;
  out.log_syrup_pa_s = log_sucrose_solution_pa_s(alike, celsius);
  if (any(mix.pulpy_g > 0.0)) {
    out.log_syrup_pa_s += log(unknowns.pulp_thickening) * min(mix.pulpy_g * per_g, 1.0);
  }
  return out;
}

Lanes set_fat_pa(const GlazeMix& mix, const Lanes& celsius) {
  constexpr double k_solid_at_20 = 0.29;
  const Lanes solid = k_solid_at_20 * clamp((33.0 - celsius) / 13.0, 0.0, 1.5) * mix.saturated_g /
                      max(mix.total_g(), k_trace_g);
  return 9e4 * solid * solid;
}

/// What is asked of a balance.
struct GlazeAim {
  Lanes log_target;
  Lanes per_exponent;
  Lanes celsius;
};

/// Krieger-Dougherty turned about: fullness + (eta_syrup/eta)^(1/([eta] phi_m)) - 1. Both
/// terms rise with the sugar and neither runs away where the grains jam.
Lanes excess_of(const Thickness& at, const GlazeAim& aim) {
  return at.fullness + exp((at.log_syrup_pa_s - aim.log_target) * aim.per_exponent) - 1.0;
}

/// The factor of the dry half as long as grains are left over: the syrup is then saturated
/// and hardly changes, so that the volumes of grains and syrup are straight lines in the
/// factor. Three passes settle what does change.
Lanes factor_with_grains(const GlazeHalves& halves, const GlazeAim& aim,
                         const FinishUnknowns& unknowns) {
  const GlazeMix& dry = halves.dry;
  Lanes factor = 6.0 * max(halves.wet.total_g(), k_trace_g) / max(dry.total_g(), k_trace_g);
  // What one more dry half dissolves of itself, and what it adds to grains and syrup.
  const Lanes dissolves = sucrose_saturation_per_water(aim.celsius) * dry.water_g - dry.sucrose_g -
                          unknowns.simple_sugar_claim * dry.simple_sugars_g;
  const Lanes grains_each = dry_volume(dry) - dissolves / k_sucrose_crystal_kg_m3;
  const Lanes syrup_each_g = dry.water_g + dry.sucrose_g + dry.simple_sugars_g + dissolves;
  for (int pass = 0; pass < 3; ++pass) {
    const GlazeMix mix = dry * factor + halves.wet;
    const Thickness at = thickness_of(mix, aim.celsius, unknowns);
    const Lanes whole = max(mix.total_g(), k_trace_g) / at.packing.kg_m3;
    const Lanes grains = at.packing.grains * whole;
    const Lanes syrup = whole - grains;
    const Lanes fullness = 1.0 - exp((at.log_syrup_pa_s - aim.log_target) * aim.per_exponent);
    const Lanes fraction = clamp(fullness * unknowns.packing_limit, 0.0, 0.99);
    const Lanes ratio = fraction / (1.0 - fraction);
    const Lanes syrup_each = syrup_each_g * syrup / at.syrup.total_g;
    const Lanes step = (ratio * syrup - grains) / max(grains_each - ratio * syrup_each, 1e-15);
    factor = max(factor + step, 1e-12);
  }
  return factor;
}

Lanes logistic(const Lanes& x) {
  return 1.0 / (1.0 + exp(-x));
}

}  // namespace

Lanes GlazeMix::total_g() const {
  return crystals_g + starch_g + grit_g + fat_g + water_g + sucrose_g + simple_sugars_g;
}

GlazeMix operator+(const GlazeMix& a, const GlazeMix& b) {
  return {a.crystals_g + b.crystals_g,   a.starch_g + b.starch_g,
          a.grit_g + b.grit_g,           a.fat_g + b.fat_g,
          a.saturated_g + b.saturated_g, a.water_g + b.water_g,
          a.sucrose_g + b.sucrose_g,     a.simple_sugars_g + b.simple_sugars_g,
          a.pulpy_g + b.pulpy_g};
}

GlazeMix operator*(const GlazeMix& mix, const Lanes& factor) {
  return {mix.crystals_g * factor, mix.starch_g * factor,        mix.grit_g * factor,
          mix.fat_g * factor,      mix.saturated_g * factor,     mix.water_g * factor,
          mix.sucrose_g * factor,  mix.simple_sugars_g * factor, mix.pulpy_g * factor};
}

GlazeHalves glaze_halves(const Portions& portions, const FinishUnknowns& unknowns) {
  GlazeHalves halves;
  for (const Portions::Item& item : portions.items) {
    const IngredientKind kind = item.ingredient->kind;
    GlazeMix& half = kind == IngredientKind::sugar || is_gritty(kind) ? halves.dry : halves.wet;
    half = half + mix_of(item, unknowns);
  }
  return halves;
}

MASLIN_ALL_WIDTHS
GlazeState glaze_state(const GlazeMix& mix, const Lanes& celsius, const FinishUnknowns& unknowns) {
  const Thickness at = thickness_of(mix, celsius, unknowns);
  GlazeState state;
  const Lanes exponent = unknowns.intrinsic_viscosity * unknowns.packing_limit;
  state.viscosity_pa_s = exp(at.log_syrup_pa_s - exponent * log(1.0 - min(at.fullness, k_fullest)));
  state.grains = at.packing.grains;
  constexpr double k_yield_from = 0.55;
  state.set_fat_pa = set_fat_pa(mix, celsius);
  state.yield_pa = unknowns.yield_scale_pa * max(state.grains / k_yield_from - 1.0, 0.0) /
                       (1.0 - min(at.fullness, k_fullest)) +
                   state.set_fat_pa;
  state.dissolved = select(mix.crystals_g > k_trace_g,
                           at.syrup.dissolved_g / max(mix.crystals_g, k_trace_g), 1.0);
  state.syrup_fraction = at.syrup_fraction;
  state.water_fraction = mix.water_g / max(mix.total_g(), k_trace_g);
  state.water_activity = syrup_activity(mix, at.syrup, unknowns);
  state.kg_m3 = at.packing.kg_m3;
  state.jammed = at.fullness >= k_fullest;
  return state;
}

Lanes thickness_term(const FinishTables& tables, const Lanes& viscosity_pa_s) {
  Lanes index = 0.0;
  for (std::size_t i = 1; i < tables.terms.size(); ++i) {
    index = select(viscosity_pa_s >= tables.terms[i].from_pa_s, static_cast<double>(i), index);
  }
  return index;
}

Lanes term_log_likelihood(const ThicknessTerm& term, const Lanes& viscosity_pa_s) {
  // A logistic of this scale is a normal of a third in the logarithm.
  constexpr double k_blur = 0.33 / 1.7;
  const Lanes log_viscosity = log(viscosity_pa_s);
  const Lanes over_low = logistic((log_viscosity - log(max(Lanes(term.from_pa_s), 1e-6))) / k_blur);
  const Lanes over_high = logistic((log_viscosity - log_same(term.to_pa_s)) / k_blur);
  return log(max(over_low - over_high, 1e-12));
}

MASLIN_ALL_WIDTHS
GlazeBalance balance_glaze(const GlazeHalves& halves, const Lanes& target_pa_s,
                           const Lanes& celsius, const FinishUnknowns& unknowns,
                           const Lanes& at_least) {
  const GlazeAim aim{log(target_pa_s),
                     1.0 / (unknowns.intrinsic_viscosity * unknowns.packing_limit), celsius};
  const auto excess = [&](const Lanes& factor) {
    return excess_of(thickness_of(halves.dry * factor + halves.wet, celsius, unknowns), aim);
  };
  const Lanes straight = factor_with_grains(halves, aim, unknowns);
  if (all(abs(excess(straight)) < 1e-8)) {
    return {straight, abs(straight) > 0.0};
  }
  // From next to no sugar to a hundred times as much as liquid.
  const Lanes even =
      log(max(halves.wet.total_g(), k_trace_g) / max(halves.dry.total_g(), k_trace_g));
  const Lanes low = max(even - 12.0, log(max(at_least, 1e-12)));
  const Lanes root =
      rising_root([&excess](const Lanes& log_factor) { return excess(exp(log_factor)); }, low,
                  even + 4.6, {1e-11, 1e-9, 100});
  return {exp(root), abs(excess(exp(root))) < 1e-6};
}

Lanes drying_flux_kg_m2_s(const Lanes& water_activity, const FinishUnknowns& unknowns) {
  constexpr double k_water_gas_constant = 461.5;  // J/(kg K)
  const Lanes kelvin = unknowns.room_celsius + k_zero_celsius_k;
  const Lanes drive = water_activity - 0.01 * unknowns.humidity_pct;
  return unknowns.drying_m_s * saturation_pressure_pa(kelvin) * drive /
         (k_water_gas_constant * kelvin);
}

MASLIN_ALL_WIDTHS
GlazeFlow glaze_flow(const GlazeState& state, const FinishUnknowns& unknowns,
                     const GlazeSide& side) {
  constexpr double k_thickest_m = 0.004;          // as it is laid on, common practice
  constexpr double k_half_thread_m2 = 3.5343e-6;  // half the section of a 3 mm thread
  constexpr double k_radians = 3.14159265358979323846 / 180.0;
  const Lanes weight = state.kg_m3 * k_gravity;  // N/m3
  const Lanes pull = weight * sine_cosine(k_radians * clamp(side.slope_degrees, 1.0, 90.0)).sine;
  GlazeFlow flow;
  // Jeffreys' draining film, but never thinner than the yield stress holds.
  const Lanes drained = sqrt(state.viscosity_pa_s * (1e-3 * side.length_mm) / (pull * side.wait_s));
  flow.film_mm = 1000.0 * min(max(drained, state.yield_pa / pull), k_thickest_m);
  // Mean speed of a Bingham layer under its own weight.
  const double layer_m = 1e-3 * side.layer_mm;
  const Lanes held = min(state.yield_pa / (pull * layer_m), 1.0);
  flow.speed_mm_s = 1000.0 * pull * (layer_m * layer_m) / (3.0 * state.viscosity_pa_s) *
                    (1.0 - held * (1.5 - 0.5 * held * held));
  // A thread spreads as Huppert 1982 until its yield stress holds it.
  const Lanes a = k_half_thread_m2;
  const Lanes spread =
      1.411 * pow(weight * a * a * a / (3.0 * state.viscosity_pa_s) * side.wait_s, 0.2);
  const Lanes stopped = pow(1.125 * a * a * weight / max(state.yield_pa, 1e-3), 1.0 / 3.0);
  flow.line_mm = 2000.0 * max(min(spread, stopped), 0.0015);
  // A skin when a share of the film's water has gone into the air.
  const Lanes flux = drying_flux_kg_m2_s(state.water_activity, unknowns);
  const Lanes film_water = 1e-3 * flow.film_mm * state.kg_m3 * state.water_fraction;
  flow.skin_minutes =
      select(flux > 1e-12, unknowns.skin_share * film_water / max(flux, 1e-12) / 60.0,
             std::numeric_limits<double>::infinity());
  return flow;
}

}  // namespace maslin
