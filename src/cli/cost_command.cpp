#include "cli/cost_command.h"

#include <iostream>

#include "app/costing.h"
#include "cli/inputs.h"

namespace maslin {

int cost_command(const std::vector<std::string>& files, const std::string& prices, int loads,
                 const CommonOptions& options) {
  const auto kitchen = kitchen_of(options);
  if (!kitchen) {
    return k_input_at_fault;
  }
  CostQuestion question;
  question.loads = loads;
  question.forecast.kitchen = *kitchen;
  question.forecast.options = {options.seed, options.draws};
  question.forecast.progress = show_progress;
  if (!prices.empty()) {
    auto list = prices_of(prices);
    if (!list) {
      return k_input_at_fault;
    }
    question.prices = std::move(*list);
  }
  const Tools tools;
  return for_each_recipe(tools, files, options, [&](const Recipe& recipe, const std::string& file) {
    const Result<handon::CostSheet> sheet = cost_recipe(tools, recipe, question);
    if (!sheet.value) {
      return complain(name_of(file), sheet.problem);
    }
    std::cout << (options.json ? handon::cost_to_json(*sheet.value) + "\n"
                               : handon::cost_text(*sheet.value));
    return k_done;
  });
}

}  // namespace maslin
