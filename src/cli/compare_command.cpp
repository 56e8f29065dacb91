#include "cli/compare_command.h"

#include <iostream>

#include "app/comparing.h"
#include "cli/inputs.h"

namespace maslin {
namespace {

/// A file is read; anything else is looked for among what is kept.
bool set_side(const Tools& tools, const std::string& word, const CommonOptions& options,
              CompareSide& side) {
  side.called = word;
  const auto text = text_of(word);
  if (!text) {
    return true;
  }
  Result<Recipe> recipe = read_recipe(tools, {*text, word == "-" ? "" : word, options.locale});
  if (!recipe.value) {
    complain(name_of(word), recipe.problem);
    return false;
  }
  side.recipe = std::move(recipe.value);
  return true;
}

}  // namespace

int compare_command(const std::string& before, const std::string& after,
                    const CommonOptions& options) {
  const Tools tools;
  CompareRequest request;
  if (!set_side(tools, before, options, request.before) ||
      !set_side(tools, after, options, request.after)) {
    return k_input_at_fault;
  }
  if (!options.kitchen.empty()) {
    request.kitchen = kitchen_of(options);
    if (!request.kitchen) {
      return k_input_at_fault;
    }
  }
  request.options.forecast.seed = options.seed;
  request.options.forecast.draws = options.draws;
  std::optional<Store> store;
  if (!request.before.recipe || !request.after.recipe) {
    Result<Store> opened = open_store(options.store);
    if (!opened.value) {
      return complain("", opened.problem);
    }
    store = std::move(opened.value);
  }
  const Result<Comparison> compared = compare(tools, store ? &*store : nullptr, request);
  if (!compared.value) {
    return complain("", compared.problem);
  }
  std::cout << (options.json ? comparison_to_json(*compared.value) + "\n"
                             : comparison_report(*compared.value));
  return k_done;
}

}  // namespace maslin
