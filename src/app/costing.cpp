#include "app/costing.h"

#include <utility>

#include "recipe/price_list.h"

namespace maslin {

Result<handon::CostSheet> cost_recipe(const Tools& tools, const Recipe& recipe,
                                      const CostQuestion& question) {
  const Result<ForecastSummary> forecast = forecast_recipe(tools, recipe, question.forecast);
  if (!forecast.value) {
    return {std::nullopt, forecast.problem};
  }
  handon::CostRequest request;
  request.kitchen = question.forecast.kitchen;
  request.draws = question.forecast.options;
  request.prices = question.prices;
  request.loads = question.loads;
  if (const auto& bake = forecast.value->bake) {
    request.bake_minutes = bake->minutes;
    request.setting_celsius = bake->setting_celsius;
  }
  handon::CostSheet sheet = handon::cost_of(recipe, tools.pantry, request);
  if (!sheet.problem.empty()) {
    return {std::nullopt, std::move(sheet.problem)};
  }
  return {std::move(sheet), ""};
}

Result<PriceList> price_list_of(const std::string& text) {
  PriceReading reading = read_prices(text);
  if (reading.problems.empty()) {
    return {std::move(reading.list), ""};
  }
  std::string problem;
  for (const Problem& one : reading.problems) {
    problem += (problem.empty() ? "" : " ") + sentence(one);
  }
  return {std::nullopt, std::move(problem)};
}

}  // namespace maslin
