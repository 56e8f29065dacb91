// What a forecast says, in numbers and words: read off the ensemble once, then written
// as JSON, printed in the terminal or drawn on the page.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "dough/hold_back.h"
#include "forecast/bake_what_if.h"
#include "forecast/ensemble.h"
#include "forecast/forecast.h"
#include "forecast/observe.h"
#include "forecast/rise_what_if.h"

namespace maslin {

/// Shares of the draws by name, largest first.
using Shares = std::vector<std::pair<std::string, double>>;

/// Bands of a trace at even moments.
struct BandTrace {
  double step_minutes = 0.0;
  std::vector<Band> bands;
};

/// How warm the liquid is to be for a dough of k_wanted_dough_celsius.
struct LiquidWarmth {
  Band celsius;
  Band ice_grams;  // in place of so much of it, where a fridge is not cold enough
};

struct DoughSummary {
  Band total_grams;
  Band flour_grams;
  std::vector<std::pair<std::string, Band>> bakers_pct;  // by ingredient id
  Band water_pct_flour;
  Band effective_hydration;
  Band absorption_pct;
  Band feel_score;
  Shares feel;
  std::string feel_words;
  std::optional<HoldBack> hold_back;         // of the flour, with all the liquid in
  std::optional<HoldBack> hold_back_liquid;  // or of the liquid, with all the flour in
  Band sugar_pct_flour;
  Band fat_pct_flour;
  Band salt_pct_flour;
  Band egg_pct_flour;
  Band yeast_pct_flour;  // as instant dry yeast
  Band water_activity;
  Band ph;
  Band celsius;
  std::optional<LiquidWarmth> liquid;  // of what is poured; none where nothing is
  Band volume_ml;
};

struct ProveSummary {
  std::string name;
  std::string target;
  double target_ratio = 2.0;
  Band minutes;
  double chance_reached = 1.0;
  Band celsius;  // of the dough at the end
  std::optional<Range> stated_minutes;
  std::optional<Band> ratio_at_stated;
  Frost frost = Frost::none;
  std::optional<Band> thawed_minutes;  // of what came out of the freezer
  BandTrace volume_ratio;
  BandTrace dough_celsius;
};

/// A part that rises before it goes into the dough.
struct PrefermentSummary {
  std::string name;
  double stands_minutes = 0.0;
  double ripe_ratio = 2.5;  // the volume at which it is ripe
  Band ripe_minutes;        // until then; infinite where it never gets there
  Band ratio_at_end;        // when it is used
  Band celsius;
  Band ph;
  Band acid_mmol_per_100g_flour;  // that bacteria made
  Band sugar_spent_pct;           // of what it has and will have of sugars
  BandTrace volume_ratio;
};

struct BakeMomentSummary {
  Band core_celsius;
  Band surface_celsius;
  Band weight_loss_pct;
  Band lightness;
  Band crust_mm;
  Shares crust;
};

struct BakeSummary {
  double pieces = 1.0;
  std::string shape;
  double setting_celsius = 190.0;
  Band minutes;
  BakeMomentSummary done;
  std::optional<double> stated_minutes;
  std::optional<BakeMomentSummary> stated;
  BandTrace core_celsius;
  BandTrace surface_celsius;
  std::vector<double> cut_minutes;
  std::vector<BakeProfile> cuts;  // the inside of one middling draw at each of cut_minutes
};

/// A glaze, a filling, a soak, the cooling, or how long a part keeps.
struct FinishSummary {
  std::string what;
  std::string part;
  std::vector<std::pair<std::string, Band>> figures;  // names carry their unit
  Shares term;  // of a glaze: wash, run, drizzle, coat, line, stiff
  Shares term_on_warm_piece;
};

/// One cheap measurement and what it would do.
struct NarrowBy {
  std::string measure;  // "put a thermometer in the oven"
  std::string narrows;  // "minutes in the oven"
  std::string unit;
  double from = 0.0;  // width p10..p90 now
  double to = 0.0;    // expected width once it is measured
};

struct Caution {
  std::string about;
  std::string text;
  std::string source;
  std::string id;    // of its row: "oven:pot", "raw_egg", "allergens"
  std::string what;  // the part it speaks of, or the allergens, as they stand in the text
};

struct ForecastSummary {
  std::string title;
  std::string problem;  // one sentence when nothing could be forecast
  std::uint32_t draws = 0;
  std::uint64_t seed = 0;
  std::optional<DoughSummary> dough;
  std::vector<PrefermentSummary> preferments;
  std::vector<ProveSummary> proves;
  /// Where the room changes through the day: when the dough was taken to be mixed, minutes
  /// since midnight.
  std::optional<double> counted_from;
  std::optional<BakeSummary> bake;
  std::vector<FinishSummary> finish;
  std::vector<FinishSummary> keeping;  // by part; the whole piece has no part
  std::vector<std::string> problems;   // what the models could not do, and the mend
  std::vector<NarrowBy> narrow_by;
  std::vector<Caution> cautions;
  std::vector<Doubt> doubts;
  std::vector<SeenFit> seen;     // what was observed, and how it stands to the forecast before
  double effective_draws = 0.0;  // so many equal draws would tell as much
  std::optional<RiseWhatIfs> what_if;       // when it was asked for
  std::optional<BakeWhatIfs> bake_what_if;  // likewise, where there is an oven
};

ForecastSummary summarise(const ForecastSetup& setup, const ForecastRun& run);

/// Set-up, draws, weights by what was seen, and the summary, in one go; `runs` does the
/// physics. Draws that come back fewer than asked for were stopped: a problem says so.
ForecastSummary forecast_seen(const Recipe& recipe, const Kitchen& kitchen, const Pantry& pantry,
                              const ForecastOptions& options, std::span<const Observation> seen,
                              const RunForecast& runs);

/// The document of `maslin forecast --json` (docs/schema/forecast.schema.json).
std::string summary_to_json(const ForecastSummary& summary);

}  // namespace maslin
