#include "adjust/adjust.h"

#include <algorithm>
#include <cmath>
#include <memory>

#include "adjust/amounts.h"
#include "adjust/balance.h"
#include "adjust/explain.h"
#include "adjust/flour_moves.h"
#include "adjust/prove_time.h"
#include "adjust/resolve.h"
#include "adjust/setting.h"
#include "adjust/substitution.h"
#include "adjust/want_words.h"
#include "dough/tin_fill.h"
#include "quantity/number_text.h"

namespace maslin {
namespace {

/// The factor by which the whole recipe is first taken, from the wants on its mass.
double scale_of(const Setting& setting, const std::vector<Want>& wants, double fill_middle_g) {
  double total = 0.0;
  for (const BalanceLine& line : setting.balance.lines) {
    total += line.grams_before;
  }
  if (const Want* scale = first_of(wants, WantKind::scale)) {
    return scale->low;
  }
  if (const Want* mass = first_of(wants, WantKind::total_grams); mass != nullptr && total > 0.0) {
    const double low = mass->low;
    const double high = std::min(mass->high, 1e8);
    return std::clamp(total, low, std::max(low, high)) / total;
  }
  if (has(wants, WantKind::fill) && total > 0.0 && fill_middle_g > 0.0) {
    return fill_middle_g / total;
  }
  return 1.0;
}

/// The wants the programme knows as rows.
std::vector<Want> rows_of(const std::vector<Want>& wants) {
  std::vector<Want> out;
  for (const Want& want : wants) {
    if (want.kind != WantKind::no_egg && want.kind != WantKind::no_dairy &&
        want.kind != WantKind::swap && want.kind != WantKind::scale &&
        want.kind != WantKind::prove_minutes && want.kind != WantKind::paste) {
      out.push_back(want);
    }
  }
  return out;
}

/// Every part but the dough, taken along when the whole is scaled.
void scale_other_parts(Recipe& recipe, std::size_t dough, double factor,
                       std::vector<LineChange>& changes) {
  for (std::size_t p = 0; p < recipe.parts.size(); ++p) {
    for (Line& line : recipe.parts[p].lines) {
      if (p != dough && line.weighed && factor != 1.0) {
        const double from = line.grams.p50();
        scale_line(line, factor);
        changes.push_back({line.text, recipe.parts[p].name, from, line.grams.p50(),
                           "is scaled with the dough by " + number_text(factor, 3), "", p,
                           static_cast<std::size_t>(&line - recipe.parts[p].lines.data())});
      }
    }
  }
}

/// Why line `i` stands where it does after a recipe was scaled and balanced.
std::string reason_of(const Balance& balance, const std::vector<Want>& wants,
                      const std::vector<double>& before, const std::vector<double>& after,
                      double scale, std::size_t i) {
  if (std::fabs(after[i] - scale * before[i]) < 1e-6) {
    return "is the recipe scaled by " + number_text(scale, 3);
  }
  const double unit_g = balance.lines[i].unit_grams;
  if (scale != 1.0 && unit_g > 0.0) {
    return "stays whole: " + number_text(after[i] / unit_g, 1) + ", where the scaled recipe has " +
           number_text(scale * before[i] / unit_g, 2);
  }
  return why_of(balance, wants, before, after, i);
}

void write_back(Adjustment& out, const Setting& setting, const std::vector<Want>& wants,
                const std::vector<double>& after, double scale) {
  const Balance& balance = setting.balance;
  std::vector<double> before;
  std::vector<double> scaled;
  for (const BalanceLine& line : balance.lines) {
    before.push_back(line.grams_before);
    scaled.push_back(line.grams);
  }
  Part& part = out.recipe.parts[setting.part];
  for (std::size_t i = 0; i < after.size(); ++i) {
    if (std::fabs(after[i] - before[i]) < 1e-6) {
      continue;
    }
    // Of a recipe that is scaled, one line alone says nothing.
    const std::string alone = scale == 1.0 ? alone_of(balance, wants, before, after, i) : "";
    const bool only_scaled = std::fabs(after[i] - scale * before[i]) < 1e-6;
    const std::string why = reason_of(balance, wants, before, after, scale, i);
    if (!setting.recipe_line[i]) {
      if (balance.lines[i].grams_before > 0.0) {
        continue;  // a part poured in whole: its own lines were scaled
      }
      Line added;
      const Ingredient& ingredient = *balance.lines[i].per_gram.items[0].ingredient;
      added.name = ingredient.name;
      added.ingredient_id = ingredient.id;
      added.text = number_text(after[i], 0) + " g " + ingredient.name;
      set_grams(added, 0.0, after[i], 0.0);
      part.lines.push_back(added);
      out.changes.push_back(
          {added.text, part.name, 0.0, after[i], why, alone, setting.part, part.lines.size() - 1});
      continue;
    }
    Line& line = part.lines[*setting.recipe_line[i]];
    out.changes.push_back({line.text, part.name, before[i], after[i], why, alone, setting.part,
                           *setting.recipe_line[i]});
    if (only_scaled) {
      scale_line(line, scale);
    } else {
      set_grams(line, before[i], after[i], balance.lines[i].unit_grams);
    }
  }
  scale_other_parts(out.recipe, setting.part, scale, out.changes);
}

/// Whether an earlier want has taken out already what this one would ("no milk, no butter").
bool already_gone(const Want& want, const Recipe& before, const Recipe& now, const Pantry& pantry) {
  return want.to.empty() && !swap_ingredient(now, pantry, want.from, "", {}).problem.empty() &&
         swap_ingredient(before, pantry, want.from, "", {}).problem.empty();
}

/// Swaps and what must not be in it, before any balancing.
std::string make_swaps(Adjustment& out, const Pantry& pantry, const AdjustRequest& request) {
  const Recipe recipe = out.recipe;
  const auto take = [&](Swapped swapped) {
    if (swapped.problem.empty()) {
      out.recipe = std::move(swapped.recipe);
    }
    out.swaps.insert(out.swaps.end(), swapped.lines.begin(), swapped.lines.end());
    out.notes.insert(out.notes.end(), swapped.notes.begin(), swapped.notes.end());
    return swapped.problem;
  };
  // The part of a paste comes first, so that what later swaps point at stays where it is.
  for (const Want& want : request.wants) {
    const auto paste = want.kind == WantKind::paste
                           ? paste_called(want.to.empty() ? "tangzhong" : want.to)
                           : std::nullopt;
    if (!paste) {
      continue;
    }
    if (const std::string problem = take(cook_paste(out.recipe, pantry, *paste, want.low));
        !problem.empty()) {
      return problem;
    }
  }
  for (const Want& want : request.wants) {
    std::string problem;
    if (want.kind == WantKind::swap && already_gone(want, recipe, out.recipe, pantry)) {
      continue;
    }
    if (want.kind == WantKind::swap) {
      problem = take(swap_ingredient(out.recipe, pantry, want.from, want.to,
                                     request.kitchen.at_hand, want.share));
      problem = problem == not_a_want(want.to) ? not_a_want(want.text) : problem;
    } else if (want.kind == WantKind::no_egg) {
      problem = take(avoid_allergen(out.recipe, pantry, "egg", request.kitchen.at_hand));
    } else if (want.kind == WantKind::no_dairy) {
      problem = take(avoid_allergen(out.recipe, pantry, "milk", request.kitchen.at_hand));
    }
    if (!problem.empty()) {
      return problem;
    }
  }
  return "";
}

Adjustment refused(const Recipe& recipe, const std::string& problem) {
  Adjustment out;
  out.recipe = recipe;
  out.problem = problem;
  return out;
}

/// What a wanted cost counts, and what it has to leave out.
std::string cost_note(const Setting& setting, const PriceList& prices) {
  std::string out = "the cost is of what goes in" +
                    std::string(prices.currency.empty() ? "" : ", in ") + prices.currency +
                    ", without the oven's energy";
  for (std::size_t i = 0; i < setting.unpriced.size(); ++i) {
    out += (i == 0 ? "; no price is known of " : ", ") + setting.unpriced[i];
  }
  return out + (setting.unpriced.empty() ? "" : ": not counted, and not used more than now");
}

Tin tin_of(const Recipe& recipe, const AdjustRequest& request) {
  if (request.tin || recipe.tin) {
    return request.tin ? *request.tin : *recipe.tin;
  }
  return request.kitchen.tins.empty() ? Tin() : request.kitchen.tins.front();
}

/// The yield the changed recipe states.
void restate_pieces(Recipe& recipe, const std::vector<Want>& wants, double scale) {
  if (const Want* pieces = first_of(wants, WantKind::pieces)) {
    recipe.pieces = Range{pieces->low, pieces->low};
  } else if (scale != 1.0 && recipe.pieces && !has(wants, WantKind::piece_grams)) {
    recipe.pieces = Range{recipe.pieces->low * scale, recipe.pieces->high * scale};
  }
}

}  // namespace

Adjustment adjust_recipe(const Recipe& recipe, const Pantry& pantry, const AdjustRequest& request) {
  Adjustment out;
  out.recipe = recipe;
  out.met = true;
  if (request.wants.empty()) {
    return out;
  }
  const KeptFigures kept = kept_figures(setting_of(recipe, pantry, request, 1.0)->balance);
  out.problem = make_swaps(out, pantry, request);
  std::unique_ptr<Setting> setting = setting_of(out.recipe, pantry, request, 1.0);
  out.problem = out.problem.empty() ? setting->problem : out.problem;
  if (!out.problem.empty()) {
    return refused(recipe, out.problem);
  }
  if (has(request.wants, WantKind::cost)) {
    if (!setting->any_price) {
      return refused(
          recipe,
          "No price of anything in this recipe is known, so a cost cannot be wanted; give "
          "the kitchen its pack prices, or a table of them with --prices.");
    }
    out.notes.push_back(cost_note(*setting, request.kitchen.prices));
  }
  std::vector<double> now;
  double total = 0.0;
  for (const BalanceLine& line : setting->balance.lines) {
    now.push_back(line.grams_before);
    total += line.grams_before;
  }
  std::vector<Want> wants = with_mass(recipe, request.wants, total, out.notes);
  if (const std::string problem = spell_out_scale(wants, out.recipe, *setting); !problem.empty()) {
    return refused(recipe, problem);
  }
  cost_of_all(wants, pieces_wanted(recipe, request.wants));
  leave_feel_that_is_there(wants, setting->balance, now);
  resolve_relative(wants, setting->balance, now, out.notes);
  TinFill fill;
  if (has(wants, WantKind::fill)) {
    fill = fill_of(fill_ranges(), tin_of(recipe, request), state_of(setting->balance, now), total);
    if (fill.tin_ml <= 0.0) {
      return refused(recipe,
                     "No tin with its sizes is known to fill: say it with its depth (\"fits a "
                     "23 x 13 x 7 cm loaf tin\"), or give the kitchen a tin.");
    }
  }
  const double scale = scale_of(*setting, wants, fill.wanted_g);
  setting = setting_of(out.recipe, pantry, request, scale);
  setting->balance.fill_low_g = fill.wanted.low_g_per_ml * fill.tin_ml;
  setting->balance.fill_high_g = fill.wanted.high_g_per_ml * fill.tin_ml;
  setting->balance.kept = kept;
  offer_water(*setting, pantry);
  const std::vector<Want> rows = rows_of(wants);
  BalanceSolution solution = solve_balance(setting->balance, rows, nullptr, WholeItems::kept);
  if (solution.status != SolveStatus::optimal) {
    // Whole packets are liked, not needed: part of one is weighed out where it must be.
    solution = solve_balance(setting->balance, rows, nullptr, WholeItems::packs_divisible);
  }
  if (solution.status != SolveStatus::optimal) {
    out.met = false;
    out.conflict = conflicts_of(setting->balance, rows);
    out.recipe = recipe;
    return out;
  }
  const std::vector<double> grams = rounded_grams(setting->balance, rows, solution.grams);
  for (const Want& want : rows) {
    out.met = out.met && is_met(setting->balance, want, grams);
  }
  write_back(out, *setting, rows, grams, scale);
  restate_pieces(out.recipe, request.wants, scale);
  if (has(wants, WantKind::fill) && request.tin) {
    out.recipe.tin = request.tin;
  }
  if (const Want* prove = first_of(request.wants, WantKind::prove_minutes)) {
    meet_prove_time(out, pantry, request, *prove);
  }
  return out;
}

}  // namespace maslin
