#include "finish/filling.h"

#include <array>
#include <string>
#include <string_view>
#include <utility>

#include "finish/keeping.h"
#include "finish/syrup.h"
#include "properties/sucrose.h"

namespace maslin {
namespace {

constexpr double k_trace_g = 1e-9;
constexpr double k_hot_celsius = 95.0;
/// g of wet gel per g of dry fruit fibre or cooked starch; see the header.
constexpr double k_swelling = 12.0;
constexpr double k_pi = 3.14159265358979323846;

Lanes logistic(const Lanes& x) {
  return 1.0 / (1.0 + exp(-x));
}

/// Share of the filling that sets when hot: egg, meat, fish, cheese.
Lanes setting_share(const Portions& filling) {
  const Lanes setting = 2.0 * filling.grams_of_kind(IngredientKind::egg) +
                        filling.grams_of_kind(IngredientKind::meat) +
                        filling.grams_of_kind(IngredientKind::fish);
  return setting / max(filling.total_grams(), k_trace_g);
}

bool is_fruity(IngredientKind kind) {
  return kind == IngredientKind::fruit || kind == IngredientKind::dried_fruit ||
         kind == IngredientKind::puree || kind == IngredientKind::vegetable ||
         kind == IngredientKind::preserve || kind == IngredientKind::potato ||
         kind == IngredientKind::legume || kind == IngredientKind::juice;
}
bool is_milled(IngredientKind kind) {
  return kind == IngredientKind::nut || kind == IngredientKind::nut_paste ||
         kind == IngredientKind::seed || kind == IngredientKind::spice ||
         kind == IngredientKind::chocolate || kind == IngredientKind::bran_germ;
}

/// What hangs in the hot filling, g: swollen with water, and dry grains.
struct Hanging {
  Lanes swollen_g = 0.0;
  Lanes grains_g = 0.0;
};

Hanging hanging_in(const Portions& filling) {
  Hanging out;
  for (const Portions::Item& item : filling.items) {
    const Composition& of = item.ingredient->composition;
    const IngredientKind kind = item.ingredient->kind;
    if (is_milled(kind)) {
      out.grains_g += item.grams * (of[Component::protein] + of[Component::fibre]);
      out.swollen_g += 2.0 * item.grams * of[Component::starch];
    } else {
      out.swollen_g += k_swelling * item.grams * of[Component::starch];
      if (is_fruity(kind)) {
        out.swollen_g += k_swelling * item.grams * of[Component::fibre];
      }
    }
  }
  return out;
}

Lanes hot_viscosity(const Portions& filling, const SyrupMix& syrup, const Lanes& fat_g,
                    const FinishUnknowns& unknowns) {
  constexpr double k_melted_fat_pa_s = 0.01;  // from memory, butter and oils near 95 C
  constexpr double k_loosest = 0.985;
  const Lanes syrup_g = syrup.solids_g() + syrup.water_g;
  const Mask fatty = fat_g > syrup_g;
  // Hot sugar dissolves to at most what saturates at 95 C; the rest stays grains.
  const Lanes room = sucrose_saturation_per_water(k_hot_celsius) * syrup.water_g;
  const Lanes undissolved_g = max(syrup.sucrose_g - room, 0.0);
  const Lanes liquid_g = max(syrup_g - undissolved_g, k_trace_g);
  const Lanes alike = min(sucrose_equal_in_viscosity((syrup.sucrose_g - undissolved_g) / liquid_g,
                                                     syrup.simple_sugars_g / liquid_g),
                          0.87);
  const Hanging hanging = hanging_in(filling);
  // What swells takes its water out of the syrup, so that the whole stays as heavy.
  const Lanes dry_g = hanging.swollen_g / k_swelling + hanging.grains_g + undissolved_g;
  const Lanes whole_g = liquid_g + fat_g + dry_g;
  const Lanes apart_g = min(hanging.swollen_g, liquid_g + hanging.swollen_g / k_swelling) +
                        hanging.grains_g + undissolved_g + select(fatty, liquid_g, fat_g);
  const Lanes base = select(fatty, k_melted_fat_pa_s, sucrose_solution_pa_s(alike, k_hot_celsius));
  const Lanes fullness = min(apart_g / whole_g / unknowns.packing_limit, k_loosest);
  const Lanes exponent = unknowns.intrinsic_viscosity * unknowns.packing_limit;
  const Lanes thick = base * pow(1.0 - fullness, -exponent);
  return select(fullness >= k_loosest, 1e5, min(thick, 1e5));
}

Lanes filling_kg_m3(const Lanes& total_g, const Lanes& water_g, const Lanes& fat_g) {
  const Lanes solids_g = max(total_g - water_g - fat_g, 0.0);
  return total_g / (water_g / 1000.0 + fat_g / 920.0 + solids_g / 1550.0);
}

}  // namespace

std::optional<FillingPlace> filling_place(const FinishTables& tables, const Recipe& recipe) {
  constexpr std::array<std::pair<std::string_view, FillingPlace>, 4> k_places = {
      {{"rolled", FillingPlace::rolled},
       {"folded", FillingPlace::folded},
       {"enclosed", FillingPlace::enclosed},
       {"open", FillingPlace::open}}};
  std::string steps;
  for (const Part& part : recipe.parts) {
    for (const Step& step : part.steps) {
      for (const char c : step.text) {
        steps += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
      }
      steps += '\n';
    }
  }
  for (const FillingPhrases& row : tables.filling_places) {
    for (const std::string& phrase : row.phrases) {
      if (steps.find(phrase) == std::string::npos) {
        continue;
      }
      for (const auto& [name, place] : k_places) {
        if (name == row.place) {
          return place;
        }
      }
    }
  }
  return std::nullopt;
}

FillingState filling_state(const FinishTables& tables, const Portions& filling,
                           const FillingSetting& setting, const FinishUnknowns& unknowns) {
  SyrupMix syrup = syrup_mix(filling);
  syrup.water_g = max(syrup.water_g - setting.boiled_off_g, 0.0);
  const Lanes total = max(filling.total_grams() - setting.boiled_off_g, k_trace_g);
  const Lanes fat_g = filling.grams_of(Component::fat);
  FillingState state;
  state.solids_fraction = syrup.fraction();
  state.water_fraction = syrup.water_g / total;
  state.fat_fraction = fat_g / total;
  state.sugar_fraction = (syrup.solids_g() - filling.grams_of(Component::acid)) / total;
  state.water_activity = clamp(
      part_water_activity(filling, syrup.water_g) + unknowns.solution_activity_error, 0.0, 1.0);
  state.kg_m3 = filling_kg_m3(total, syrup.water_g, fat_g);
  state.hot_pa_s = hot_viscosity(filling, syrup, fat_g, unknowns);
  state.rise_k = boiling_rise_k(tables, syrup);
  state.boils_celsius = setting.water_boils_celsius + state.rise_k;
  state.sets = clamp((setting_share(filling) - 0.05) / 0.15, 0.0, 1.0);
  return state;
}

FillingRisks filling_risks(const FillingState& state, const FillingLayout& layout,
                           FillingPlace place, const Lanes& crumb_activity,
                           const FinishUnknowns& unknowns) {
  // Crumb tops out just under water's boiling point; an open face dries and passes it, up
  // to where 55 % solids boil (2.4 K). Derived; no source.
  double passes_k = -1.0;
  if (place == FillingPlace::open) {
    passes_k = 2.4;
  } else if (place == FillingPlace::rolled || place == FillingPlace::folded) {
    passes_k = 0.5;
  }
  constexpr double k_wall_mm = 4.0;
  const Lanes held =
      place == FillingPlace::enclosed ? select(layout.wall_mm > k_wall_mm, 1.0, 0.0) : Lanes(0.0);
  const Mask loose = (state.sets < 0.5) & (state.hot_pa_s < unknowns.runs_below_pa_s);
  FillingRisks risks;
  risks.runs_out = select(loose, 1.0 - held, 0.0);
  risks.boils_out =
      select((state.rise_k < passes_k + unknowns.boils_margin_k) & (state.sets < 0.5) &
                 (state.water_fraction > 0.3) & (state.hot_pa_s < 100.0),
             1.0 - held, 0.0);
  risks.steam_gap = place == FillingPlace::open
                        ? Lanes(0.0)
                        : select(state.water_fraction > unknowns.steam_gap_from, 1.0, 0.0);
  risks.dries_dough = select(state.water_activity < crumb_activity, 1.0, 0.0);
  return risks;
}

FillingLayout filling_layout(const Lanes& dough_g, const Lanes& filling_g,
                             const FillingState& state, FillingPlace place,
                             const FinishUnknowns& unknowns) {
  const Lanes dough_m3 = 1e-3 * dough_g / unknowns.dough_kg_m3;
  const Lanes filling_m3 = 1e-3 * filling_g / state.kg_m3;
  FillingLayout layout;
  if (place == FillingPlace::enclosed) {
    const auto radius = [](const Lanes& m3) {
      return pow(max(3.0 * m3 / (4.0 * k_pi), 1e-15), 1.0 / 3.0);
    };
    const Lanes inner = radius(filling_m3);
    const Lanes outer = radius(filling_m3 + dough_m3);
    layout.sheet_cm2 = 1e4 * 4.0 * k_pi * inner * inner;
    layout.thickness_mm = 1e3 * inner;
    layout.wall_mm = 1e3 * (outer - inner);
  } else {
    layout.wall_mm = unknowns.roll_sheet_mm;
    layout.sheet_cm2 = 1e4 * dough_m3 / (1e-3 * unknowns.roll_sheet_mm);
    layout.thickness_mm = 1e3 * filling_m3 / max(1e-4 * layout.sheet_cm2, 1e-12);
  }
  layout.kg_m2 = 1e-3 * filling_g / max(1e-4 * layout.sheet_cm2, 1e-12);
  return layout;
}

RollRisks roll_risks(const RollState& state) {
  // Common practice, no source: a soft roll at 5-6 mm with 1.5 kg/m2 of a dryish filling
  // seldom parts; each step away from that about doubles the odds.
  const Lanes slack = (state.effective_hydration - 65.0) / 5.0;
  const Lanes thin = (5.0 - state.sheet_mm) / 1.5;
  const Lanes wet = (state.filling_water_fraction - 0.25) / 0.10;
  const Lanes heavy = (state.filling_kg_m2 - 1.5) / 0.75;
  const Lanes over = (state.proof_ratio - 2.0) / 0.25;
  constexpr double k_doubling = 0.7;
  return {
      logistic(-2.5 + k_doubling * (wet + 0.7 * heavy + over - 0.3 * slack)),
      logistic(-2.5 + k_doubling * (slack + 0.7 * thin + 0.7 * wet + 0.5 * heavy + 0.5 * over))};
}

}  // namespace maslin
