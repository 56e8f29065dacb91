#include "handon/card_notes.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "handon/altitude.h"
#include "handon/household.h"
#include "handon/oven_fit.h"
#include "handon/power.h"

namespace maslin::handon {
namespace {

/// Water dissolves 0.36 g of salt a millilitre (CRC Handbook, from memory), and not all at once.
constexpr double k_salt_g_per_ml = 0.3;
/// Yeast is only stirred in, powder only mixed: a thick cream or a third of it.
constexpr double k_stirs_in_g_per_ml = 0.35;

/// Salt or yeast that no spoon there measures, by way of water, and baking powder or soda by way of
/// flour; empty for all else.
std::string dilution_words(const CardLine& line, const Ingredient& one, const LineTools& tools) {
  const bool salt = one.kind == IngredientKind::salt;
  const bool powder = one.kind == IngredientKind::leavening;
  const auto packing = tools.pantry.packing(one, "level");
  if ((!salt && !powder && one.kind != IngredientKind::yeast) || !packing ||
      tools.means.vessels.empty() || !tools.means.vessels.back().spoon) {
    return {};
  }
  const Vessel& spoon = tools.means.vessels.back();
  // Dry powders lie side by side: their own volume is added.
  const double added = powder ? 1.0 / packing->g_per_ml : salt ? 0.33 : 0.75;
  const auto found = dilution(spoon, packing->g_per_ml, added, line.grams,
                              salt ? k_salt_g_per_ml : k_stirs_in_g_per_ml);
  if (!found) {
    return {};
  }
  const CardWords& words = tools.words;
  const auto spoons = [&](double count) { return words.measure(spoon.name, count); };
  return words.say(powder ? "note_dilute_flour" : "note_dilute",
                   {line.name, words.fraction(found->spoons), words.fraction(found->water_spoons),
                    words.fraction(found->take_spoons), spoons(found->spoons),
                    spoons(found->water_spoons), spoons(found->take_spoons)});
}

/// So many times the batch, at which the line comes out within its limit; empty when none up to
/// four does, or half of it.
std::string times_words(const Line& line, const Ingredient& one, const LineTools& tools) {
  for (const double times : {2.0, 3.0, 4.0, 0.5}) {
    auto amount =
        measured(tools.means, tools.pantry, one, line.found.packing, line.grams.p50() * times);
    if (amount && std::fabs(amount->error_pct) <= limit_pct(care_for(one))) {
      const std::string name = tools.words.ingredient(one, tools.pantry, line.name);
      return tools.words.say("note_times",
                             {tools.words.fraction(times), name, amount_words(*amount, tools.words),
                              tools.words.number(std::fabs(amount->error_pct), 1)});
    }
  }
  return {};
}

}  // namespace

void note_batch_factor(Card& card, double factor, const CardWords& words) {
  // A hundredth is within what anyone measures.
  if (std::fabs(factor - 1.0) >= 0.015) {
    card.notes.push_back(words.say(factor > 1.0 ? "note_larger" : "note_smaller",
                                   {words.number(100.0 * std::fabs(factor - 1.0), 0)}));
  }
}

void note_means(Card& card, const LineTools& tools) {
  const Means& means = tools.means;
  if (means.from == MeansFrom::assumed && !means.vessels.empty()) {
    card.notes.push_back(
        tools.words.say("note_assumed", {tools.words.number(means.vessels.front().ml, 0)}));
  }
  const bool spoon = std::any_of(means.vessels.begin(), means.vessels.end(),
                                 [](const Vessel& vessel) { return vessel.spoon; });
  if (!means.scale && !spoon) {
    card.notes.push_back(tools.words.say("note_no_spoon"));
  }
}

void note_lines(Card& card, const LineTools& tools) {
  for (const CardPart& part : card.parts) {
    for (const CardLine& line : part.lines) {
      const Line& recipe_line = card.recipe.parts[part.part].lines[line.line];
      const Ingredient* one = tools.pantry.find(recipe_line.ingredient_id);
      const double error = line.amount.error_pct;
      if (one == nullptr && recipe_line.part.empty()) {
        card.notes.push_back(tools.words.say("note_unread", {line.name}));
      } else if (one != nullptr && line.amount.way == AmountWay::measures &&
                 care_for(*one) == Care::exact && std::fabs(error) > k_exact_limit_pct) {
        card.notes.push_back(tools.words.say(
            error > 0.0 ? "note_error_over" : "note_error_under",
            {line.name, line.amount.words, tools.words.number(std::fabs(error), 1)}));
        std::string nearer = dilution_words(line, *one, tools);
        nearer = nearer.empty() ? times_words(recipe_line, *one, tools) : nearer;
        if (!nearer.empty()) {
          card.notes.push_back(std::move(nearer));
        }
      }
    }
  }
}

void note_power(Card& card, const CardWords& words) {
  if (card.there.bake) {
    const int loads = card.batch ? card.batch->loads : 1;
    if (auto note = power_note(card.kitchen, loads, card.there.bake->minutes.p90, words)) {
      card.notes.push_back(std::move(*note));
    }
  }
}

void note_not_done(Card& card, const Figures& there, const CardWords& words) {
  const double share = 1.0 - there.share_done;
  if (there.any && share >= 0.1) {
    card.notes.push_back(words.say("note_not_done", {words.number(10.0 * share, 0)}));
  }
}

void advise_flour(Card& card, const Kitchen& from, const LineTools& tools) {
  constexpr double k_usual_humidity_pct = 60.0;
  constexpr double k_felt_points = 1.0;
  if (!card.kitchen.humidity_pct || !card.there.dough) {
    return;
  }
  const double home = flour_water_pct(from.humidity_pct.value_or(k_usual_humidity_pct),
                                      from.room_celsius.value_or(21.5));
  const double there =
      flour_water_pct(*card.kitchen.humidity_pct, card.kitchen.room_celsius.value_or(21.5));
  const double points = home - there;
  const Ingredient* water = tools.pantry.find("water");
  if (std::fabs(points) < k_felt_points || water == nullptr) {
    return;
  }
  const double grams = card.there.dough->flour_grams.p50 * std::fabs(points) / 100.0;
  const auto by_measure =
      tools.means.scale ? std::nullopt : measured(tools.means, tools.pantry, *water, "", grams);
  const std::string amount =
      by_measure ? amount_words(*by_measure, tools.words) : grams_words(grams, tools.words);
  if (const auto advice = advice_for(points > 0.0 ? "flour_dry" : "flour_damp", tools.words,
                                     {tools.words.number(std::fabs(points), 0), amount})) {
    card.notes.push_back(advice->words);
  }
}

void note_hot_room(Card& card, const CardWords& words) {
  constexpr double k_too_warm_celsius = 28.0;  // common practice, no source
  if (card.kitchen.room_celsius.value_or(0.0) > k_too_warm_celsius && card.there.dough &&
      card.there.dough->celsius.p50 > k_too_warm_celsius) {
    card.notes.push_back(
        words.say("note_hot_room", {words.degrees(card.there.dough->celsius.p50)}));
  }
}

}  // namespace maslin::handon
