// Syrups, fillings and soaked fruit in a forecast.
#include "finish/entries.h"
#include "finish/soak.h"
#include "finish/syrup.h"

namespace maslin {
namespace {

constexpr double k_trace_g = 1e-9;

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

/// What filling_layout takes: the whole sheet, or one piece of an enclosed filling.
struct LaidMasses {
  Lanes dough_g;
  Lanes filling_g;
  Lanes sheets;  // how many of those the batch has
};
LaidMasses laid_masses(const FinishScene& scene, const FinishPart& part) {
  const Lanes filling_g = part.portions.total_grams() - boiled_off_g(part);
  if (part.place != FillingPlace::enclosed) {
    return {scene.dough_g, filling_g, 1.0};
  }
  const Lanes count = max(scene.piece.count, 1.0);
  return {scene.dough_g / count, filling_g / count, count};
}

bool is_sheet(FillingPlace place) {
  return place == FillingPlace::rolled || place == FillingPlace::folded;
}

/// The syrup as it leaves the stove.
SyrupMix cooked_syrup(const FinishScene& scene, const FinishPart& part) {
  SyrupMix mix = syrup_mix(part.portions);
  mix.water_g = max(mix.water_g - boiled_off_g(part), 0.0);
  const bool acid = holds_kind(part.portions, IngredientKind::fruit) ||
                    holds_kind(part.portions, IngredientKind::juice) ||
                    holds_kind(part.portions, IngredientKind::puree) ||
                    holds_kind(part.portions, IngredientKind::acid);
  return part.boiled && acid ? inverted(mix, scene.unknowns.inverted_share) : mix;
}

}  // namespace

FinishEntry syrup_entry(const FinishScene& scene, const FinishPart& part) {
  const FinishUnknowns& unknowns = scene.unknowns;
  const SyrupMix done = cooked_syrup(scene, part);
  const Lanes& water_boils = scene.water_boils_celsius;
  SyrupMix jam = done;
  jam.water_g = done.solids_g() * (1.0 / k_jam_sets_at - 1.0);
  FinishEntry entry{"syrup", part.name, {}, {}, {}};
  entry.figures = {
      {"grams", part.portions.total_grams() - boiled_off_g(part)},
      {"solids_fraction", done.fraction()},
      {"boils_celsius", water_boils + boiling_rise_k(scene.tables, done)},
      {"water_boils_celsius", water_boils},
      {"jam_sets_celsius", water_boils + boiling_rise_k(scene.tables, jam)},
      {"jam_sets_at_g",
       part.portions.total_grams() - boiled_off_g(part) - done.water_g + jam.water_g},
      {"supersaturation", supersaturation(done, unknowns.room_celsius, unknowns)},
      {"chance_crystallises",
       select(supersaturation(done, unknowns.room_celsius, unknowns) > 1.0, 1.0, 0.0)},
      {"water_activity", part_water_activity(part.portions, done.water_g)},
  };
  return entry;
}

FinishEntry filling_entry(const FinishScene& scene, const FinishPart& part) {
  const FinishUnknowns& unknowns = scene.unknowns;
  const LaidMasses masses = laid_masses(scene, part);
  const FillingState state = filling_state(
      scene.tables, part.portions, {scene.water_boils_celsius, boiled_off_g(part)}, unknowns);
  const FillingLayout layout =
      filling_layout(masses.dough_g, masses.filling_g, state, part.place, unknowns);
  const FillingRisks risks =
      filling_risks(state, layout, part.place, scene.crumb.water_activity, unknowns);
  const Lanes batch_g = masses.filling_g * masses.sheets;
  const Lanes sugar_g = state.sugar_fraction * batch_g;
  CrumbLayer layer = scene.crumb;
  layer.thickness_m = 5e-4 * layout.wall_mm;
  const WaterMove move = water_into_crumb(state.water_activity, layer, 1.0, unknowns);
  const double faces = is_sheet(part.place) ? 2.0 : 1.0;
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
      {"sheet_cm2", layout.sheet_cm2 * masses.sheets},
      {"kg_m2", layout.kg_m2},
      {"thickness_mm", layout.thickness_mm},
      {"wall_mm", layout.wall_mm},
      {"sugar_pct_flour", 100.0 * sugar_g / max(scene.flour_g, k_trace_g)},
      {"sugar_g_per_piece", sugar_g / max(scene.piece.count, 1.0)},
      {"grams_per_piece", batch_g / max(scene.piece.count, 1.0)},
      {"water_to_crumb_in_a_day_g", min(moved_g, state.water_fraction * batch_g)},
  };
  if (is_sheet(part.place)) {
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

}  // namespace maslin
