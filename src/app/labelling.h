// labelling: the label of a recipe, baked as the forecast bakes it.
#pragma once

#include <functional>
#include <string>

#include "app/app.h"
#include "handon/label.h"

namespace maslin {

struct LabelQuestion {
  handon::LabelRules rules = handon::LabelRules::eu;
  ForecastRequest forecast;  // kitchen, draws, progress
};
Result<handon::Label> label_recipe(const Tools& tools, const Recipe& recipe,
                                   const LabelQuestion& question);

/// "eu", "uk", "us" or "codex"; or the sentence.
Result<handon::LabelRules> label_rules_named(const std::string& name);

}  // namespace maslin
