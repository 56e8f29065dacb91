#include "app/adjusting.h"

#include <utility>

namespace maslin {

Result<Adjustment> adjust_as_wanted(const Tools& tools, const Recipe& recipe,
                                    const AdjustWords& words) {
  AdjustRequest request;
  request.kitchen = words.kitchen;
  request.price_per_kg = words.price_per_kg;
  for (const std::string& text : words.wants) {
    ParsedWant parsed = parse_want(text);
    if (!parsed.want) {
      return {std::nullopt, std::move(parsed.problem)};
    }
    request.wants.push_back(std::move(*parsed.want));
  }
  for (const std::string& text : words.holds) {
    request.holds.push_back(parse_hold(text));
  }
  Adjustment adjustment = adjust_recipe(recipe, tools.pantry, request);
  if (!adjustment.problem.empty()) {
    return {std::nullopt, std::move(adjustment.problem)};
  }
  return {std::move(adjustment), ""};
}

}  // namespace maslin
