// The engine inside a living card: the same computation as the program's, with a pantry of
// the card's own rows instead of the embedded one. A forecast is run in pieces, so that the
// page can draw between them.
#include <algorithm>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "forecast/forecast.h"
#include "forecast/summary.h"
#include "handon/card_text.h"
#include "handon/handon.h"
#include "pantry/pantry.h"
#include "plan/plan.h"
#include "recipe/json.h"
#include "recipe/note_words.h"
#include "recipe/observation.h"
#include "recipe/recipe_json.h"
#include "wasm/talk.h"

namespace {

using namespace maslin;
using namespace maslin::wasm;

/// A forecast on its way. The setup points into the recipe, so neither moves.
struct Running {
  std::string of;  // the recipe and the kitchen that it forecasts, as documents
  Recipe recipe;
  ForecastSetup setup;
  std::vector<BatchOutcome> batches;
  std::optional<ForecastRun> run;  // of all batches
};

/// The recipe where it works: the same for every kitchen that a card is asked for.
struct AtHome {
  std::string of;  // the question it answers
  handon::Figures figures;
};

/// Settings are tried with few draws: a phone does it after every tap.
constexpr std::uint32_t k_settle_draws = 16;

/// What the engine keeps between calls.
struct Engine {
  Json tables;  // the texts the pantry was made from
  std::unique_ptr<Pantry> pantry;
  NoteWords note_words;
  std::unique_ptr<Running> running;
  std::optional<AtHome> at_home;
};

Engine& engine() {
  static Engine the_engine;
  return the_engine;
}

struct Question {
  Recipe recipe;
  Kitchen kitchen;
  Kitchen home;
  std::string language;
};

bool kitchen_at(const Json& document, const char* key, Kitchen& out) {
  const Json* kitchen = member(document, key);
  if (kitchen == nullptr) {
    return true;
  }
  KitchenDocument read = kitchen_from_json(json_text(*kitchen));
  if (!read.problems.empty()) {
    answer_problem(sentence(read.problems.front()));
    return false;
  }
  out = std::move(read.kitchen);
  return true;
}

/// The text as {"recipe", "kitchen", "home", "language"}; nothing, and a problem said, when
/// it is none.
std::optional<Question> question() {
  const auto document = parse_json(talk().text);
  const Json* recipe_json = document ? member(*document, "recipe") : nullptr;
  if (recipe_json == nullptr || engine().pantry == nullptr) {
    answer_problem("The question holds no recipe, or the card its pantry not yet.");
    return std::nullopt;
  }
  RecipeDocument recipe = recipe_from_json(json_text(*recipe_json));
  if (!recipe.problems.empty()) {
    answer_problem(sentence(recipe.problems.front()));
    return std::nullopt;
  }
  Question out;
  out.recipe = std::move(recipe.recipe);
  out.language = text_at(*document, "language");
  if (!kitchen_at(*document, "kitchen", out.kitchen) || !kitchen_at(*document, "home", out.home)) {
    return std::nullopt;
  }
  return out;
}

std::string named(const Recipe& recipe, const Kitchen& kitchen) {
  return recipe_to_json(recipe) + kitchen_to_json(kitchen);
}

/// The draws of a forecast that something was seen of: those run last, when they are the same.
ForecastRun run_or_known(const ForecastSetup& setup, const std::string& of) {
  const Running* known = engine().running.get();
  if (known == nullptr || !known->run || setup.aim || known->of != of) {
    return run_forecast(setup);
  }
  const ForecastOptions& had = known->setup.options;
  const ForecastOptions& has = setup.options;
  const bool same = had.seed == has.seed && had.draws == has.draws && had.reach == has.reach &&
                    had.prove_minutes_at_least == has.prove_minutes_at_least &&
                    had.bake_minutes_at_least == has.bake_minutes_at_least;
  return same ? *known->run : run_forecast(setup);
}

handon::Figures figures_at_home(const Recipe& recipe, const handon::CarryRequest& request) {
  std::optional<AtHome>& known = engine().at_home;
  const std::string asked = named(recipe, request.from) + std::to_string(request.forecast.draws) +
                            "/" + std::to_string(request.forecast.seed);
  if (!known || known->of != asked) {
    known = AtHome{asked, handon::figures_at_home(recipe, *engine().pantry, request)};
  }
  return known->figures;
}

}  // namespace

extern "C" {

/// The text as {"ingredients": table, "densities": table, ...}: the card's own pantry.
void maslin_card_tables() {
  Engine& here = engine();
  here.tables = parse_json(talk().text).value_or(Json::object());
  const auto table = [&here](const char* name) -> std::string_view {
    const Json* text = member(here.tables, name);
    return text != nullptr && text->is_string()
               ? std::string_view(text->get_ref<const std::string&>())
               : std::string_view();
  };
  here.pantry = std::make_unique<Pantry>(
      PantryTables{table("ingredients"), table("flours"), table("yeasts"), table("densities"),
                   table("portions"), table("measures"), table("ovens"), table("fillings"),
                   table("heaps"), table("locales"), table("pieces")});
  talk().answer = json_text({{"ingredients", here.pantry->ingredients().size()}});
}

/// The text as a baker's note -> {"observations", "unread"}.
void maslin_card_note() {
  const NoteReading reading = read_note(talk().text, engine().note_words);
  talk().answer =
      json_text({{"observations",
                  parse_json(observations_to_json(reading.observations)).value_or(Json::array())},
                 {"unread", reading.unread}});
}

/// The recipe for the kitchen, in its measures: docs/schema/hand_on.schema.json.
void maslin_card_carry(std::uint32_t draws, std::uint32_t seed) {
  const auto asked = question();
  if (!asked) {
    return;
  }
  handon::CarryRequest request;
  request.to = asked->kitchen;
  request.from = asked->home;
  request.language = asked->language;
  request.forecast = {seed, draws};
  request.compared = false;  // a card shows this kitchen alone
  request.settle_draws = k_settle_draws;
  request.at_home = figures_at_home(asked->recipe, request);
  const handon::Card card = handon::carry(asked->recipe, *engine().pantry, request);
  if (card.problem.empty()) {
    talk().answer = handon::card_to_json(card);
  } else {
    answer_problem(card.problem);
  }
}

/// Begins a forecast of the recipe in the kitchen -> {"batches": how many}.
void maslin_card_begin(std::uint32_t draws, std::uint32_t seed) {
  auto asked = question();
  if (!asked) {
    return;
  }
  auto running = std::make_unique<Running>();
  running->of = named(asked->recipe, asked->kitchen);
  running->recipe = std::move(asked->recipe);
  running->setup =
      set_up_forecast(running->recipe, asked->kitchen, *engine().pantry, {seed, draws});
  if (!running->setup.problem.empty()) {
    answer_problem(running->setup.problem);
    return;
  }
  engine().running = std::move(running);
  talk().answer = json_text({{"batches", batch_count(engine().running->setup)}});
}

/// Runs up to so many batches more; answers how many are left.
std::uint32_t maslin_card_run(std::uint32_t most) {
  Running* running = engine().running.get();
  if (running == nullptr) {
    return 0;
  }
  const std::size_t all = batch_count(running->setup);
  const std::size_t until = std::min(all, running->batches.size() + most);
  for (std::size_t batch = running->batches.size(); batch < until; ++batch) {
    running->batches.push_back(run_batch(running->setup, batch));
  }
  return static_cast<std::uint32_t>(all - until);
}

/// The document of `maslin forecast --json` from the batches that were run.
void maslin_card_forecast() {
  Running* running = engine().running.get();
  if (running == nullptr || running->batches.empty()) {
    answer_problem("No forecast was begun.");
    return;
  }
  running->run = gather(running->batches);
  talk().answer = summary_to_json(summarise(running->setup, *running->run));
}

/// The day of the forecast that was run last, begun at `now` (minutes on the kitchen's clock since
/// 1970-01-01T00:00 there): the document of `maslin plan --json` without other ways through the
/// day, each of which would ask for a forecast of its own.
void maslin_card_day(double now) {
  const Running* running = engine().running.get();
  if (running == nullptr || !running->run) {
    answer_problem("No forecast was run, and a day is planned from one.");
    return;
  }
  PlanRequest request;
  request.now = now;
  DayPlan plan = plan_day(day_of(running->setup, running->run->ensemble), request);
  plan.title = running->recipe.title;
  plan.seed = running->setup.options.seed;
  if (plan.problem.empty()) {
    talk().answer = plan_to_json(plan);
  } else {
    answer_problem(plan.problem);
  }
}

/// The text as {"recipe", "kitchen", "observations"} -> the same document, its draws weighed
/// by what was seen; in one go.
void maslin_card_seen(std::uint32_t draws, std::uint32_t seed) {
  const auto asked = question();
  if (!asked) {
    return;
  }
  const auto document = parse_json(talk().text);
  const Json* observations = member(*document, "observations");
  const std::vector<Observation> seen =
      observations_from_json(observations != nullptr ? json_text(*observations) : "[]");
  const std::string of = named(asked->recipe, asked->kitchen);
  const ForecastSummary summary =
      forecast_seen(asked->recipe, asked->kitchen, *engine().pantry, {seed, draws}, seen,
                    [&of](const ForecastSetup& setup) { return run_or_known(setup, of); });
  if (summary.problem.empty()) {
    talk().answer = summary_to_json(summary);
  } else {
    answer_problem(summary.problem);
  }
}
}
