// Glaze and cooling in a forecast, and what a part is worked out as.
#include "finish/entries.h"
#include "finish/coating.h"

namespace maslin {
namespace {

constexpr double k_trace_g = 1e-9;
/// A level teaspoon of a thin liquid.
constexpr double k_teaspoon_g = 5.0;
constexpr double k_warm_piece_celsius = 35.0;

/// The hottest surface on which a glaze of this term stays what it is.
Lanes surface_limit(const FinishTables& tables, const Lanes& term) {
  Lanes limit = 0.0;
  for (std::size_t i = 0; i < tables.terms.size(); ++i) {
    limit = select(term >= static_cast<double>(i), tables.terms[i].surface_celsius, limit);
  }
  return limit;
}

/// Table and caster sugar that does not dissolve stays to be felt; icing sugar does not.
Lanes chance_gritty(const Portions& portions, const GlazeState& state) {
  Lanes coarse_g = 0.0;
  Lanes sucrose_g = 0.0;
  for (const Portions::Item& item : portions.items) {
    if (item.ingredient->kind == IngredientKind::sugar) {
      const Lanes g = item.grams * item.ingredient->composition[Component::sucrose];
      sucrose_g += g;
      coarse_g += item.ingredient->composition[Component::starch] > 0.0 ? Lanes(0.0) : g;
    }
  }
  // Coarse grains are the last to dissolve.
  return select(coarse_g > state.dissolved * sucrose_g, 1.0, 0.0);
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

Lanes cooling_share(const FinishScene& scene, const Lanes& celsius) {
  const Lanes& room = scene.unknowns.room_celsius;
  return (celsius - room) / max(scene.piece.core_celsius - room, 0.1);
}

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

bool holds_any(const Portions& portions, const std::vector<std::string>& ids) {
  for (const Portions::Item& item : portions.items) {
    for (const std::string& id : ids) {
      if (item.ingredient->id == id) {
        return true;
      }
    }
  }
  return false;
}

Lanes boiled_off_g(const FinishPart& part) {
  const Lanes lost = (1.0 - part.yield) * part.portions.total_grams();
  return part.boiled ? clamp(lost, 0.0, part.portions.grams_of(Component::water)) : Lanes(0.0);
}

bool boils_to_syrup(const FinishPart& part) {
  return part.boiled && (holds_kind(part.portions, IngredientKind::sugar) ||
                         holds_kind(part.portions, IngredientKind::syrup) ||
                         holds_kind(part.portions, IngredientKind::preserve));
}

FinishWork work_for(const FinishPart& part) {
  const bool sugared = holds_kind(part.portions, IngredientKind::sugar);
  const bool syrupy = sugared || holds_kind(part.portions, IngredientKind::syrup) ||
                      holds_kind(part.portions, IngredientKind::preserve);
  bool wet = false;
  bool coats = false;
  for (const Portions::Item& item : part.portions.items) {
    wet = wet || item.ingredient->composition[Component::water] > 0.12;
    coats = coats || melts_to_a_coat(*item.ingredient);
  }
  switch (part.kind) {
    case PartKind::glaze:
      if (sugared && !part.boiled) {
        return FinishWork::glaze;
      }
      if (coats) {
        return FinishWork::coating;
      }
      return syrupy ? FinishWork::syrup : FinishWork::nothing;
    case PartKind::wash:
      if (syrupy) {
        return FinishWork::syrup;
      }
      return wet ? FinishWork::wash : FinishWork::nothing;
    case PartKind::filling:
      return FinishWork::filling;
    case PartKind::topping:
      // Seeds, oats and flour strewn on are neither wet nor sweet.
      return wet || syrupy ? FinishWork::filling : FinishWork::nothing;
    case PartKind::soaker:
      return holds_kind(part.portions, IngredientKind::dried_fruit) ? FinishWork::soak
                                                                    : FinishWork::nothing;
    case PartKind::extract:
      return boils_to_syrup(part) ? FinishWork::syrup : FinishWork::nothing;
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
  // Set butter or cheese stands whatever the syrup does: a line from 50 Pa, stiff from 200.
  const Lanes stands =
      select(state.set_fat_pa > 200.0, 5.0, select(state.set_fat_pa > 50.0, 4.0, 0.0));
  const Lanes term = max(thickness_term(scene.tables, state.viscosity_pa_s), stands);
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
      {"set_fat_pa", state.set_fat_pa},
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
      {"chance_gritty", chance_gritty(part.portions, state)},
      {"surface_at_most_celsius", limit},
      {"glaze_after_minutes",
       minutes_until(scene.cooling, scene.cooling.surface, cooling_share(scene, limit))},
      {"grams_per_piece", mix.total_g() / max(scene.piece.count, 1.0)},
  };
  add_balances(scene, halves, entry);
  return entry;
}

FinishEntry coating_entry(const FinishScene& scene, const FinishPart& part) {
  // Common practice, no source: on a warmer piece the coat thins and blooms.
  constexpr double k_coat_from_celsius = 30.0;
  const CoatingMix mix = coating_mix(part.portions);
  const CoatingState state = coating_state(mix, scene.unknowns);
  const Lanes term = thickness_term(scene.tables, state.viscosity_pa_s);
  FinishEntry entry{"coating", part.name, {}, term, {}};
  entry.figures = {
      {"grams", mix.total_g},
      {"fat_fraction", mix.fat_g / max(mix.total_g, k_trace_g)},
      {"grains_fraction", state.grains},
      {"viscosity_pa_s", state.viscosity_pa_s},
      {"plastic_pa_s", state.plastic_pa_s},
      {"yield_pa", state.yield_pa},
      {"kg_m3", state.kg_m3},
      {"film_mm", state.film_mm},
      {"chance_seizes", state.seizes},
      {"chance_ganache", state.ganache},
      {"sets_below_celsius", state.sets_below_celsius},
      {"chance_never_sets",
       select(scene.unknowns.room_celsius > state.sets_below_celsius, 1.0, 0.0)},
      {"surface_at_most_celsius", k_coat_from_celsius},
      {"glaze_after_minutes", minutes_until(scene.cooling, scene.cooling.surface,
                                            cooling_share(scene, k_coat_from_celsius))},
      {"grams_per_piece", mix.total_g / max(scene.piece.count, 1.0)},
  };
  for (const ThicknessTerm& one : scene.tables.terms) {
    if (one.id == "drizzle") {
      entry.figures.push_back(
          {"oil_for_drizzle_g", oil_to_reach_g(mix, one.target_pa_s, scene.unknowns)});
    }
  }
  return entry;
}

FinishEntry wash_entry(const FinishScene& scene, const FinishPart& part) {
  // Brushed over all that shows of a piece: a ball but for the foot it stands on.
  constexpr double k_shows = 0.75;
  constexpr double k_pi = 3.14159265358979323846;
  const Lanes each_g = part.portions.total_grams() / max(scene.piece.count, 1.0);
  const Lanes radius = ball_radius_m(scene.piece.grams, scene.unknowns.piece_kg_m3);
  const Lanes shows_m2 = k_shows * 4.0 * k_pi * radius * radius;
  FinishEntry entry{"wash", part.name, {}, {}, {}};
  entry.figures = {
      {"grams", part.portions.total_grams()},
      {"grams_per_piece", each_g},
      {"brushed_mm", each_g / (1.03 * shows_m2)},
      {"brushed_cm2", 1e4 * shows_m2},
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
  constexpr std::array<At, 9> k_times = {{{2.0, "surface_celsius_2", "centre_celsius_2"},
                                          {5.0, "surface_celsius_5", "centre_celsius_5"},
                                          {10.0, "surface_celsius_10", "centre_celsius_10"},
                                          {15.0, "surface_celsius_15", "centre_celsius_15"},
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
