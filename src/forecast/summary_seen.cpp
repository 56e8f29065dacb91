// A forecast with what was seen, from the recipe to the summary.
#include "forecast/summary.h"

namespace maslin {

ForecastSummary forecast_seen(const Recipe& recipe, const Kitchen& kitchen, const Pantry& pantry,
                              const ForecastOptions& options, std::span<const Observation> seen,
                              const RunForecast& runs) {
  ForecastSetup setup = set_up_forecast(recipe, kitchen, pantry, followed(options, seen));
  ForecastRun run = runs(setup);
  Weighing weighing;
  if (!seen.empty() && run.ensemble.draws() > 0) {
    weighing = observe(setup, run, seen, runs);
  }
  ForecastSummary out = summarise(setup, run);
  out.seen = std::move(weighing.fits);
  out.effective_draws = effective_draws(run.ensemble.weight);
  return out;
}

}  // namespace maslin
