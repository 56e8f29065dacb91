// Keeping in a forecast: each part, the crumb, the whole piece, and its cautions.
#include <limits>

#include "finish/entries.h"

namespace maslin {
namespace {

constexpr double k_trace_g = 1e-9;
constexpr std::array k_perishable = {
    IngredientKind::dairy,  IngredientKind::cheese,     IngredientKind::egg,
    IngredientKind::meat,   IngredientKind::fish,       IngredientKind::puree,
    IngredientKind::fruit,  IngredientKind::vegetable,  IngredientKind::potato,
    IngredientKind::legume, IngredientKind::plant_milk, IngredientKind::cooked};

bool keeps_badly(const Portions& portions) {
  for (const IngredientKind kind : k_perishable) {
    if (holds_kind(portions, kind)) {
      return true;
    }
  }
  return false;
}

/// Mean pH by mass of what has one; watery things of unknown pH count as 6.5. Higher, so
/// safer, than mixing the acids truly would give.
Lanes part_ph(const Portions& portions) {
  Lanes weighted = 0.0;
  Lanes grams = 0.0;
  for (const Portions::Item& item : portions.items) {
    const double water = item.ingredient->composition[Component::water];
    if (item.ingredient->ph > 0.0 || water > 0.3) {
      weighted += item.grams * (item.ingredient->ph > 0.0 ? item.ingredient->ph : 6.5);
      grams += item.grams;
    }
  }
  return select(grams > k_trace_g, weighted / max(grams, k_trace_g), 6.5);
}

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
  CoolingBody frozen = scene.body;
  frozen.film_w_m2_k = 12.0;  // still air of a home freezer, from memory
  FinishEntry entry{"keeping", "", {}, {}, {}};
  entry.figures = {
      {"crumb_water_activity", scene.crumb.water_activity},
      {"wettest_water_activity", wettest},
      {"mould_free_days", unknowns.mould_factor * mould_free_days(model, wettest, room)},
      {"fresh_days", fresh_days(model, share, room, unknowns)},
      {"fresh_days_in_fridge", fresh_days(model, share, unknowns.fridge_celsius, unknowns)},
      {"firming_share", share},
      {"firmness_day_1", firmness_ratio(model, share, 1.0, room)},
      {"firmness_day_2", firmness_ratio(model, share, 2.0, room)},
      {"firmness_day_3", firmness_ratio(model, share, 3.0, room)},
      {"firmness_day_5", firmness_ratio(model, share, 5.0, room)},
      {"freezing_hours", freezing_hours(frozen, scene.crumb_water_fraction, 25.0,
                                        model.freezing_point_celsius, -18.0)},
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

std::string with_part(std::string text, const std::string& part) {
  const std::size_t at = text.find("{part}");
  if (at != std::string::npos) {
    text.replace(at, 6, part);
  }
  return text;
}

void add_caution(const FinishScene& scene, std::string_view id, const std::string& part,
                 const Lanes& applies, std::vector<FinishCaution>& out) {
  for (const CautionText& caution : scene.tables.cautions) {
    if (caution.id == id) {
      out.push_back({caution.id, part, with_part(caution.text, part), applies});
    }
  }
}

void add_part_cautions(const FinishScene& scene, const FinishPart& part,
                       std::vector<FinishCaution>& out) {
  const KeepingModel& model = scene.tables.keeping;
  const bool onto_piece = part.kind == PartKind::filling || part.kind == PartKind::topping ||
                          part.kind == PartKind::glaze;
  if (onto_piece && keeps_badly(part.portions)) {
    const Lanes activity = eaten_water_activity(scene, part);
    add_caution(
        scene, "chill_perishable", part.name,
        select((activity > model.growth_pathogen) & (part_ph(part.portions) > model.acid_limit_ph),
               1.0, 0.0),
        out);
  }
  if (onto_piece && !part.baked && !part.boiled && holds_kind(part.portions, IngredientKind::egg)) {
    add_caution(scene, "raw_egg", part.name, 1.0, out);
  }
  if (part.boiled && work_for(part) == FinishWork::syrup) {
    add_caution(scene, "hot_syrup", part.name, 1.0, out);
    add_caution(scene, "not_for_canning", part.name, 1.0, out);
  }
  if (holds_kind(part.portions, IngredientKind::meat) ||
      holds_kind(part.portions, IngredientKind::fish)) {
    add_caution(scene, "cook_meat", part.name, 1.0, out);
  }
  if (onto_piece && holds_kind(part.portions, IngredientKind::alcohol)) {
    add_caution(scene, "alcohol", part.name, 1.0, out);
  }
  for (const Portions::Item& item : part.portions.items) {
    if (item.ingredient->protease) {
      add_caution(scene, "protease", part.name, 1.0, out);
      break;
    }
  }
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
  return clamp(part_water_activity(part.portions, part.portions.grams_of(Component::water)) +
                   scene.unknowns.solution_activity_error,
               0.0, 1.0);
}

std::vector<FinishEntry> keeping_entries(const FinishScene& scene) {
  std::vector<FinishEntry> entries;
  Lanes wettest = scene.has_dough ? scene.crumb.water_activity : Lanes(0.0);
  for (const FinishPart& part : scene.parts) {
    const bool eaten_with_it = part.kind == PartKind::dough || part.kind == PartKind::filling ||
                               part.kind == PartKind::topping || part.kind == PartKind::glaze;
    if (!eaten_with_it || part.portions.items.empty()) {
      continue;
    }
    entries.push_back(part_keeping(scene, part));
    wettest = max(wettest, entries.back().figures.front().value);
    if (work_for(part) == FinishWork::glaze && scene.has_dough) {
      entries.push_back(weeping_entry(scene, part));
    }
  }
  if (scene.has_dough) {
    entries.push_back(piece_keeping(scene, wettest));
  }
  return entries;
}

std::vector<FinishCaution> finish_cautions(const FinishScene& scene) {
  std::vector<FinishCaution> out;
  for (const FinishPart& part : scene.parts) {
    add_part_cautions(scene, part, out);
  }
  if (scene.has_dough) {
    add_caution(scene, "mould_not_safety", "", 1.0, out);
    add_caution(scene, "rope_warm", "", select(scene.unknowns.room_celsius > 25.0, 1.0, 0.0), out);
  }
  return out;
}

}  // namespace maslin
