// Why a bake of a trial went wrong, and what to do about it.
#pragma once

#include <string>
#include <vector>

#include "app/live.h"
#include "forecast/diagnose.h"

namespace maslin {

struct DiagnosedTrial {
  Trial trial;
  std::vector<Diagnosis> diagnoses;
};
/// The faults named, or where none are, those that the trial's notes name; a bake that was
/// done well before its time counts as one.
Result<DiagnosedTrial> diagnose_trial(const Tools& tools, Store& store, std::int64_t trial,
                                      const std::vector<std::string>& faults,
                                      const LiveOptions& options);

/// docs/schema/diagnosis.schema.json
std::string diagnosed_to_json(const DiagnosedTrial& diagnosed);
std::string diagnosed_report(const DiagnosedTrial& diagnosed);

}  // namespace maslin
