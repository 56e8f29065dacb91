// What a batch costs and what must be bought for it: from the prices a person gives, the draws of
// the amounts, what is wasted, and the oven's energy. There are no prices of our own: without
// them the list says the packs, and asks.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "forecast/ensemble.h"
#include "forecast/forecast.h"
#include "pantry/pantry.h"
#include "recipe/kitchen.h"
#include "recipe/recipe.h"
#include "recipe/recipe_json.h"

namespace maslin::handon {

/// A pack as a shop sells it.
struct PricedPack {
  std::string item;  // as the person calls it
  double amount = 0.0;
  std::string unit;  // g, kg, l, piece, packet, ...
  double price = 0.0;
};

/// A person's own table.
struct PriceList {
  std::string currency;  // written behind every sum; may be empty
  std::vector<PricedPack> packs;
  std::optional<double> energy_per_kwh;
  std::optional<double> oven_kw;    // of the elements, as on its plate
  std::optional<double> waste_pct;  // of what is put in; left out: 2 %, on bowl, bench and hands
};

struct PriceReading {
  PriceList list;
  std::vector<Problem> problems;
};
/// A TSV of "item amount unit price" with a head line (rows "energy 1 kWh 0.30", "oven 2.4 kW",
/// "waste 3 %", "currency EUR" say the rest), or the JSON of docs/schema/prices.schema.json.
PriceReading read_prices(std::string_view text);

struct CostLine {
  std::string id;
  std::string name;
  Band grams;  // used, with the waste
  double pack_grams = 0.0;
  std::string pack;          // "1.5 kg"
  int packs = 0;             // enough for nine batches in ten
  bool usual_pack = false;   // no price was given: the pack it is mostly sold in
  std::optional<Band> cost;  // of what is used
  std::optional<double> bought;
};

struct EnergyCost {
  Band preheat_minutes;
  Band bake_minutes;
  Band kwh;
  std::optional<Band> cost;
};

struct CostRequest {
  Kitchen kitchen;
  ForecastOptions draws{1, 256};
  PriceList prices;
  std::optional<Band> bake_minutes;  // of one load, by the forecast
  double setting_celsius = 190.0;
  int loads = 1;  // of the oven
};

struct CostSheet {
  std::string problem;
  std::string title;
  std::string currency;
  double pieces = 1.0;
  std::vector<CostLine> lines;  // dearest first; without prices heaviest first
  std::optional<EnergyCost> energy;
  std::optional<Band> batch;  // all that has a price
  std::optional<Band> piece;
  std::optional<double> bought;  // at the till
  std::vector<std::string> asks;
  std::vector<std::string> notes;
};

CostSheet cost_of(const Recipe& recipe, const Pantry& pantry, const CostRequest& request);

std::string cost_text(const CostSheet& sheet);
/// docs/schema/cost.schema.json.
std::string cost_to_json(const CostSheet& sheet);

}  // namespace maslin::handon
