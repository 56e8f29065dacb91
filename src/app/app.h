// app: one function per thing a person can do; where the computation meets threads.
// The terminal and the page call these and print the same figures.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <stop_token>
#include <string>
#include <string_view>
#include <vector>

#include "forecast/summary.h"
#include "pantry/pantry.h"
#include "reading/reading.h"
#include "recipe/kitchen.h"
#include "recipe/note_words.h"
#include "recipe/recipe.h"

namespace maslin {

/// Everything made once from the embedded tables and shared by all that is asked.
struct Tools {
  Pantry pantry;
  Words words;
  NoteWords note_words;
  Tools();
};

/// An answer, or the one sentence why there is none.
template <typename Value>
struct Result {
  std::optional<Value> value;
  std::string problem;
};

struct ReadRequest {
  std::string text;
  std::string name;    // where it was found; goes with the recipe
  std::string locale;  // empty = infer
};

/// A recipe from found text, or from the JSON document that reading printed.
Result<Recipe> read_recipe(const Tools& tools, const ReadRequest& request);

class KeptDraws;

struct ForecastRequest {
  Kitchen kitchen;
  ForecastOptions options;
  std::vector<Observation> seen;  // what has been observed of this bake so far
  unsigned threads = 2;
  /// Asked to stop, the forecast returns a problem soon after.
  std::stop_token stop;
  /// Told the share that is done, 0..1, from the calling thread; may be empty.
  std::function<void(double)> progress;
  /// Also what the rise would do otherwise; for proves of so many minutes in all, where said.
  bool what_if = false;
  std::optional<double> rise_minutes;
  /// Where draws are kept from a quick forecast to the full one, and under what: all that the
  /// forecast depends on but the number of draws. Not used with anything seen; may be null.
  KeptDraws* kept = nullptr;
  std::string kept_key;
};
/// The draws of a forecast that was set up, on the request's threads.
Result<ForecastRun> run_in_threads(const ForecastSetup& setup, const ForecastRequest& request);
Result<ForecastSummary> forecast_recipe(const Tools& tools, const Recipe& recipe,
                                        const ForecastRequest& request);

/// A kitchen from its JSON document.
Result<Kitchen> read_kitchen(std::string_view json);
/// The same of a file that a person wrote: a field that nobody reads is said, not passed over.
Result<Kitchen> read_kitchen_file(std::string_view json);

/// What is known of the ingredients a word names, as a JSON document.
std::string pantry_to_json(const Tools& tools, std::string_view word);

/// The demo's pamphlet as {"name", "text"}, and its kitchen as a kitchen document.
std::string demo_to_json();
std::string demo_kitchen_to_json();

std::string_view version();
/// {"name", "version"} of this program.
std::string about_to_json();

}  // namespace maslin
