#include "app/app.h"

#include <algorithm>
#include <atomic>
#include <thread>

#include "app/embedded_table.h"
#include "app/kept_draws.h"
#include "app/pdf_text.h"
#include "forecast/draw_order.h"
#include "reading/found.h"
#include "recipe/json.h"
#include "recipe/recipe_json.h"

namespace maslin {
namespace {

bool looks_like_json(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t\r\n\xef\xbb\xbf");
  if (first == std::string_view::npos || text[first] != '{') {
    return false;
  }
  // A heading may stand in braces: "{Ingredients}".
  const std::size_t next = text.find_first_not_of(" \t\r\n", first + 1);
  return next == std::string_view::npos || text[next] == '"' || text[next] == '}';
}

/// How much of a reading is sure: lines that were weighed, less those nobody knows.
double known_lines(const Reading& reading) {
  double known = reading.problem ? -1.0 : 0.0;
  for (const Part& part : reading.recipe.parts) {
    for (const Line& line : part.lines) {
      known += line.weighed ? 1.0 : line.ingredient_id.empty() ? -1.0 : 0.0;
    }
    known += 0.1 * static_cast<double>(part.steps.size());
  }
  return known;
}

/// The layout of a page from which most could be read.
Reading best_reading(const Tools& tools, const std::vector<std::string>& texts,
                     const ReadOptions& options) {
  Reading best;
  best.problem = Problem{"the PDF", "no recipe could be read from it", "copy its text"};
  for (const std::string& text : texts) {
    Reading reading = read_found(text, tools.pantry, tools.words, options);
    if (known_lines(reading) > known_lines(best)) {
      best = std::move(reading);
    }
  }
  return best;
}

std::string sentences(const std::vector<Problem>& problems) {
  std::string out;
  for (const Problem& one : problems) {
    out += (out.empty() ? "" : " ") + sentence(one);
  }
  return out;
}

}  // namespace

Tools::Tools() : pantry(embedded_pantry_tables()), words(pantry) {}

Result<Recipe> read_recipe(const Tools& tools, const ReadRequest& request) {
  // A document with "@type" is a recipe of the open web vocabulary, not one of ours.
  if (looks_like_json(request.text) && request.text.find("\"@") == std::string_view::npos) {
    RecipeDocument document = recipe_from_json(request.text);
    if (!document.problems.empty()) {
      return {std::nullopt, sentences(document.problems)};
    }
    return {std::move(document.recipe), ""};
  }
  const ReadOptions options{request.name, request.locale, ""};
  Reading reading;
  if (is_pdf(request.text)) {
    const auto texts = pdf_texts(request.text);
    if (!texts.value) {
      return {std::nullopt, texts.problem};
    }
    reading = best_reading(tools, *texts.value, options);
  } else {
    reading = read_found(request.text, tools.pantry, tools.words, options);
  }
  if (reading.problem) {
    return {std::nullopt, sentence(*reading.problem)};
  }
  return {std::move(reading.recipe), ""};
}

Result<ForecastRun> run_in_threads(const ForecastSetup& setup, const ForecastRequest& request) {
  // Batches are independent and gathered in their own order: the same figures come out
  // of any number of threads.
  KeptDraws* const kept = request.seen.empty() ? request.kept : nullptr;
  std::vector<BatchOutcome> batches;
  if (kept != nullptr) {
    batches = kept->take(request.kept_key);
  }
  const std::size_t known = batches_in_common(batches.size(), batch_count(setup));
  batches.resize(known);
  batches.resize(batch_count(setup));
  std::atomic<std::size_t> next = known;
  std::atomic<std::size_t> done = known;
  const auto work = [&](bool reports) {
    for (std::size_t i = next++; i < batches.size() && !request.stop.stop_requested(); i = next++) {
      batches[i] = run_batch(setup, i);
      ++done;
      if (reports && request.progress) {
        request.progress(static_cast<double>(done) / static_cast<double>(batches.size()));
      }
    }
  };
  {
    std::vector<std::jthread> helpers;
    for (unsigned i = 1; i < request.threads; ++i) {
      helpers.emplace_back(work, false);
    }
    work(true);
  }
  if (request.stop.stop_requested()) {
    return {std::nullopt, "The forecast was stopped before it was done."};
  }
  ForecastRun run = gather(batches);
  if (kept != nullptr) {
    kept->keep(request.kept_key, std::move(batches));
  }
  return {std::move(run), ""};
}

Result<ForecastSummary> forecast_recipe(const Tools& tools, const Recipe& recipe,
                                        const ForecastRequest& request) {
  std::string stopped;
  const auto runs = [&](const ForecastSetup& setup) {
    Result<ForecastRun> run = run_in_threads(setup, request);
    stopped = run.problem;
    return std::move(run.value).value_or(ForecastRun{});
  };
  ForecastSummary summary =
      forecast_seen(recipe, request.kitchen, tools.pantry, request.options, request.seen, runs);
  if (!summary.problem.empty() || !stopped.empty()) {
    return {std::nullopt, summary.problem.empty() ? stopped : summary.problem};
  }
  if (request.what_if) {
    summary.what_if =
        rise_what_ifs(recipe, request.kitchen, tools.pantry, request.options, request.rise_minutes);
    if (summary.bake) {
      summary.bake_what_if = bake_what_ifs(
          run_batch(set_up_forecast(recipe, request.kitchen, tools.pantry, request.options), 0));
    }
  }
  return {std::move(summary), ""};
}

Result<Kitchen> read_kitchen(std::string_view json) {
  KitchenDocument document = kitchen_from_json(json);
  if (!document.problems.empty()) {
    return {std::nullopt, sentences(document.problems)};
  }
  return {std::move(document.kitchen), ""};
}

Result<Kitchen> read_kitchen_file(std::string_view json) {
  Result<Kitchen> kitchen = read_kitchen(json);
  const std::vector<Problem> strangers = strangers_in_kitchen(json);
  return strangers.empty() || !kitchen.value ? std::move(kitchen)
                                             : Result<Kitchen>{std::nullopt, sentences(strangers)};
}

std::string pantry_to_json(const Tools& tools, std::string_view word) {
  constexpr std::size_t k_most = 12;
  Json out{{"word", std::string(word)}, {"ingredients", Json::array()}};
  for (const Ingredient* one : tools.pantry.search(word, k_most)) {
    Json entry{{"id", one->id},
               {"name", one->name},
               {"name_us", one->name_us},
               {"kind", std::string(kind_name(one->kind))},
               {"energy_kcal_per_100g", rounded(one->energy_kcal_per_100g)},
               {"source", one->source}};
    Json composition = Json::object();
    for (std::size_t c = 0; c < k_component_count; ++c) {
      composition[std::string(component_name(static_cast<Component>(c)))] =
          rounded(100.0 * one->composition.fraction[c]);
    }
    entry["grams_per_100g"] = std::move(composition);
    entry["allergens"] = one->allergens;
    entry["packings"] = Json::array();
    for (const Packing& packing : tools.pantry.packings(*one)) {
      entry["packings"].push_back({{"packing", packing.name},
                                   {"grams_per_ml", rounded(packing.g_per_ml)},
                                   {"spread_pct", rounded(100.0 * packing.cv)},
                                   {"source", packing.source}});
    }
    if (!one->note.empty()) {
      entry["note"] = one->note;
    }
    out["ingredients"].push_back(std::move(entry));
  }
  return json_text(out);
}

std::string demo_to_json() {
  return json_text(
      {{"name", "pamphlet.txt"}, {"text", std::string(app_data::embedded_table("pamphlet.txt"))}});
}

std::string demo_kitchen_to_json() {
  return std::string(app_data::embedded_table("flat.kitchen.json"));
}

std::string_view version() {
  return MASLIN_VERSION;
}

std::string about_to_json() {
  return json_text({{"name", "maslin"}, {"version", std::string(version())}});
}

}  // namespace maslin
