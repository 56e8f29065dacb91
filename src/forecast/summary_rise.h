// The rising of a forecast's summary. Private to the folder.
#pragma once

#include <string>
#include <vector>

#include "forecast/summary.h"

namespace maslin {

/// The bands of a trace at its own moments; empty where there is none of that name.
BandTrace trace_of(const Ensemble& e, const std::string& name);

std::vector<PrefermentSummary> preferments_of(const ForecastSetup& setup, const Ensemble& e);
std::vector<ProveSummary> proves_of(const ForecastSetup& setup, const Ensemble& e);

}  // namespace maslin
