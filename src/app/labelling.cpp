#include "app/labelling.h"

#include <algorithm>
#include <utility>

namespace maslin {

Result<handon::Label> label_recipe(const Tools& tools, const Recipe& recipe,
                                   const LabelQuestion& question) {
  const ForecastSetup setup =
      set_up_forecast(recipe, question.forecast.kitchen, tools.pantry, question.forecast.options);
  if (!setup.problem.empty()) {
    return {std::nullopt, setup.problem};
  }
  const Result<ForecastRun> run = run_in_threads(setup, question.forecast);
  if (!run.value) {
    return {std::nullopt, run.problem};
  }
  handon::LabelRequest request;
  request.rules = question.rules;
  request.kitchen = question.forecast.kitchen;
  request.draws = question.forecast.options;
  const Column* loss = run.value->ensemble.column("bake/done/weight_loss_pct");
  if (loss != nullptr) {
    request.bake_loss_pct = loss->values;
  }
  handon::Label label = handon::label_of(recipe, tools.pantry, request);
  if (!label.problem.empty()) {
    return {std::nullopt, std::move(label.problem)};
  }
  return {std::move(label), ""};
}

Result<handon::LabelRules> label_rules_named(const std::string& name) {
  const auto rules = handon::label_rules_from(name);
  return rules ? Result<handon::LabelRules>{rules, ""}
               : Result<handon::LabelRules>{std::nullopt, "There are no label rules \"" + name +
                                                              "\"; use eu, uk, us or codex."};
}

}  // namespace maslin
