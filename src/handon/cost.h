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
#include "recipe/prices.h"
#include "recipe/recipe.h"

namespace maslin::handon {

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
  PriceList prices;                  // without packs and energy the kitchen's own
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
