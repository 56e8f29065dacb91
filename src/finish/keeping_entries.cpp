// Keeping in a forecast: each part, the crumb, the whole piece.
#include <limits>

#include "finish/entries.h"

namespace maslin {
namespace {

constexpr double k_trace_g = 1e-9;
CrumbMakeUp make_up(const FinishScene& scene) {
  CrumbMakeUp out;
  out.scalded_share = scene.piece.scalded_share;
  Lanes fat = 0.0;
  Lanes sugar = 0.0;
  Lanes egg = 0.0;
  for (const FinishPart& part : scene.parts) {
    if (part.kind == PartKind::dough) {
      fat += part.portions.grams_of(Component::fat);
      egg += part.portions.grams_of_kind(IngredientKind::egg);
      for (const Component c : {Component::sucrose, Component::glucose, Component::fructose,
                                Component::lactose, Component::maltose}) {
        sugar += part.portions.grams_of(c);
      }
    }
  }
  const Lanes per_flour = 100.0 / max(scene.flour_g, k_trace_g);
  // Flour brings about 1.5 % fat and 2 % sugars of its own.
  out.fat_pct = max(fat * per_flour - 1.5, 0.0);
  out.sugar_pct = max(sugar * per_flour - 2.0, 0.0);
  out.egg_pct = egg * per_flour;
  return out;
}

FinishEntry part_keeping(const FinishScene& scene, const FinishPart& part) {
  const KeepingModel& model = scene.tables.keeping;
  const Lanes activity = eaten_water_activity(scene, part);
  const Lanes factor = scene.unknowns.mould_factor;
  FinishEntry entry{"keeping", part.name, {}, {}, {}};
  entry.figures = {
      {"water_activity", activity},
      {"ph", part_ph(part.portions)},
      {"mould_free_days", factor * mould_free_days(model, activity, scene.unknowns.room_celsius)},
  };
  return entry;
}

FinishEntry piece_keeping(const FinishScene& scene, const Lanes& wettest) {
  const KeepingModel& model = scene.tables.keeping;
  const FinishUnknowns& unknowns = scene.unknowns;
  const Lanes share = firming_share(model, make_up(scene));
  const Lanes& room = unknowns.room_celsius;
  // Pieces are frozen and thawed apart, however they stood in the oven.
  CoolingBody frozen = scene.body;
  frozen.shape = CoolingShape::ball;
  frozen.half_thickness_m = ball_radius_m(scene.piece.grams, frozen.kg_m3);
  frozen.film_w_m2_k = 12.0;  // still air of a home freezer, from memory
  CoolingBody thawing = frozen;
  thawing.film_w_m2_k = unknowns.thaw_w_m2_k;
  constexpr double k_freezer_celsius = -18.0;
  FinishEntry entry{"keeping", "", {}, {}, {}};
  entry.figures = {
      {"crumb_water_activity", scene.crumb.water_activity},
      {"wettest_water_activity", wettest},
      {"mould_free_days", unknowns.mould_factor * mould_free_days(model, wettest, room)},
      {"fresh_days", fresh_days(model, share, room, unknowns)},
      {"fresh_days_in_fridge", fresh_days(model, share, unknowns.fridge_celsius, unknowns)},
      {"fresh_days_after_refreshing", refreshed_days(model, share, room, unknowns)},
      {"fresh_days_after_freezing", thawed_days(model, share, room, unknowns)},
      {"firming_share", share},
      {"firmness_day_1", firmness_ratio(model, share, 1.0, room)},
      {"firmness_day_2", firmness_ratio(model, share, 2.0, room)},
      {"firmness_day_3", firmness_ratio(model, share, 3.0, room)},
      {"firmness_day_5", firmness_ratio(model, share, 5.0, room)},
      {"freezing_hours", freezing_hours(frozen, scene.crumb_water_fraction, 25.0,
                                        model.freezing_point_celsius, k_freezer_celsius)},
      {"thawing_hours", thawing_hours(thawing, scene.crumb_water_fraction, k_freezer_celsius,
                                      model.freezing_point_celsius, room)},
      {"frozen_weeks", model.frozen_weeks},
      {"refresh_celsius", model.refresh_celsius},
  };
  return entry;
}

FinishEntry weeping_entry(const FinishScene& scene, const FinishPart& part) {
  const GlazeHalves halves = glaze_halves(part.portions, scene.unknowns);
  const GlazeState state =
      glaze_state(halves.dry + halves.wet, scene.unknowns.room_celsius, scene.unknowns);
  const GlazeFlow flow = glaze_flow(state, scene.unknowns);
  const Lanes water_kg_m2 = 1e-3 * flow.film_mm * state.kg_m3 * state.water_fraction;
  FinishEntry entry{"weeping", part.name, {}, {}, {}};
  entry.figures = {
      {"tacky_under_film_days", weeping_days(scene.tables.keeping, state.water_activity,
                                             water_kg_m2, scene.crumb, scene.unknowns)}};
  return entry;
}

}  // namespace

Lanes eaten_water_activity(const FinishScene& scene, const FinishPart& part) {
  if (part.kind == PartKind::dough) {
    return scene.crumb.water_activity;
  }
  if (work_for(part) == FinishWork::glaze) {
    const GlazeHalves halves = glaze_halves(part.portions, scene.unknowns);
    return glaze_state(halves.dry + halves.wet, scene.unknowns.room_celsius, scene.unknowns)
        .water_activity;
  }
  const Lanes water_g = part.portions.grams_of(Component::water) - boiled_off_g(part);
  return clamp(part_water_activity(part.portions, water_g) + scene.unknowns.solution_activity_error,
               0.0, 1.0);
}

std::vector<FinishEntry> keeping_entries(const FinishScene& scene) {
  std::vector<FinishEntry> entries;
  Lanes wettest = scene.has_dough ? scene.crumb.water_activity : Lanes(0.0);
  for (const FinishPart& part : scene.parts) {
    const bool eaten_with_it = part.kind == PartKind::dough || part.kind == PartKind::filling ||
                               part.kind == PartKind::topping || part.kind == PartKind::glaze;
    // The crumb is in `wettest`, and the whole piece's line speaks for it.
    const bool crumb = part.kind == PartKind::dough && scene.has_dough;
    if (!eaten_with_it || crumb || part.portions.items.empty()) {
      continue;
    }
    entries.push_back(part_keeping(scene, part));
    // The drops of water in butter and the like are closed off: mould cannot use them.
    const Lanes total = max(part.portions.total_grams(), k_trace_g);
    const Mask closed = part.portions.grams_of(Component::fat) > 0.5 * total;
    wettest = max(wettest, select(closed, 0.0, entries.back().figures.front().value));
    if (work_for(part) == FinishWork::glaze && scene.has_dough) {
      entries.push_back(weeping_entry(scene, part));
    }
  }
  if (scene.has_dough) {
    entries.push_back(piece_keeping(scene, wettest));
  }
  return entries;
}

}  // namespace maslin
