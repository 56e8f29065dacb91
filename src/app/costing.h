// costing: what a batch costs and what to buy for it, baked as the forecast bakes it.
#pragma once

#include <string>

#include "app/app.h"
#include "handon/cost.h"

namespace maslin {

struct CostQuestion {
  PriceList prices;
  ForecastRequest forecast;  // kitchen, draws, progress
  int loads = 1;             // of the oven
};
Result<handon::CostSheet> cost_recipe(const Tools& tools, const Recipe& recipe,
                                      const CostQuestion& question);

/// Prices from a person's table or document, or the sentences about it.
Result<PriceList> price_list_of(const std::string& text);

}  // namespace maslin
