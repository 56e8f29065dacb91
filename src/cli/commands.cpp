#include "cli/commands.h"

#include <iostream>
#include <optional>

#include "app/adjusting.h"
#include "app/app.h"
#include "app/bake_picture.h"
#include "app/learning.h"
#include "app/report.h"
#include "cli/inputs.h"
#include "recipe/recipe_json.h"

namespace maslin {
int read_command(const std::vector<std::string>& files, const CommonOptions& options) {
  const Tools tools;
  return for_each_recipe(tools, files, options, [&](const Recipe& recipe, const std::string&) {
    std::cout << (options.json ? recipe_to_json(recipe) + "\n"
                               : recipe_report(recipe, tools.pantry, colour()));
    return k_done;
  });
}

int forecast_command(const std::vector<std::string>& files, const ForecastArguments& arguments,
                     const CommonOptions& options) {
  const std::string& picture = arguments.picture;
  const auto kitchen = kitchen_of(options);
  if (!kitchen) {
    return k_input_at_fault;
  }
  if (!picture.empty() && files.size() > 1) {
    return complain(picture, "One picture shows one recipe: give one file.");
  }
  const auto begins = hour_of_day_from(arguments.begins);
  if (!arguments.begins.empty() && !begins) {
    return complain(arguments.begins, "That is no hour of a day: write it as 21:00.");
  }
  const Tools tools;
  std::vector<Observation> observations;
  if (!take_seen(tools, arguments.seen, observations)) {
    return k_input_at_fault;
  }
  return for_each_recipe(tools, files, options, [&](const Recipe& recipe, const std::string& file) {
    ForecastRequest request;
    request.kitchen = *kitchen;
    request.options.seed = options.seed;
    request.options.draws = options.draws;
    request.options.begins_at = begins;
    request.seen = observations;
    request.progress = show_progress;
    request.what_if = arguments.what_if || arguments.rise_minutes > 0.0;
    if (arguments.rise_minutes > 0.0) {
      request.rise_minutes = arguments.rise_minutes;
    }
    const Result<ForecastSummary> summary = forecast_recipe(tools, recipe, request);
    if (!summary.value) {
      return complain(name_of(file), summary.problem);
    }
    std::cout << (options.json ? summary_to_json(*summary.value) + "\n"
                               : forecast_report(*summary.value, tools.pantry, colour()));
    if (picture.empty()) {
      return k_done;
    }
    const std::string problem = save_bake_picture(tools, recipe, request, picture);
    return problem.empty() ? k_done : complain(picture, problem);
  });
}

int adjust_command(const std::vector<std::string>& files, const std::vector<std::string>& wants,
                   const std::vector<std::string>& holds, const std::string& prices,
                   const CommonOptions& options) {
  auto kitchen = kitchen_of(options);
  if (kitchen && !prices.empty()) {
    auto list = prices_of(prices);
    if (!list) {
      return k_input_at_fault;
    }
    kitchen->prices = std::move(*list);
  }
  if (!kitchen) {
    return k_input_at_fault;
  }
  const AdjustWords words{wants, holds, *kitchen};
  const Tools tools;
  return for_each_recipe(tools, files, options, [&](const Recipe& recipe, const std::string& file) {
    const Result<Adjustment> adjustment = adjust_as_wanted(tools, recipe, words);
    if (!adjustment.value) {
      return complain(name_of(file), adjustment.problem);
    }
    std::cout << (options.json ? adjustment_to_json(*adjustment.value) + "\n"
                               : adjustment_text(*adjustment.value));
    return k_done;
  });
}

int pantry_command(const std::string& word, const CommonOptions& options) {
  const Tools tools;
  if (options.json) {
    std::cout << pantry_to_json(tools, word) << "\n";
    return k_done;
  }
  constexpr std::size_t k_most = 6;
  const auto found = tools.pantry.search(word, k_most);
  if (found.empty()) {
    return complain(
        "", "Nothing in the pantry is called \"" + word + "\"; try a shorter or plainer word.");
  }
  for (const Ingredient* one : found) {
    std::cout << ingredient_report(*one, tools.pantry, colour());
  }
  return k_done;
}

int kitchen_command(const std::string& file, std::int64_t unlearn, const CommonOptions& options) {
  if (const auto text = unlearn > 0 ? std::nullopt : text_of(file)) {
    Result<Kitchen> kitchen = read_kitchen_file(*text);
    if (!kitchen.value) {
      return complain(name_of(file), kitchen.problem);
    }
    if (!take_room(options, *kitchen.value)) {
      return k_input_at_fault;
    }
    std::cout << kitchen_to_json(*kitchen.value) << "\n";
    return k_done;
  }
  Result<Store> store = open_store(options.store);
  if (!store.value) {
    return complain("", store.problem);
  }
  const Result<LearntKitchen> learnt =
      unlearn > 0 ? unlearn_trial(Tools(), *store.value, file, unlearn, now_ms(), LiveOptions{})
                  : learnt_in_library(*store.value, file);
  if (!learnt.value) {
    return complain("", learnt.problem);
  }
  std::cout << (options.json ? learnt_to_json(*learnt.value) + "\n" : learnt_report(*learnt.value));
  return k_done;
}

}  // namespace maslin
