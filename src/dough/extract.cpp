#include "dough/extract.h"

#include <algorithm>
#include <array>

#include "dough/embedded_table.h"
#include "quantity/table.h"

namespace maslin {
namespace {

/// The share of each component that stays with the pulp; the rest is dissolved.
double insoluble_part(Component component) {
  switch (component) {
    case Component::starch:
    case Component::fat:
    case Component::saturated:
      return 1.0;
    case Component::fibre:
      return 0.7;
    case Component::protein:
      return 0.5;
    default:
      return 0.0;
  }
}

Ingredient scaled_part(const Ingredient& food, const Composition& kept, std::string_view suffix) {
  Ingredient out = food;
  out.id += suffix;
  out.composition = kept;
  const double total = kept.closure();
  for (double& fraction : out.composition.fraction) {
    fraction /= std::max(total, 1e-9);
  }
  out.flour = {};
  return out;
}

/// What is in the extract, from what passed.
void set_composition(Extract& out, const std::deque<PartedFood>& foods,
                     std::span<const Lanes> grams, const std::vector<Lanes>& liquor_in,
                     const Lanes& passed_share) {
  Lanes soluble_in = 1e-12;
  Lanes soluble_out = 0.0;
  Lanes acid_out = 0.0;
  Lanes pectin_out = 0.0;
  Lanes bitter = 0.0;
  for (std::size_t i = 0; i < foods.size(); ++i) {
    const Composition& c = foods[i].liquor.composition;
    const ExtractFigures& figures = foods[i].figures;
    const double soluble = 1.0 - c[Component::water] - c[Component::alcohol];
    soluble_in += liquor_in[i] * soluble;
    soluble_out += out.liquor_g[i] * soluble;
    acid_out += out.liquor_g[i] * c[Component::acid];
    pectin_out += grams[i] * passed_share * figures.pectin;
    if (figures.bitter_threshold_mg_per_l > 0.0) {
      bitter +=
          grams[i] * passed_share * (figures.bitter_mg_per_kg / figures.bitter_threshold_mg_per_l);
    }
  }
  const Lanes yield = max(out.yield_g, 1e-9);
  out.recovery = soluble_out / soluble_in;
  out.soluble_solids_pct = 100.0 * soluble_out / yield;
  out.acid_pct = 100.0 * acid_out / yield;
  out.pectin_pct = 100.0 * pectin_out / yield;
  out.bitterness = bitter / yield;
}

}  // namespace

const Pressing& ExtractTables::pressing(std::string_view name) const {
  for (const Pressing& one : pressings) {
    if (one.name == name) {
      return one;
    }
  }
  return pressings.front();
}

ExtractTables extract_tables() {
  ExtractTables out;
  const Table ways(dough_data::embedded_table("pressing.tsv"));
  for (std::size_t row = 0; row < ways.size(); ++row) {
    Pressing one{std::string(ways.cell(row, "name")),
                 ways.number(row, "holdup"),
                 ways.number(row, "spread"),
                 ways.number(row, "through"),
                 {}};
    for (const std::string_view word : split(ways.cell(row, "words"), '|')) {
      one.words.emplace_back(word);
    }
    out.pressings.push_back(std::move(one));
  }
  const Table foods(dough_data::embedded_table("extracts.tsv"));
  for (std::size_t row = 0; row < foods.size(); ++row) {
    ExtractFigures figures;
    if (!foods.cell(row, "insoluble").empty()) {
      figures.insoluble = foods.number(row, "insoluble");
    }
    figures.pectin = foods.number(row, "pectin");
    figures.bitter_mg_per_kg = foods.number(row, "bitter");
    figures.bitter_threshold_mg_per_l = foods.number(row, "threshold");
    out.foods.emplace(foods.cell(row, "id"), figures);
  }
  return out;
}

PartedFood part_food(const Ingredient& food, const ExtractTables& tables, Heating heating) {
  PartedFood out;
  if (const auto at = tables.foods.find(food.id); at != tables.foods.end()) {
    out.figures = at->second;
  }
  Composition solids;
  Composition liquor;
  for (std::size_t i = 0; i < k_component_count; ++i) {
    const auto component = static_cast<Component>(i);
    const double stays = insoluble_part(component) * food.composition[component];
    solids[component] = stays;
    liquor[component] = food.composition[component] - stays;
  }
  double share = solids.closure();
  if (out.figures.insoluble) {
    // A measured figure rules; the difference moves between soluble fibre and solids.
    const double moved = *out.figures.insoluble - share;
    solids[Component::fibre] = std::max(0.0, solids[Component::fibre] + moved);
    liquor[Component::fibre] = std::max(0.0, liquor[Component::fibre] - moved);
    share = solids.closure();
  }
  out.liquor = scaled_part(food, liquor, ":liquor");
  out.liquor.kind = food.kind == IngredientKind::water ? food.kind : IngredientKind::juice;
  out.solids = scaled_part(food, solids, ":pulp");
  out.solids.ph = 0.0;
  out.liquor_share = 1.0 - share;
  if (heating == Heating::heated) {
    out.liquor.protease = false;
    out.solids.protease = false;
  }
  return out;
}

Extract make_extract(const std::deque<PartedFood>& foods, std::span<const Lanes> grams,
                     const ExtractSetting& setting, const ExtractUnknowns& unknowns) {
  Lanes insoluble_g = 0.0;
  Lanes liquor_g = 0.0;
  Lanes all_g = 0.0;
  std::vector<Lanes> solids_in(foods.size());
  std::vector<Lanes> liquor_in(foods.size());
  for (std::size_t i = 0; i < foods.size(); ++i) {
    const Lanes solids_share =
        min((1.0 - foods[i].liquor_share) * unknowns.insoluble_scale, Lanes(0.9));
    solids_in[i] = grams[i] * solids_share;
    liquor_in[i] = grams[i] - solids_in[i];
    insoluble_g += solids_in[i];
    liquor_g += liquor_in[i];
    all_g += grams[i];
  }
  const Lanes roasted_away = (1.0 - setting.roasted_share) * all_g;
  const Lanes liquid_g = max(liquor_g - roasted_away, 1e-9);
  double washed_g = 0.0;
  for (const double wash : setting.washes_g) {
    washed_g += wash;
  }
  const Lanes solids_through = insoluble_g * setting.pressing.through_share;
  Lanes kept_g =
      min(setting.pressing.holdup_g_per_g * unknowns.holdup_scale * (insoluble_g - solids_through),
          0.95 * liquid_g);
  if (setting.measured_yield_g) {
    kept_g = clamp(liquid_g + washed_g + solids_through - *setting.measured_yield_g, 0.0,
                   liquid_g + washed_g);
  }
  // What of the liquor in the pulp is still the first: each wash thins it.
  Lanes first_share = 1.0;
  for (const double wash : setting.washes_g) {
    first_share *= 1.0 - unknowns.wash_efficiency * wash / max(kept_g + wash, 1e-9);
  }
  Extract out;
  const Lanes passed_share = 1.0 - min(kept_g, liquid_g) * first_share / liquid_g;
  out.water_g =
      washed_g - (kept_g - min(kept_g, liquid_g) * first_share) - roasted_away * passed_share;
  Lanes before_boiling = out.water_g;
  for (std::size_t i = 0; i < foods.size(); ++i) {
    out.liquor_g.push_back(liquor_in[i] * passed_share);
    out.solids_g.push_back(solids_in[i] * setting.pressing.through_share);
    before_boiling += out.liquor_g[i] + out.solids_g[i];
  }
  out.yield_g = before_boiling * setting.reduced_share;
  out.water_g -= before_boiling * (1.0 - setting.reduced_share);
  out.pulp_g = insoluble_g - solids_through + kept_g;
  out.holdup_g_per_g = kept_g / max(insoluble_g - solids_through, 1e-9);
  set_composition(out, foods, grams, liquor_in, passed_share);
  return out;
}

Portions extract_portions(const std::deque<PartedFood>& foods, const Extract& extract,
                          const Ingredient& water, const Lanes& used_g) {
  const Lanes share = used_g / max(extract.yield_g, 1e-9);
  Portions out;
  for (std::size_t i = 0; i < foods.size(); ++i) {
    out.items.push_back({&foods[i].liquor, extract.liquor_g[i] * share});
    out.items.push_back({&foods[i].solids, extract.solids_g[i] * share});
  }
  out.items.push_back({&water, extract.water_g * share});
  return out;
}

}  // namespace maslin
