// A trial while it is under way: what its notes say of the rest of the bake.
#pragma once

#include <vector>

#include "app/trials.h"
#include "forecast/summary.h"

namespace maslin {

/// Draws and seed of the forecasts of a trial.
struct LiveOptions {
  ForecastOptions forecast;
  unsigned threads = 2;
  std::stop_token stop;
};

/// The observations of the notes that stand, each with the prove it belongs to: the clock
/// knows the step, the step is the first, second or third rise.
std::vector<Observation> observations_of(const TrialView& view);

/// The trial's recipe as it was baked, and its kitchen with what it has learnt.
struct TrialSetting {
  Recipe recipe;
  Kitchen kitchen;
  /// When its dough was begun by its marks, else the trial: minutes of this machine's clock
  /// since midnight.
  std::optional<double> begins_at;
};
Result<TrialSetting> setting_of(Store& store, const Trial& trial);

/// A trial and the forecast weighed by all its notes.
struct LiveTrial {
  TrialView view;
  ForecastSummary forecast;
  std::string problem;  // why there is no forecast; else empty
};
Result<LiveTrial> live_trial(const Tools& tools, Store& store, std::int64_t trial,
                             const LiveOptions& options);

/// A note that was written, and the forecast with it.
struct LiveNote {
  WrittenNote note;
  LiveTrial trial;
};

// The documents: as those of the trial and of the note, with "forecast".
std::string live_trial_to_json(const LiveTrial& live);
std::string live_note_to_json(const LiveNote& live);

/// The new times and ranges, in a few lines.
std::string live_report(const LiveTrial& live);

}  // namespace maslin
