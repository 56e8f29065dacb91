// A forecast: the recipe in this kitchen, drawn a thousand times through the physics.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "bake/bake.h"
#include "forecast/bowl.h"
#include "forecast/ensemble.h"
#include "forecast/model_unknowns.h"
#include "forecast/schedule.h"
#include "forecast/scores.h"
#include "forecast/yeast_bath.h"
#include "pantry/pantry.h"
#include "recipe/kitchen.h"
#include "recipe/recipe.h"
#include "recipe/room_day.h"

namespace maslin {

/// How far the draws are followed: to the end, or only until the dough has risen, which
/// takes a tenth of the time.
enum class ForecastReach : std::uint8_t { whole, rise };

struct ForecastOptions {
  std::uint64_t seed = 1;
  std::uint32_t draws = 1024;  // rounded up to a multiple of 8; 8 to 65 536
  ForecastReach reach = ForecastReach::whole;
  /// Proves and the bake are followed at least so long, for what was seen late.
  double prove_minutes_at_least = 0.0;
  double bake_minutes_at_least = 0.0;
  /// Whether what the recipe says of its bake counts as one more sighting, of another kitchen.
  bool heed_stated_minutes = true;
  /// Whether the summary also says which measurements would narrow it: a quick look may do without.
  bool worth_measuring = true;
  /// When the dough is mixed, minutes of the kitchen's clock since a midnight, which matters
  /// where a room changes through the day. None: at 9, or at 21 what stands on the table for
  /// a night.
  std::optional<double> begins_at = std::nullopt;
  /// By how many minutes each prove begins later than at the dough's own pace: the work between,
  /// or a night without hands. What is not told is 0.
  std::vector<double> prove_waits = {};
};

/// Everything that does not change from draw to draw.
struct ForecastSetup {
  const Recipe* recipe = nullptr;
  Kitchen kitchen;
  ForecastOptions options;
  Bowls bowls;
  Schedule schedule;
  std::optional<YeastBath> bath;
  RoomDay room;            // how the room changes through the day
  double begins_at = 0.0;  // when the dough is mixed, minutes of the clock
  Models models;
  std::vector<Unknown> unknowns;  // amounts first, then those of the models
  std::size_t first_model_unknown = 0;
  std::vector<std::uint32_t> order;  // of the draws, by batches: draw_order
  Scores scores;                     // of the unknowns, with what the kitchen has learnt
  std::optional<Aim> aim;            // where to draw, once something was seen
  double score_to_mix_to = 6.5;      // the feel at which no more flour is added
  std::vector<Doubt> doubts;
  std::string problem;  // one sentence when nothing can be forecast; else empty
};

/// Prepares a forecast. The recipe must outlive the setup; a recipe without anything
/// that can be weighed gives a problem.
ForecastSetup set_up_forecast(const Recipe& recipe, const Kitchen& kitchen, const Pantry& pantry,
                              const ForecastOptions& options);

/// Batches of eight draws in the forecast; each can run anywhere, in any order.
std::size_t batch_count(const ForecastSetup& setup);

/// The draws of one of them. Where draws are aimed they stand as they come: of each eight batches
/// one is drawn from everywhere, and must be as mixed as the others.
DrawIndices draws_in(const ForecastSetup& setup, std::size_t batch);

/// A caution of the finishing and keeping models, with the share of draws it applies in.
struct DrawnCaution {
  std::string id;
  std::string about;
  std::string text;
  std::vector<double> applies;  // 0 to 1, one per draw
};

/// What eight draws put into the oven, and when each was done.
struct DrawnBake {
  Piece piece;
  Oven oven;
  BakeUnknowns unknowns;
  DoneRule rule;
  Lanes minutes_to_done = 0.0;
};

/// What eight draws gave: the columns and traces of an ensemble, as lanes.
struct BatchColumn {
  std::string name;
  std::string unit;
  Lanes values;
};
struct BatchTrace {
  std::string name;
  std::string unit;
  double step_minutes = 0.0;
  std::vector<Lanes> samples;
};
struct BatchOutcome {
  std::vector<BatchColumn> unknowns;
  std::vector<BatchColumn> outcomes;
  std::vector<BatchTrace> traces;
  Lanes log_weight = 0.0;             // of each draw, before anything was seen
  std::vector<Lanes> flour_needed_g;  // to the middle of the wanted feel
  std::vector<DrawnCaution> cautions;
  std::vector<std::string> problems;  // sentences from the models
  std::vector<BakeCut> cuts;      // of the first batch alone: its eight draws are enough to show
  std::optional<DrawnBake> bake;  // likewise; nothing where no oven is asked for
};
BatchOutcome run_batch(const ForecastSetup& setup, std::size_t batch);

/// The batches side by side, in order; weights are equal unless the draws were aimed.
struct ForecastRun {
  Ensemble ensemble;
  std::vector<Lanes> flour_needed_g;
  std::vector<DrawnCaution> cautions;
  std::vector<std::string> problems;  // each once
  std::vector<BakeCut> cuts;          // of the first eight draws
};
ForecastRun gather(std::span<const BatchOutcome> batches);

/// Set-up, batches and gathering in one go, on the calling thread.
ForecastRun run_forecast(const ForecastSetup& setup);

}  // namespace maslin
