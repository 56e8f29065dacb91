// A person's prices, from a table or a document, and what they make of a gram of each food.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "pantry/pantry.h"
#include "recipe/prices.h"
#include "recipe/recipe_json.h"

namespace maslin {

struct PriceReading {
  PriceList list;
  std::vector<Problem> problems;
};
/// A TSV of "item amount unit price" (or spaces for the tabs: "plain flour 1 kg 0.89") with a head
/// line (rows "energy 1 kWh 0.30", "oven 2.4 kW", "waste 3 %", "currency EUR" say the rest), or the
/// JSON of docs/schema/prices.schema.json.
PriceReading read_prices(std::string_view text);

/// The pack a food is bought in: of several the one that is cheapest by weight.
struct FoodPrice {
  PricedPack pack;
  double pack_grams = 0.0;
  double per_gram() const { return pack.price / pack_grams; }
};
struct FoodPrices {
  std::map<std::string, FoodPrice> by_id;  // of the pantry
  std::vector<std::string> notes;          // packs that are no use, and why
};
/// `country`: whose pints and ounces.
FoodPrices food_prices(const PriceList& list, const Pantry& pantry, const std::string& country);

}  // namespace maslin
