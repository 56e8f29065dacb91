#include "finish/keeping.h"

#include <limits>

#include "properties/solution_activity.h"
#include "properties/sucrose.h"
#include "properties/water.h"
#include "properties/water_activity.h"

namespace maslin {
namespace {

constexpr double k_trace_g = 1e-9;
constexpr double k_never = std::numeric_limits<double>::infinity();
constexpr double k_isotherm_k = 298.15;
constexpr double k_pi = 3.14159265358979323846;
constexpr double k_day_s = 86400.0;

Lanes diffusivity(const FinishUnknowns& unknowns) {
  return unknowns.crumb_diffusivity_m2_s * pow(2.0, (unknowns.room_celsius - 20.0) / 10.0);
}

}  // namespace

Lanes polymer_water_at(const Lanes& activity) {
  // The isotherm is a power of a/(1 - a): two of its points give it whole.
  const Lanes wanted = clamp(activity, 1e-6, 1.0 - 1e-6);
  const Lanes at_low = polymer_water_activity(0.1, k_isotherm_k);
  const Lanes at_high = polymer_water_activity(0.4, k_isotherm_k);
  const auto log_odds = [](const Lanes& a) { return log(a / (1.0 - a)); };
  const Lanes power = log(Lanes(4.0)) / (log_odds(at_high) - log_odds(at_low));
  return 0.1 * exp(power * (log_odds(wanted) - log_odds(at_low)));
}

Lanes part_water_activity(const Portions& portions, const Lanes& water_g) {
  auto grams = portions.components();
  grams[static_cast<std::size_t>(Component::water)] = water_g;
  const auto of = [&grams](Component c) { return grams[static_cast<std::size_t>(c)]; };
  // Sucrose beyond what the water dissolves lies as crystals and holds no water.
  const Lanes dissolves = sucrose_saturation_per_water(25.0) * water_g -
                          0.5 * (of(Component::glucose) + of(Component::fructose));
  Lanes& sucrose_g = grams[static_cast<std::size_t>(Component::sucrose)];
  sucrose_g = min(sucrose_g, max(dissolves, 0.0));
  const Lanes polymer = of(Component::starch) + of(Component::protein) + of(Component::fibre);
  const Lanes held = polymer_water_activity(water_g / max(polymer, k_trace_g), k_isotherm_k);
  return select(water_g > k_trace_g,
                select(polymer > k_trace_g, held, 1.0) * dissolved_water_activity(grams), 0.0);
}

Lanes mould_free_days(const KeepingModel& model, const Lanes& water_activity,
                      const Lanes& celsius) {
  constexpr double k_ln10 = 2.302585092994045684;
  const Lanes erh =
      100.0 * clamp(water_activity, model.mould_activity_low, model.mould_activity_high);
  const Lanes t = clamp(celsius, model.mould_celsius_low, model.mould_celsius_high);
  const Lanes at_21 = model.mould_21_intercept - model.mould_21_slope * erh;
  const Lanes at_27 = model.mould_27_intercept - model.mould_27_slope * erh;
  const Lanes log10_days = at_21 + (t - 21.0) / 6.0 * (at_27 - at_21);
  return select(water_activity < model.growth_none, k_never, exp(k_ln10 * log10_days));
}

Lanes firming_share(const KeepingModel& model, const CrumbMakeUp& make_up) {
  const auto factor = [](double per_pct, double least, const Lanes& pct) {
    return max(1.0 - per_pct * max(pct, 0.0), least);
  };
  const Lanes all = factor(model.staling_fat, model.staling_fat_least, make_up.fat_pct) *
                    factor(model.staling_sugar, model.staling_sugar_least, make_up.sugar_pct) *
                    factor(model.staling_egg, model.staling_egg_least, make_up.egg_pct) *
                    (1.0 - model.staling_scald * clamp(make_up.scalded_share, 0.0, 1.0));
  return max(all, model.staling_least);
}

Lanes staling_time_constant_days(const KeepingModel& model, const Lanes& celsius) {
  return model.staling_days_at_0 + model.staling_days_per_c * clamp(celsius, -2.0, 40.0);
}

Lanes firmness_ratio(const KeepingModel& model, const Lanes& share, const Lanes& days,
                     const Lanes& celsius) {
  const Lanes tau = staling_time_constant_days(model, celsius);
  return 1.0 + (model.firmness_ratio_lean - 1.0) * share * (1.0 - exp(-days / tau));
}

Lanes fresh_days(const KeepingModel& model, const Lanes& share, const Lanes& celsius,
                 const FinishUnknowns& unknowns) {
  const Lanes tau = unknowns.staling_factor * staling_time_constant_days(model, celsius);
  const Lanes used = unknowns.fresh_limit / max(share, 1e-6);
  return select(used >= 1.0, k_never, -tau * log(max(1.0 - used, 1e-12)));
}

Lanes refreshed_days(const KeepingModel& model, const Lanes& share, const Lanes& celsius,
                     const FinishUnknowns& unknowns) {
  const Lanes tau =
      unknowns.staling_factor * staling_time_constant_days(model, celsius) / model.refresh_speed;
  const Lanes stale = unknowns.fresh_limit / max(share, 1e-6);
  const Lanes left = (1.0 - model.refresh_share) * stale;
  const Lanes days = tau * log((1.0 - left) / max(1.0 - stale, 1e-12));
  return select(stale >= 1.0, k_never, days);
}

Lanes thawed_days(const KeepingModel& model, const Lanes& share, const Lanes& celsius,
                  const FinishUnknowns& unknowns) {
  const Lanes spent = model.freeze_staling_days * staling_time_constant_days(model, celsius) /
                      staling_time_constant_days(model, 20.0);
  return max(fresh_days(model, share, celsius, unknowns) - spent, 0.0);
}

WaterMove water_into_crumb(const Lanes& from_activity, const CrumbLayer& crumb, const Lanes& days,
                           const FinishUnknowns& unknowns) {
  const Lanes difference = polymer_water_at(from_activity) - polymer_water_at(crumb.water_activity);
  const Lanes reach = sqrt(max(diffusivity(unknowns) * days * k_day_s, 0.0));
  const Lanes filled = min(reach * (2.0 / __builtin_sqrt(k_pi)), crumb.thickness_m);
  return {difference * crumb.polymer_kg_m3 * filled, min(2.0 * reach, crumb.thickness_m) * 1000.0};
}

Lanes weeping_days(const KeepingModel& model, const Lanes& glaze_activity,
                   const Lanes& glaze_water_kg_m2, const CrumbLayer& crumb,
                   const FinishUnknowns& unknowns) {
  const Lanes difference =
      polymer_water_at(crumb.water_activity) - polymer_water_at(glaze_activity);
  const Lanes wanted = model.weep_share * glaze_water_kg_m2;
  const Lanes root = wanted / (2.0 * max(difference, 1e-6) * crumb.polymer_kg_m3);
  const Lanes days = k_pi * root * root / (diffusivity(unknowns) * k_day_s);
  return select(difference > 0.0, days, k_never);
}

}  // namespace maslin
