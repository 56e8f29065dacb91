#include "cli/label_command.h"

#include <iostream>

#include "app/labelling.h"
#include "cli/inputs.h"

namespace maslin {

int label_command(const std::vector<std::string>& files, const std::string& rules,
                  const CommonOptions& options) {
  const auto kitchen = kitchen_of(options);
  if (!kitchen) {
    return k_input_at_fault;
  }
  const Result<handon::LabelRules> named = label_rules_named(rules);
  if (!named.value) {
    return complain("", named.problem);
  }
  const Tools tools;
  return for_each_recipe(tools, files, options, [&](const Recipe& recipe, const std::string& file) {
    LabelQuestion question;
    question.rules = *named.value;
    question.forecast.kitchen = *kitchen;
    question.forecast.options = {options.seed, options.draws};
    question.forecast.progress = show_progress;
    const Result<handon::Label> label = label_recipe(tools, recipe, question);
    if (!label.value) {
      return complain(name_of(file), label.problem);
    }
    std::cout << (options.json ? handon::label_to_json(*label.value) + "\n"
                               : handon::label_text(*label.value));
    return k_done;
  });
}

}  // namespace maslin
