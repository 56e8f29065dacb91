#include "app/adjusting.h"

#include <utility>

#include "adjust/want_words.h"
#include "reading/reading.h"

namespace maslin {

Result<Adjustment> adjust_as_wanted(const Tools& tools, const Recipe& recipe,
                                    const AdjustWords& words) {
  AdjustRequest request;
  request.kitchen = words.kitchen;
  for (const std::string& text : words.wants) {
    SaidWants said = wants_from_words(text);
    if (!said.problem.empty()) {
      return {std::nullopt, std::move(said.problem)};
    }
    if (const auto tin = tin_in_words(text, tools.words)) {
      request.tin = tin;
    }
    request.wants.insert(request.wants.end(), said.wants.begin(), said.wants.end());
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
