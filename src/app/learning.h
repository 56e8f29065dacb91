// What closed trials teach a kitchen, and taking it back.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "app/live.h"
#include "forecast/lasting.h"
#include "store/lessons.h"

namespace maslin {

/// Ends a trial and teaches its kitchen, both or neither.
Result<ClosedTrial> close_trial(const Tools& tools, Store& store, std::int64_t trial,
                                std::int64_t at_ms, const LiveOptions& options);
/// Goes on with a closed trial; what it taught is taken back until it is closed again.
Result<Trial> reopen_trial(const Tools& tools, Store& store, std::int64_t trial,
                           const LiveOptions& options);

/// What this trial taught its kitchen, in words; nothing before it is closed or once it was
/// taken back.
std::vector<std::string> learnt_of(Store& store, const Trial& trial);

/// A trial with what it taught, as it is looked back on.
Result<TrialView> past_trial(Store& store, std::int64_t trial);

/// One thing a kitchen has learnt, and the trials it was learnt from.
struct LearntFrom {
  LearntThing thing;
  std::vector<std::int64_t> trials;
};
struct LearntKitchen {
  std::string name;
  Kitchen kitchen;  // with what it has learnt
  std::vector<LearntFrom> learnt;
  std::vector<std::int64_t> taught;    // trials, in order
  std::vector<std::int64_t> unlearnt;  // trials that were taken back
};
Result<LearntKitchen> learnt_in_library(Store& store, const std::string& kitchen);

/// The kitchen as if that trial had never taught it: later trials are learnt from anew.
Result<LearntKitchen> unlearn_trial(const Tools& tools, Store& store, const std::string& kitchen,
                                    std::int64_t trial, std::int64_t at_ms,
                                    const LiveOptions& options);

/// What a kitchen knew before, and after: each thing that changed, in words.
std::vector<std::string> learnt_words(const KitchenLessons& before, const KitchenLessons& after,
                                      const Kitchen& kitchen);
/// Whether that moved or narrowed by what can be told; `before` may be null.
bool changed(const LearntThing* before, const LearntThing& after);
const LearntThing* thing_named(const std::vector<LearntThing>& things, const std::string& name);
/// What the kitchen of that name number has learnt by now.
KitchenLessons lessons_in_library(Store& store, std::int64_t kitchen);

/// docs/schema/learnt.schema.json
std::string learnt_to_json(const LearntKitchen& kitchen);
std::string learnt_report(const LearntKitchen& kitchen);

}  // namespace maslin
