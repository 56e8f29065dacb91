// handon: a recipe carried to another kitchen, and the card that goes with it.
//
// The friend's kitchen has other measures, other ingredients, another oven, another room and
// another height. carry() makes the recipe for it and says what will be different and by how
// much; every card, label, page and calendar is a rendering of what it gives.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "forecast/summary.h"
#include "pantry/pantry.h"
#include "recipe/kitchen.h"
#include "recipe/recipe.h"

namespace maslin::handon {

/// So many of one measure, level unless the amount says otherwise.
struct MeasureCount {
  std::string measure;  // a unit ("cup", "tbsp") or the kitchen's own name for it ("mug")
  double count = 0.0;   // whole, or with a part that a person can judge: 1/4, 1/3, 1/2, 2/3, 3/4
  double ml = 0.0;      // of one
};

/// How an amount is taken in that kitchen.
enum class AmountWay : std::uint8_t {
  scale,     // weighed
  measures,  // so many mugs and spoons
  counted,   // 2 eggs, 1 packet
  as_found,  // never weighed: "a handful", "salt to taste"
  part       // another part of the recipe, or a share of it
};

struct HouseholdAmount {
  AmountWay way = AmountWay::scale;
  std::vector<MeasureCount> counts;  // added up, largest first; empty unless way is measures
  std::string packing;               // how they are filled: level, packed, chopped, melted, ...
  double grams = 0.0;                // what is taken so, at the median
  double error_pct = 0.0;            // of the grams wanted: (taken - wanted) / wanted
  double spread_pct = 0.0;           // how much people differ in filling them, 1 sd
  std::string words;                 // "1 1/2 mugs and 2 spoons", in the card's language
};

struct CardLine {
  std::size_t line = 0;  // its place in the part of card.recipe
  std::string name;      // the ingredient in the card's language; of a part its name
  double grams = 0.0;    // wanted; 0 when it was never weighed
  HouseholdAmount amount;
  std::string note;  // "melted", "plus extra for dusting", as found
};

struct CardStep {
  std::size_t step = 0;   // the place of its first step in the part of card.recipe
  std::size_t steps = 1;  // so many steps of the recipe make this sentence
  int number = 0;         // counted through the card from 1
  std::string words;      // what to do there, in the card's language
  std::string as_found;   // the recipe's own words where `words` says something else
};

struct CardPart {
  std::size_t part = 0;  // its place in card.recipe
  std::string name;      // heading, in the card's language
  double grams = 0.0;    // of all its lines
  std::vector<CardLine> lines;
  std::vector<CardStep> steps;
};

/// One line or setting that is not as the recipe had it, and why.
struct CardChange {
  std::string what;  // "instant yeast", "bake"
  std::string from;  // "7 g of instant yeast"
  std::string to;
  std::string why;
};

/// A figure of the forecast in the recipe's own kitchen and in this one.
struct Difference {
  std::string what;  // "first prove", "in the oven", "core when done", ...
  std::string unit;  // min, °C, %, ...
  Band home;
  Band there;
  std::string words;  // "takes half as long again: 60 becomes 90 min", in the card's language
};

/// A stretch of the day: how long by the forecast in this kitchen.
struct CardTime {
  std::string name;  // "first prove", "bake"
  Band minutes;
  std::string words;  // "25–50 min"
  std::string until;  // "doubled", "core 94 °C, golden"
};

/// How a batch is put through this kitchen's oven and tins.
struct Batch {
  int loads = 1;
  double pieces_a_load = 0.0;
  double piece_grams = 0.0;
  std::string words;
};

/// Advice on one thing of the bake: how to set it up, feel its heat, turn, tell that it is done.
struct BakeAdvice {
  std::string about;  // set_up, heat, turning, done, fuel
  std::string words;
  std::string source;
};

struct Card {
  std::string problem;   // one sentence when no card can be made; else empty
  Recipe recipe;         // carried: this kitchen's ingredients and settings, weighed
  Recipe original;       // as it was
  Kitchen kitchen;       // it is carried to
  std::string language;  // of data/words/languages.tsv: en-GB, es, ...
  std::string title;
  std::string yield;    // "Makes 12 pieces", in the card's language; empty when unknown
  std::string credit;   // where it was found; may be empty
  std::string setting;  // "for a charcoal drum at 2600 m, in a room of 17 °C"
  std::vector<CardPart> parts;
  std::vector<CardChange> changes;
  std::vector<Difference> differences;
  std::vector<CardTime> times;
  std::optional<Batch> batch;
  std::vector<BakeAdvice> baking;
  std::vector<Caution> cautions;
  std::vector<std::string> notes;  // what could not be done, and the nearest that can
  ForecastSummary home;            // the forecasts behind the differences
  ForecastSummary there;
};

/// Whether yeast, times and oven are brought to what the forecasts say, or left as written: then
/// only stand-ins and measures change, at once.
enum class Settle : std::uint8_t { by_forecast, as_written };

/// What of a forecast a recipe is settled by, medians.
struct Figures {
  bool any = false;  // something could be forecast
  std::vector<double> prove_minutes;
  std::vector<bool> prove_cold;  // in the fridge: timed by the day, not by the rise
  double bake_minutes = 0.0;
  double share_done = 1.0;  // of the draws that are done in the time the model allows
  double lightness = 0.0;   // of the crust when done
};

struct CarryRequest {
  Kitchen to;
  Kitchen from;          // where the recipe works; unknown fields are drawn wide
  std::string language;  // empty = the spelling of the kitchen's country
  ForecastOptions forecast{1, 256};
  Settle settle = Settle::by_forecast;
  /// Of the forecasts by which one setting is told from the next, both drawn alike; at most those
  /// of `forecast`.
  std::uint32_t settle_draws = 48;
  /// Of the recipe where it works, by figures_at_home(): worked out when not given. They stay the
  /// same from one kitchen to the next.
  std::optional<Figures> at_home = std::nullopt;
  /// Whether `home` and `differences` of the card are wanted; without them home is not forecast.
  bool compared = true;
};

/// What carry() brings a recipe to in the other kitchen.
Figures figures_at_home(const Recipe& recipe, const Pantry& pantry, const CarryRequest& request);

/// The recipe for that kitchen. Never fails outright: what cannot be had there is said in
/// `notes` with the nearest workable thing; `problem` only when there is nothing to carry.
Card carry(const Recipe& recipe, const Pantry& pantry, const CarryRequest& request);

}  // namespace maslin::handon
