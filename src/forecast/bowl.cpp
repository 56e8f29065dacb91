#include "forecast/bowl.h"

#include <algorithm>
#include <cmath>

#include "dough/flour.h"
#include "forecast/yeast_bath.h"
#include "numerics/draws.h"

namespace maslin {
namespace {

/// Cup after cup by one person: 2.5 % or so (measured by a test kitchen, under 3 %).
constexpr double k_own_fill_sd = 0.025;

bool is_volume(const std::string& unit) {
  for (const char* one : {"cup", "tbsp", "tsp", "dessertspoon", "teacup", "glass", "mug", "pint",
                          "quart", "gallon", "peck", "gill", "floz", "ml", "cl", "dl", "l"}) {
    if (unit == one) {
      return true;
    }
  }
  return false;
}

bool says(const Line& line, std::string_view word) {
  return line.note.find(word) != std::string::npos || line.text.find(word) != std::string::npos;
}

class Resolver {
 public:
  Resolver(const Recipe& recipe, const Kitchen& kitchen, const Pantry& pantry)
      : recipe_(recipe), kitchen_(kitchen), pantry_(pantry) {}

  Bowls resolve() {
    out_.unknowns.push_back({"none", "", "", "", point(0.0), false, ""});
    for (const Part& part : recipe_.parts) {
      out_.bowls.push_back(bowl_of(part));
    }
    out_.order = parts_in_order(recipe_).value_or(std::vector<std::size_t>());
    const Part* dough = recipe_.dough();
    out_.dough = dough == nullptr ? 0 : static_cast<std::size_t>(dough - recipe_.parts.data());
    take_loose_parts_into_dough();
    out_.own_ingredients = own_;
    return std::move(out_);
  }

 private:
  Bowls::Bowl bowl_of(const Part& part) {
    Bowls::Bowl bowl;
    bowl.kind = part.kind;
    bowl.name = part.name;
    bowl.yield = part.yield;
    if (part.yield.shape != Shape::point) {
      bowl.yield_unknown = unknown({"yield/" + part.name, "how much " + part.name + " comes out",
                                    "weigh the " + part.name, "ratio", part.yield, false,
                                    "as the recipe's part says"});
    }
    for (std::size_t i = 0; i < part.lines.size(); ++i) {
      add_line(part, i, bowl);
    }
    if (part.kind == PartKind::extract) {
      plan_extract(part, bowl);
    }
    if (part.kind == PartKind::soaker) {
      drink_up(bowl);
      cook_paste(part, bowl);
    }
    return bowl;
  }

  /// Soaked dried fruit carries what it drank into the dough, where it stays in the pieces as
  /// their own juice does: rum in raisins does not stop the yeast.
  void drink_up(Bowls::Bowl& bowl) {
    // Raisins over eight hours by the constants of data/soaking.tsv.
    constexpr double k_drunk_per_gram = 0.55;
    double fruit_g = 0.0;
    double stays_g = 0.0;
    double liquid_g = 0.0;
    for (const LineAmount& line : bowl.lines) {
      if (line.ingredient != nullptr && line.ingredient->kind == IngredientKind::dried_fruit) {
        fruit_g += line.grams.p50();
        stays_g += line.grams.p50() * (1.0 - line.ingredient->mixes_in);
      }
      liquid_g += line.poured && line.ingredient != nullptr ? line.grams.p50() : 0.0;
    }
    if (!(fruit_g > 0.0) || !(liquid_g > 0.0)) {
      return;
    }
    const double drunk = std::min(1.0, k_drunk_per_gram * fruit_g / liquid_g);
    for (LineAmount& line : bowl.lines) {
      if (line.poured && line.ingredient != nullptr) {
        own_->push_back(*line.ingredient);
        own_->back().mixes_in *= 1.0 - drunk * stays_g / fruit_g;
        line.ingredient = &own_->back();
      }
    }
  }

  /// Flour cooked in its liquid, or scalded, is a paste that holds most of it.
  void cook_paste(const Part& part, Bowls::Bowl& bowl) {
    const Ingredient* called = pantry_.named(part.name);
    const bool by_name = called != nullptr && called->kind == IngredientKind::cooked;
    const auto any_line = [&](auto is) {
      return std::any_of(bowl.lines.begin(), bowl.lines.end(), [&](const LineAmount& line) {
        return line.ingredient != nullptr && is(line);
      });
    };
    const bool floury = any_line(
        [](const LineAmount& line) { return line.ingredient->kind == IngredientKind::flour; });
    const bool wet = any_line([](const LineAmount& line) { return line.poured; });
    if (!floury || !wet || (!by_name && heating_of(part) != Heating::heated)) {
      return;
    }
    for (LineAmount& line : bowl.lines) {
      if (line.ingredient != nullptr &&
          (line.poured || line.ingredient->kind == IngredientKind::flour)) {
        own_->push_back(*line.ingredient);
        own_->back().kind = IngredientKind::cooked;
        line.ingredient = &own_->back();
        line.poured = false;
      }
    }
  }

  /// An extract of foods alone goes through the model of straining; one that uses other
  /// parts is only mixed.
  void plan_extract(const Part& part, Bowls::Bowl& bowl) {
    ExtractPlan plan;
    plan.water = pantry_.find("water");
    for (const LineAmount& line : bowl.lines) {
      if (line.ingredient == nullptr || plan.water == nullptr) {
        return;
      }
      plan.foods.push_back(part_food(*line.ingredient, tables_, heating_of(part)));
    }
    if (plan.foods.empty()) {
      return;
    }
    plan.setting = extract_setting_of(part, tables_);
    const std::string words = "how much of the " + part.name + " stays in the pulp";
    const std::string source = "data/pressing.tsv";
    plan.holdup_unknown = unknown(
        {"extract/" + part.name + "/holdup", words, "weigh the " + part.name, "ratio",
         lognormal(1.0, std::max(plan.setting.pressing.holdup_spread, 0.01)), false, source});
    plan.insoluble_unknown =
        unknown({"extract/" + part.name + "/insoluble", "how fibrous the fruit is", "", "ratio",
                 lognormal(1.0, 0.2), false, "common practice, no source"});
    plan.wash_unknown =
        unknown({"extract/" + part.name + "/wash", "how well the pulp is washed", "", "ratio",
                 uniform(0.85, 1.0), false, "common practice, no source"});
    bowl.extract = std::move(plan);
  }

  /// The flour in this kitchen's bag, where its protein is known.
  const Ingredient* own_flour(const Ingredient* flour) {
    const bool wheat = flour->kind == IngredientKind::flour && flour->flour.gluten != Gluten::none;
    if (!kitchen_.flour_protein_pct || !wheat) {
      return flour;
    }
    for (const Ingredient& one : *own_) {
      if (one.id == flour->id) {
        return &one;
      }
    }
    own_->push_back(flour_with_protein(*flour, *kitchen_.flour_protein_pct));
    return &own_->back();
  }

  void add_line(const Part& part, std::size_t index, Bowls::Bowl& bowl) {
    const Line& line = part.lines[index];
    LineAmount amount;
    amount.line = index;
    amount.warm = says(line, "warm");
    amount.cold = says(line, "cold") || says(line, "chilled");
    amount.grams = line.grams;
    if (!line.part.empty()) {
      const Part* used = recipe_.part_named(line.part);
      if (used == nullptr) {
        out_.doubts.push_back({line.text, "there is no part named \"" + line.part + "\""});
        return;
      }
      amount.part = static_cast<std::size_t>(used - recipe_.parts.data());
      amount.whole_part = !line.weighed;
      amount.poured = used->kind == PartKind::extract;
    } else {
      amount.ingredient = pantry_.find(line.ingredient_id);
      if (amount.ingredient == nullptr) {
        return;  // the reader has its doubt already
      }
      amount.ingredient = own_flour(amount.ingredient);
      amount.poured = is_poured(*amount.ingredient);
      if (!line.weighed) {
        amount.solved = amount.ingredient->kind == IngredientKind::flour;
        if (!amount.solved) {
          return;
        }
      }
    }
    // Hotter than that it is not kneaded in: it will have cooled, or the steps say what becomes of
    // it.
    constexpr double k_hottest_poured_celsius = 55.0;
    const auto stated = amount.poured ? stated_celsius(line.text) : std::nullopt;
    amount.celsius = stated && *stated <= k_hottest_poured_celsius ? stated : std::nullopt;
    split_spread(part, line, amount);
    bowl.lines.push_back(amount);
  }

  void split_spread(const Part& part, const Line& line, LineAmount& amount) {
    if (!line.weighed || line.grams.shape == Shape::point) {
      return;
    }
    const std::string name = line.name.empty() ? line.ingredient_id : line.name;
    amount.own_unknown =
        unknown({"line/" + part.name + "/" + std::to_string(amount.line) + "/" + line.ingredient_id,
                 "how much " + name + " there is", "weigh the " + name, "g", line.grams, false,
                 "published weights of the measure and their spread"});
    if (amount.ingredient != nullptr && line.grams.shape == Shape::lognormal &&
        is_volume(line.found.unit) && line.grams.b > k_own_fill_sd) {
      amount.own_sd = k_own_fill_sd;
      amount.fill_sd = std::sqrt(line.grams.b * line.grams.b - k_own_fill_sd * k_own_fill_sd);
      amount.fill_unknown = fill_unknown(*amount.ingredient);
    }
  }

  /// How this person fills a measure with this kind of thing, in standard deviations.
  std::size_t fill_unknown(const Ingredient& ingredient) {
    const std::string kind(kind_name(ingredient.kind));
    const std::string name = "fill/" + kind;
    for (std::size_t i = 0; i < out_.unknowns.size(); ++i) {
      if (out_.unknowns[i].name == name) {
        return i;
      }
    }
    const std::string what = kind == "flour" ? "flour" : ingredient.name;
    return unknown({name, "how full your cups of " + what + " are", "weigh one cup of the " + what,
                    "sd", normal(0.0, 1.0), true,
                    "spread between people filling one measure: data/densities.tsv", "baker", 0.2});
  }

  std::size_t unknown(Unknown one) {
    out_.unknowns.push_back(std::move(one));
    return out_.unknowns.size() - 1;
  }

  void take_loose_parts_into_dough() {
    std::vector<bool> used(out_.bowls.size(), false);
    for (const Bowls::Bowl& bowl : out_.bowls) {
      for (const LineAmount& line : bowl.lines) {
        if (line.ingredient == nullptr) {
          used[line.part] = true;
        }
      }
    }
    for (std::size_t i = 0; i < out_.bowls.size(); ++i) {
      const PartKind kind = out_.bowls[i].kind;
      const bool feeds =
          kind == PartKind::preferment || kind == PartKind::soaker || kind == PartKind::extract;
      if (!feeds || used[i] || i == out_.dough || out_.bowls[i].lines.empty()) {
        continue;
      }
      LineAmount all;
      all.part = i;
      all.whole_part = true;
      all.poured = kind == PartKind::extract;
      all.line = recipe_.parts[out_.dough].lines.size();
      out_.bowls[out_.dough].lines.push_back(all);
      out_.doubts.push_back(
          {out_.bowls[i].name, "no line says where it goes; taken whole into the dough"});
      // The dough now comes after it.
      const auto dough_at = std::find(out_.order.begin(), out_.order.end(), out_.dough);
      const auto part_at = std::find(out_.order.begin(), out_.order.end(), i);
      if (part_at > dough_at) {
        out_.order.erase(part_at);
        out_.order.insert(std::find(out_.order.begin(), out_.order.end(), out_.dough), i);
      }
    }
  }

  const Recipe& recipe_;
  const Kitchen& kitchen_;
  const Pantry& pantry_;
  const ExtractTables tables_ = extract_tables();
  std::shared_ptr<std::deque<Ingredient>> own_ = std::make_shared<std::deque<Ingredient>>();
  Bowls out_;
};

/// What passes of an extract's foods, in place of the foods themselves.
Portions strained(const ExtractPlan& plan, const std::vector<Lanes>& grams,
                  const BatchDraws& draws) {
  ExtractUnknowns unknowns;
  unknowns.holdup_scale = draws[plan.holdup_unknown];
  unknowns.insoluble_scale = draws[plan.insoluble_unknown];
  unknowns.wash_efficiency = draws[plan.wash_unknown];
  const Extract extract = make_extract(plan.foods, grams, plan.setting, unknowns);
  return extract_portions(plan.foods, extract, *plan.water, extract.yield_g);
}

Lanes grams_in(const LineAmount& line, const BatchDraws& draws) {
  if (line.fill_unknown != 0) {
    // Both halves come from standard normal values; the own one is the drawn grams
    // brought back to its z by the line's full spread.
    const Lanes own_z = log(draws[line.own_unknown] / line.grams.a) / line.grams.b;
    return line.grams.a * exp(line.own_sd * own_z + line.fill_sd * draws[line.fill_unknown]);
  }
  return line.own_unknown != 0 ? max(draws[line.own_unknown], 0.0) : Lanes(line.grams.p50());
}

}  // namespace

bool is_poured(const Ingredient& ingredient) {
  // Milk and buttermilk are poured; cream and yoghurt go in by the spoon.
  constexpr double k_thin_dairy_water = 0.8;
  switch (ingredient.kind) {
    case IngredientKind::water:
    case IngredientKind::juice:
    case IngredientKind::plant_milk:
    case IngredientKind::drink:
    case IngredientKind::alcohol:
      return true;
    case IngredientKind::dairy:
      return ingredient.composition[Component::water] > k_thin_dairy_water;
    default:
      return false;
  }
}

Bowls bowls_of(const Recipe& recipe, const Kitchen& kitchen, const Pantry& pantry) {
  return Resolver(recipe, kitchen, pantry).resolve();
}

BatchDraws draw_batch(const std::vector<Unknown>& unknowns, std::uint64_t seed,
                      const DrawIndices& which) {
  BatchDraws out;
  out.reserve(unknowns.size());
  for (const Unknown& one : unknowns) {
    out.push_back(one.prior.shape == Shape::point
                      ? Lanes(one.prior.a)
                      : one.prior.quantile(draw_lanes(name_key(one.name), seed, which)));
  }
  return out;
}

std::vector<FilledBowl> fill_bowls(const Bowls& bowls, const BatchDraws& draws) {
  std::vector<FilledBowl> out(bowls.bowls.size());
  for (const std::size_t index : bowls.order) {
    const Bowls::Bowl& bowl = bowls.bowls[index];
    FilledBowl& filled = out[index];
    for (const LineAmount& line : bowl.lines) {
      if (line.ingredient != nullptr) {
        const Lanes grams = grams_in(line, draws);
        filled.portions.items.push_back({line.ingredient, grams});
        filled.line_grams.push_back(grams);
        continue;
      }
      const Bowls::Bowl& source = bowls.bowls[line.part];
      const Lanes yield =
          source.yield_unknown != 0 ? draws[source.yield_unknown] : Lanes(source.yield.p50());
      const Lanes made = out[line.part].portions.total_grams() * yield;
      const Lanes taken = line.whole_part ? made : grams_in(line, draws);
      // What was strained or boiled off is taken to be like the rest.
      const Lanes share = taken / max(out[line.part].portions.total_grams(), 1e-9);
      for (const Portions::Item& item : out[line.part].portions.items) {
        filled.portions.items.push_back({item.ingredient, item.grams * share});
      }
      filled.line_grams.push_back(taken);
    }
    if (bowl.extract) {
      filled.portions = strained(*bowl.extract, filled.line_grams, draws);
    }
  }
  return out;
}

}  // namespace maslin
