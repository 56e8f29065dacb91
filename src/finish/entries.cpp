#include "finish/entries.h"

#include "finish/soak.h"
#include "finish/syrup.h"

namespace maslin {
namespace {

constexpr double k_trace_g = 1e-9;
/// A level teaspoon of a thin liquid.
constexpr double k_teaspoon_g = 5.0;
constexpr double k_warm_piece_celsius = 35.0;

/// Items of a bowl that are of a kind, or those that are not.
enum class Keep { of_kind, others };
Portions items_where(const Portions& portions, IngredientKind kind, Keep keep) {
  Portions out;
  for (const Portions::Item& item : portions.items) {
    if ((item.ingredient->kind == kind) == (keep == Keep::of_kind)) {
      out.items.push_back(item);
    }
  }
  return out;
}

/// The hottest surface on which a glaze of this term stays what it is.
Lanes surface_limit(const FinishTables& tables, const Lanes& term) {
  Lanes limit = 0.0;
  for (std::size_t i = 0; i < tables.terms.size(); ++i) {
    limit = select(term >= static_cast<double>(i), tables.terms[i].surface_celsius, limit);
  }
  return limit;
}

Lanes cooling_share(const FinishScene& scene, const Lanes& celsius) {
  const Lanes& room = scene.unknowns.room_celsius;
  return (celsius - room) / max(scene.piece.core_celsius - room, 0.1);
}

/// What filling_layout takes: the whole sheet, or one piece of an enclosed filling.
struct LaidMasses {
  Lanes dough_g;
  Lanes filling_g;
  Lanes sheets;  // how many of those the batch has
};
LaidMasses laid_masses(const FinishScene& scene, const FinishPart& part) {
  const Lanes filling_g = part.portions.total_grams();
  if (part.place != FillingPlace::enclosed) {
    return {scene.dough_g, filling_g, 1.0};
  }
  const Lanes count = max(scene.piece.count, 1.0);
  return {scene.dough_g / count, filling_g / count, count};
}

void add_balances(const FinishScene& scene, const GlazeHalves& halves, FinishEntry& entry) {
  const Lanes dry = halves.dry.total_g();
  const Lanes wet = halves.wet.total_g();
  Lanes thinner = 0.0;
  for (const ThicknessTerm& term : scene.tables.terms) {
    const GlazeBalance balance = balance_glaze(
        halves, term.target_pa_s, scene.unknowns.room_celsius, scene.unknowns, 0.999 * thinner);
    thinner = balance.dry_factor;
    entry.figures.push_back({term.liquid_figure, wet / balance.dry_factor});
    entry.figures.push_back({term.sugar_figure, dry * balance.dry_factor});
  }
}

}  // namespace

bool holds_kind(const Portions& portions, IngredientKind kind) {
  for (const Portions::Item& item : portions.items) {
    if (item.ingredient->kind == kind) {
      return true;
    }
  }
  return false;
}

Lanes polymer_g(const Portions& portions) {
  return portions.grams_of(Component::starch) + portions.grams_of(Component::protein) +
         portions.grams_of(Component::fibre);
}

FinishWork work_for(const FinishPart& part) {
  const bool sugared = holds_kind(part.portions, IngredientKind::sugar);
  const bool syrupy = sugared || holds_kind(part.portions, IngredientKind::syrup) ||
                      holds_kind(part.portions, IngredientKind::preserve);
  switch (part.kind) {
    case PartKind::glaze:
      return part.boiled || !sugared ? (syrupy ? FinishWork::syrup : FinishWork::nothing)
                                     : FinishWork::glaze;
    case PartKind::wash:
      return syrupy ? FinishWork::syrup : FinishWork::nothing;
    case PartKind::filling:
    case PartKind::topping:
      return FinishWork::filling;
    case PartKind::soaker:
      return holds_kind(part.portions, IngredientKind::dried_fruit) ? FinishWork::soak
                                                                    : FinishWork::nothing;
    case PartKind::extract:
      return part.boiled && syrupy ? FinishWork::syrup : FinishWork::extract;
    default:
      return FinishWork::nothing;
  }
}

FinishEntry glaze_entry(const FinishScene& scene, const FinishPart& part) {
  const FinishUnknowns& unknowns = scene.unknowns;
  const GlazeHalves halves = glaze_halves(part.portions, unknowns);
  const GlazeMix mix = halves.dry + halves.wet;
  const GlazeState state = glaze_state(mix, unknowns.room_celsius, unknowns);
  const GlazeState warm = glaze_state(mix, k_warm_piece_celsius, unknowns);
  const GlazeFlow flow = glaze_flow(state, unknowns);
  const Lanes wet_g = max(halves.wet.total_g(), k_trace_g);
  const GlazeMix thinned = mix + halves.wet * (k_teaspoon_g / wet_g);
  const GlazeState spoon = glaze_state(thinned, unknowns.room_celsius, unknowns);
  const Lanes term = thickness_term(scene.tables, state.viscosity_pa_s);
  FinishEntry entry{
      "glaze", part.name, {}, term, thickness_term(scene.tables, warm.viscosity_pa_s)};
  const Lanes limit = surface_limit(scene.tables, term);
  entry.figures = {
      {"sugar_g", halves.dry.total_g()},
      {"liquid_g", halves.wet.total_g()},
      {"viscosity_pa_s", state.viscosity_pa_s},
      {"viscosity_on_warm_piece_pa_s", warm.viscosity_pa_s},
      {"viscosity_with_teaspoon_more_pa_s", spoon.viscosity_pa_s},
      {"yield_pa", state.yield_pa},
      {"grains_fraction", state.grains},
      {"sugar_dissolved_share", state.dissolved},
      {"kg_m3", state.kg_m3},
      {"water_activity", state.water_activity},
      {"film_mm", flow.film_mm},
      {"slope_mm_s", flow.speed_mm_s},
      {"line_mm", flow.line_mm},
      {"skin_minutes", flow.skin_minutes},
      {"chance_never_sets", select(flow.skin_minutes < 1e9, 0.0, 1.0)},
      {"chance_paste", select(state.jammed, 1.0, 0.0)},
      {"surface_at_most_celsius", limit},
      {"glaze_after_minutes",
       minutes_until(scene.cooling, scene.cooling.surface, cooling_share(scene, limit))},
      {"grams_per_piece", mix.total_g() / max(scene.piece.count, 1.0)},
  };
  add_balances(scene, halves, entry);
  return entry;
}

FinishEntry syrup_entry(const FinishScene& scene, const FinishPart& part) {
  const FinishUnknowns& unknowns = scene.unknowns;
  const SyrupMix mix = syrup_mix(part.portions);
  const bool acid =
      part.portions.items.size() > 1 && (holds_kind(part.portions, IngredientKind::fruit) ||
                                         holds_kind(part.portions, IngredientKind::juice) ||
                                         holds_kind(part.portions, IngredientKind::acid));
  const SyrupMix done = part.boiled && acid ? inverted(mix, unknowns.inverted_share) : mix;
  const Lanes& water_boils = scene.water_boils_celsius;
  const Lanes jam_rise = boiling_rise_k(
      scene.tables,
      {done.solids_g() * (1.0 / k_jam_sets_at - 1.0), done.sucrose_g, done.simple_sugars_g});
  FinishEntry entry{"syrup", part.name, {}, {}, {}};
  entry.figures = {
      {"solids_fraction", done.fraction()},
      {"boils_celsius", water_boils + boiling_rise_k(scene.tables, done)},
      {"water_boils_celsius", water_boils},
      {"jam_sets_celsius", water_boils + jam_rise},
      {"jam_sets_at_g", boiled_down_g(done, k_jam_sets_at)},
      {"supersaturation", supersaturation(done, unknowns.room_celsius, unknowns)},
      {"water_activity", part_water_activity(part.portions, done.water_g)},
      {"grams", part.portions.total_grams()},
  };
  return entry;
}

FinishEntry filling_entry(const FinishScene& scene, const FinishPart& part) {
  const FinishUnknowns& unknowns = scene.unknowns;
  const LaidMasses masses = laid_masses(scene, part);
  const FillingState state =
      filling_state(scene.tables, part.portions, scene.water_boils_celsius, unknowns);
  const FillingRisks risks = filling_risks(state, part.place, scene.crumb.water_activity);
  const FillingLayout layout =
      filling_layout(masses.dough_g, masses.filling_g, state, part.place, unknowns);
  const Lanes sugar_g = state.sugar_fraction * part.portions.total_grams();
  CrumbLayer layer = scene.crumb;
  layer.thickness_m = 5e-4 * layout.wall_mm;
  const WaterMove move = water_into_crumb(state.water_activity, layer, 1.0, unknowns);
  const double faces =
      part.place == FillingPlace::rolled || part.place == FillingPlace::folded ? 2.0 : 1.0;
  const Lanes moved_g = 1e3 * move.kg_m2 * 1e-4 * layout.sheet_cm2 * faces * masses.sheets;
  FinishEntry entry{"filling", part.name, {}, {}, {}};
  entry.figures = {
      {"solids_fraction", state.solids_fraction},
      {"water_activity", state.water_activity},
      {"water_fraction", state.water_fraction},
      {"fat_fraction", state.fat_fraction},
      {"hot_pa_s", state.hot_pa_s},
      {"boils_celsius", state.boils_celsius},
      {"chance_runs_out", risks.runs_out},
      {"chance_boils_out", risks.boils_out},
      {"chance_steam_gap", risks.steam_gap},
      {"chance_dries_dough", risks.dries_dough},
      {"sheet_cm2", layout.sheet_cm2},
      {"kg_m2", layout.kg_m2},
      {"thickness_mm", layout.thickness_mm},
      {"wall_mm", layout.wall_mm},
      {"sugar_pct_flour", 100.0 * sugar_g / max(scene.flour_g, k_trace_g)},
      {"sugar_g_per_piece", sugar_g / max(scene.piece.count, 1.0)},
      {"grams_per_piece", part.portions.total_grams() / max(scene.piece.count, 1.0)},
      {"water_to_crumb_in_a_day_g", min(moved_g, part.portions.grams_of(Component::water))},
  };
  if (part.place == FillingPlace::rolled || part.place == FillingPlace::folded) {
    const RollRisks roll =
        roll_risks({scene.piece.effective_hydration, layout.wall_mm, state.water_fraction,
                    layout.kg_m2, scene.piece.proof_ratio});
    entry.figures.push_back({"chance_tunnel", roll.tunnel});
    entry.figures.push_back({"chance_lost_swirl", roll.lost_swirl});
  }
  return entry;
}

FinishEntry soak_entry(const FinishScene& scene, const FinishPart& part) {
  const Soak soak{items_where(part.portions, IngredientKind::dried_fruit, Keep::of_kind),
                  items_where(part.portions, IngredientKind::dried_fruit, Keep::others),
                  part.soak_hours.value_or(4.0),
                  part.soak_celsius.value_or(scene.unknowns.room_celsius)};
  const Soaked soaked = soak_fruit(scene.tables, soak, scene.unknowns);
  FinishEntry entry{"soak", part.name, {}, {}, {}};
  entry.figures = {
      {"hours", soak.hours},
      {"taken_up_g", soaked.taken_up_g},
      {"uptake_g_per_g", soaked.uptake_g_per_g},
      {"leaked_sugar_g", soaked.leaked_g},
      {"liquid_left_g", soaked.left_g},
      {"liquid_left_sugar_fraction", soaked.left_sugar_fraction},
      {"fruit_water_activity", soaked.fruit_activity},
      {"fruit_still_draws_g",
       max(scene.unknowns.fruit_draw - soaked.uptake_g_per_g, 0.0) * soak.fruit.total_grams()},
  };
  return entry;
}

FinishEntry extract_entry(const FinishScene& scene, const FinishPart& part) {
  Portions fruit;
  Lanes wash_g = 0.0;
  for (const Portions::Item& item : part.portions.items) {
    if (item.ingredient->composition[Component::water] > 0.98) {
      wash_g += item.grams;
    } else {
      fruit.items.push_back(item);
    }
  }
  const Lanes fruit_g = max(fruit.total_grams(), k_trace_g);
  const Lanes fibre = fruit.grams_of(Component::fibre) / fruit_g;
  const SyrupMix liquid = syrup_mix(fruit);
  const Strained strained = strain_fruit(
      {fruit_g, fibre, liquid.solids_g() / fruit_g, wash_g, 1, scene.unknowns.holdup_g_per_g, 1.0});
  FinishEntry entry{"extract", part.name, {}, {}, {}};
  entry.figures = {
      {"extract_g", strained.first_g + strained.washed_g},
      {"solids_fraction",
       (strained.first_g * strained.first_fraction + strained.washed_g * strained.washed_fraction) /
           max(strained.first_g + strained.washed_g, k_trace_g)},
      {"first_solids_fraction", strained.first_fraction},
      {"recovered_share", strained.recovery},
      {"residue_g", strained.residue_g},
  };
  return entry;
}

FinishEntry fruit_entry(const FinishScene& scene, const FinishPart& part) {
  const Portions fruit = items_where(part.portions, IngredientKind::dried_fruit, Keep::of_kind);
  const Lanes grams = fruit.total_grams();
  FinishEntry entry{"fruit_in_dough", part.name, {}, {}, {}};
  entry.figures = {
      {"fruit_g", grams},
      {"fruit_water_activity", part_water_activity(fruit, fruit.grams_of(Component::water))},
      {"water_drawn_g", scene.unknowns.fruit_draw * grams},
      {"water_drawn_pct_flour",
       100.0 * scene.unknowns.fruit_draw * grams / max(scene.flour_g, k_trace_g)},
  };
  return entry;
}

FinishEntry cooling_entry(const FinishScene& scene) {
  const KeepingModel& keeping = scene.tables.keeping;
  const CoolingCurve& curve = scene.cooling;
  FinishEntry entry{"cooling", "", {}, {}, {}};
  entry.figures = {
      {"surface_35_minutes",
       minutes_until(curve, curve.surface, cooling_share(scene, k_warm_piece_celsius))},
      {"wrap_after_minutes",
       minutes_until(curve, curve.mean, cooling_share(scene, keeping.wrap_celsius))},
      {"cut_after_minutes",
       minutes_until(curve, curve.centre, cooling_share(scene, keeping.cut_celsius))},
  };
  struct At {
    double minutes;
    std::string_view surface;
    std::string_view centre;
  };
  constexpr std::array<At, 6> k_times = {{{10.0, "surface_celsius_10", "centre_celsius_10"},
                                          {20.0, "surface_celsius_20", "centre_celsius_20"},
                                          {30.0, "surface_celsius_30", "centre_celsius_30"},
                                          {45.0, "surface_celsius_45", "centre_celsius_45"},
                                          {60.0, "surface_celsius_60", "centre_celsius_60"},
                                          {90.0, "surface_celsius_90", "centre_celsius_90"}}};
  const Lanes& room = scene.unknowns.room_celsius;
  const Lanes span = scene.piece.core_celsius - room;
  for (const At& at : k_times) {
    const Lanes seconds = 60.0 * at.minutes;
    entry.figures.push_back({at.surface, room + span * series_at(curve, curve.surface, seconds)});
    entry.figures.push_back({at.centre, room + span * series_at(curve, curve.centre, seconds)});
  }
  return entry;
}

}  // namespace maslin
