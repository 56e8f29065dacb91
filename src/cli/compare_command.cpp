#include "cli/compare_command.h"

#include <iostream>

#include "app/comparing.h"
#include "cli/api_answers.h"
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

CompareHandler compare_handler(const Tools& tools, const std::string& file) {
  return [&tools, file](const CompareQuestion& question) {
    CompareRequest request;
    request.before.called = question.before;
    request.after.called = question.after;
    if (!question.kitchen_json.empty()) {
      Result<Kitchen> kitchen = read_kitchen(question.kitchen_json);
      if (!kitchen.value) {
        return problem_of(kitchen.problem);
      }
      request.kitchen = std::move(kitchen.value);
    }
    constexpr std::uint32_t k_draws = 256;
    request.options.forecast.seed = question.seed.value_or(1);
    request.options.forecast.draws = question.draws.value_or(k_draws);
    request.options.stop = question.gone;
    return of_store(
        file, [&](Store& store) { return compare(tools, &store, request); }, comparison_to_json);
  };
}

}  // namespace maslin
