// wasm: the computation for a browser or a card, as plain functions over memory.
//
// The caller writes UTF-8 text into the block that `maslin_text(bytes)` gives, calls a
// function, and reads the answer at `maslin_answer()` for `maslin_answer_bytes()`
// bytes. Every answer is a JSON document; a fault is {"problem": sentence}.
#include <cstddef>
#include <cstdint>
#include <memory>
#include <string>

#include "forecast/forecast.h"
#include "forecast/summary.h"
#include "pantry/pantry.h"
#include "reading/reading.h"
#include "recipe/json.h"
#include "recipe/note_words.h"
#include "recipe/recipe_json.h"

namespace {

using namespace maslin;

/// A WebAssembly module has one caller and no threads: this is its memory between calls.
struct Face {
  Pantry pantry{embedded_pantry_tables()};
  Words words{pantry};
  NoteWords note_words;
  std::string text;
  std::string answer;
};

Face& face() {
  static Face the_face;
  return the_face;
}

void problem(const std::string& words) {
  face().answer = json_text({{"problem", words}});
}

}  // namespace

extern "C" {

char* maslin_text(std::size_t bytes) {
  face().text.assign(bytes, '\0');
  return face().text.data();
}
const char* maslin_answer() {
  return face().answer.data();
}
std::size_t maslin_answer_bytes() {
  return face().answer.size();
}

/// The text as found recipe -> the document of `maslin read --json`.
void maslin_read() {
  const Reading reading = read_text(face().text, face().pantry, face().words, {});
  if (reading.problem) {
    problem(sentence(*reading.problem));
  } else {
    face().answer = recipe_to_json(reading.recipe);
  }
}

/// The text as {"recipe": read document, "kitchen": kitchen document or none,
/// "observations": what was seen so far or none} -> the document of `maslin forecast --json`.
void maslin_forecast(std::uint32_t draws, std::uint32_t seed) {
  const auto document = parse_json(face().text);
  const Json* recipe_json = document ? member(*document, "recipe") : nullptr;
  if (recipe_json == nullptr) {
    problem("The question holds no recipe; give {\"recipe\": ...}.");
    return;
  }
  const RecipeDocument recipe = recipe_from_json(json_text(*recipe_json));
  KitchenDocument kitchen;
  if (const Json* kitchen_json = member(*document, "kitchen")) {
    kitchen = kitchen_from_json(json_text(*kitchen_json));
  }
  if (!recipe.problems.empty() || !kitchen.problems.empty()) {
    problem(sentence((recipe.problems.empty() ? kitchen.problems : recipe.problems).front()));
    return;
  }
  SeenDocument seen;
  if (const Json* observations = member(*document, "observations")) {
    seen = seen_from_json(json_text(*observations), face().note_words);
  }
  if (!seen.problem.empty()) {
    problem(seen.problem);
    return;
  }
  ForecastOptions options;
  options.seed = seed;
  options.draws = draws;
  const ForecastSummary summary =
      forecast_seen(recipe.recipe, kitchen.kitchen, face().pantry, options, seen.observations,
                    [](const ForecastSetup& setup) { return run_forecast(setup); });
  if (summary.problem.empty()) {
    face().answer = summary_to_json(summary);
  } else {
    problem(summary.problem);
  }
}
}
