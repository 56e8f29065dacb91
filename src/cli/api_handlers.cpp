#include "cli/api_handlers.h"

#include <memory>
#include <utility>

#include "app/adjusting.h"
#include "app/app.h"
#include "app/bake_picture.h"
#include "app/baked.h"
#include "app/costing.h"
#include "app/hand_on.h"
#include "app/kept_draws.h"
#include "app/labelling.h"
#include "app/library.h"
#include "app/living_card.h"
#include "cli/api_answers.h"
#include "cli/compare_handler.h"
#include "cli/plan_handler.h"
#include "cli/trial_handlers.h"
#include "recipe/recipe_json.h"

namespace maslin {
namespace {

ApiAnswer adjust_asked(const Tools& tools, const AdjustQuestion& question) {
  return of_recipe(tools, question, [&](const Recipe& recipe, Kitchen kitchen) {
    const Result<Adjustment> adjustment =
        adjust_as_wanted(tools, recipe, {question.wants, question.holds, std::move(kitchen)});
    return adjustment.value ? answer_of(adjustment_to_json(*adjustment.value))
                            : problem_of(adjustment.problem);
  });
}

ApiAnswer picture_asked(const Tools& tools, const PictureQuestion& question) {
  return of_recipe(tools, question, [&](const Recipe& recipe, Kitchen kitchen) {
    ForecastRequest request;
    request.kitchen = std::move(kitchen);
    const Result<Drawing> drawing = draw_bake(tools, recipe, request);
    return drawing.value ? answer_of(drawing_to_json(*drawing.value)) : problem_of(drawing.problem);
  });
}

ApiAnswer hand_on_asked(const Tools& tools, const HandOnQuestion& question) {
  const Result<Recipe> recipe = recipe_asked(tools, question.recipe_json, question.text);
  Result<Kitchen> to = kitchen_asked(question.to_json);
  Result<Kitchen> from = kitchen_asked(question.from_json);
  if (!recipe.value || !to.value || !from.value) {
    return problem_of(!recipe.value ? recipe.problem : to.value ? from.problem : to.problem);
  }
  HandOnRequest request{std::move(*to.value), std::move(*from.value), question.language, {},
                        question.captions,    question.ready_at};
  request.options = {question.seed.value_or(1), question.draws.value_or(256)};
  const Result<std::string> answer = hand_on_document(tools, *recipe.value, request, question.as);
  return answer.value ? answer_of(*answer.value) : problem_of(answer.problem);
}

/// What a label and a cost are forecast with, or the sentence.
Result<ForecastRequest> forecast_asked(const LabelAsked& question) {
  Result<Kitchen> kitchen = kitchen_asked(question.kitchen_json);
  if (!kitchen.value) {
    return {std::nullopt, kitchen.problem};
  }
  ForecastRequest out;
  out.kitchen = std::move(*kitchen.value);
  out.options.seed = question.seed.value_or(out.options.seed);
  out.options.draws = question.draws.value_or(out.options.draws);
  out.stop = question.gone;
  return {std::move(out), ""};
}

ApiAnswer label_asked(const Tools& tools, const LabelAsked& question) {
  const Result<Recipe> recipe = recipe_asked(tools, question.recipe_json, question.text);
  Result<ForecastRequest> forecast = forecast_asked(question);
  const Result<handon::LabelRules> rules =
      label_rules_named(question.rules.empty() ? "eu" : question.rules);
  for (const std::string& problem : {recipe.problem, forecast.problem, rules.problem}) {
    if (!problem.empty()) {
      return problem_of(problem);
    }
  }
  const Result<handon::Label> label =
      label_recipe(tools, *recipe.value, {*rules.value, std::move(*forecast.value)});
  return label.value ? answer_of(handon::label_to_json(*label.value)) : problem_of(label.problem);
}

ApiAnswer cost_asked(const Tools& tools, const LabelAsked& question) {
  const Result<Recipe> recipe = recipe_asked(tools, question.recipe_json, question.text);
  Result<ForecastRequest> forecast = forecast_asked(question);
  Result<PriceList> prices = question.prices_json.empty() ? Result<PriceList>{PriceList(), ""}
                                                          : price_list_of(question.prices_json);
  for (const std::string& problem : {recipe.problem, forecast.problem, prices.problem}) {
    if (!problem.empty()) {
      return problem_of(problem);
    }
  }
  const int loads = static_cast<int>(question.loads.value_or(1));
  const Result<handon::CostSheet> sheet = cost_recipe(
      tools, *recipe.value, {std::move(*prices.value), std::move(*forecast.value), loads});
  return sheet.value ? answer_of(handon::cost_to_json(*sheet.value)) : problem_of(sheet.problem);
}

LibraryHandlers library_handlers(const Tools& tools, const std::string& file) {
  constexpr int k_most_versions = 1000;
  LibraryHandlers out;
  out.list = [file] {
    return of_store(
        file, [](Store& store) { return list_library(store, DocumentKind::recipe, ""); },
        [](const std::vector<Named>& named) { return named_to_json(named, DocumentKind::recipe); });
  };
  out.history = [file](const std::string& name) {
    return of_store(
        file,
        [&](Store& store) {
          return history_of(store, DocumentKind::recipe, name, k_most_versions);
        },
        history_to_json);
  };
  out.version = [file](const std::string& words) {
    return of_store(
        file, [&](Store& store) { return recipe_in_library(store, words); },
        [](const Recipe& recipe) { return recipe_to_json(recipe); });
  };
  out.keep = [&tools, file](const KeepQuestion& question) {
    const Result<Recipe> recipe = recipe_asked(tools, question.recipe_json, "");
    if (!recipe.value) {
      return problem_of(recipe.problem);
    }
    return of_store(
        file,
        [&](Store& store) {
          return keep_in_library(
              store, KeepRequest{*recipe.value, question.name, question.why, question.from, {}});
        },
        kept_to_json);
  };
  out.search = [file](const std::string& words) {
    return of_store(
        file, [&](Store& store) { return search_library(store, words); },
        [&](const SearchResult& found) { return search_to_json(words, found); });
  };
  out.tag = [file](const TagQuestion& question) {
    return of_store(
        file,
        [&](Store& store) {
          return tag_recipe(store, question.name, question.words,
                            question.remove ? Tagging::remove : Tagging::add);
        },
        [](const Named& named) { return named_to_json({named}, DocumentKind::recipe); });
  };
  return out;
}

LivingHandlers living_handlers(const Tools& tools, const std::string& file) {
  LivingHandlers out;
  out.card = [&tools](const LivingCardQuestion& question) {
    const Result<Recipe> recipe = recipe_asked(tools, question.recipe_json, "");
    Result<Kitchen> kitchen = kitchen_asked(question.kitchen_json);
    if (!recipe.value || !kitchen.value) {
      return problem_of(recipe.value ? kitchen.problem : recipe.problem);
    }
    const Result<LivingCard> card =
        living_card(tools, *recipe.value, {std::move(*kitchen.value), now_ms()});
    return card.value ? answer_of(living_card_with_page(*card.value)) : problem_of(card.problem);
  };
  out.baked = [&tools, file](const std::string& json) {
    const Result<Baked> baked = baked_from_json(json);
    return !baked.value ? problem_of(baked.problem)
                        : of_store(
                              file,
                              [&](Store& store) {
                                return import_baked(store, tools.note_words, *baked.value);
                              },
                              imported_to_json);
  };
  return out;
}

ApiHandlers computing(const Tools& tools) {
  ApiHandlers out;
  out.read = [&tools](const ReadQuestion& question) {
    const Result<Recipe> recipe =
        read_recipe(tools, {question.text, question.name, question.locale});
    return recipe.value ? answer_of(recipe_to_json(*recipe.value)) : problem_of(recipe.problem);
  };
  out.forecast = [&tools, kept = std::make_shared<KeptDraws>()](const ForecastQuestion& question) {
    return of_recipe(tools, question, [&](const Recipe& recipe, Kitchen kitchen) {
      ForecastRequest request;
      request.kitchen = std::move(kitchen);
      if (!question.observations_json.empty()) {
        SeenDocument seen = seen_from_json(question.observations_json, tools.note_words);
        if (!seen.problem.empty()) {
          return problem_of(seen.problem);
        }
        request.seen = std::move(seen.observations);
      }
      request.options.seed = question.seed.value_or(request.options.seed);
      request.options.draws = question.draws.value_or(request.options.draws);
      request.options.begins_at = question.begins_at;
      request.options.worth_measuring = question.worth_measuring;
      request.what_if = question.what_if;
      request.stop = question.gone;
      request.kept = kept.get();
      request.kept_key = std::to_string(request.options.seed) + '\n' +
                         std::to_string(question.begins_at.value_or(-1.0)) + '\n' +
                         question.kitchen_json + '\n' + question.recipe_json + '\n' + question.text;
      const Result<ForecastSummary> summary = forecast_recipe(tools, recipe, request);
      return summary.value ? answer_of(summary_to_json(*summary.value))
                           : problem_of(summary.problem);
    });
  };
  out.pantry = [&tools](const std::string& word) { return answer_of(pantry_to_json(tools, word)); };
  out.kitchen = [] { return answer_of(demo_kitchen_to_json()); };
  out.about = [] { return answer_of(about_to_json()); };
  out.adjust = [&tools](const AdjustQuestion& question) { return adjust_asked(tools, question); };
  out.hand_on = [&tools](const HandOnQuestion& question) { return hand_on_asked(tools, question); };
  out.labels.label = [&tools](const LabelAsked& question) { return label_asked(tools, question); };
  out.labels.cost = [&tools](const LabelAsked& question) { return cost_asked(tools, question); };
  out.picture = [&tools](const PictureQuestion& question) {
    return picture_asked(tools, question);
  };
  out.demo = [] { return answer_of(demo_to_json()); };
  return out;
}

}  // namespace

ApiHandlers api_handlers(const Tools& tools, const std::string& store) {
  ApiHandlers out = computing(tools);
  out.library = library_handlers(tools, store);
  out.living = living_handlers(tools, store);
  out.trials = trial_handlers(tools, store);
  out.compare = compare_handler(tools, store);
  out.plan = plan_handler(tools, store);
  return out;
}

}  // namespace maslin
