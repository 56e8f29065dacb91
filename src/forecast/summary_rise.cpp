// What a forecast says of its preferments and proves.
#include "forecast/summary_rise.h"

#include <algorithm>

namespace maslin {
namespace {

/// Moments kept of a trace: enough for a picture, small enough for a phone.
constexpr std::size_t k_most_moments = 96;

}  // namespace

BandTrace trace_of(const Ensemble& ensemble, const std::string& name) {
  BandTrace out;
  for (const Trace& trace : ensemble.traces) {
    if (trace.name != name) {
      continue;
    }
    const std::size_t stride = (trace.samples.size() + k_most_moments - 1) / k_most_moments;
    out.step_minutes = trace.step_minutes * static_cast<double>(std::max<std::size_t>(stride, 1));
    for (std::size_t i = 0; i < trace.samples.size(); i += std::max<std::size_t>(stride, 1)) {
      out.bands.push_back(band_of(trace.samples[i], ensemble.weight));
    }
  }
  return out;
}

namespace {

ProveSummary prove_of(const ForecastSetup& setup, const Ensemble& e, std::size_t i) {
  const PlannedProve& planned = setup.schedule.proves[i];
  const std::string key = "prove/" + std::to_string(i);
  ProveSummary out;
  out.name = planned.name;
  out.target = planned.target;
  out.target_ratio = planned.volume_ratio;
  out.minutes = e.band(key + "/minutes");
  if (const Column* reached = e.column(key + "/reached")) {
    out.chance_reached = e.mean(*reached);
  }
  out.celsius = e.band(key + "/celsius");
  out.stated_minutes = planned.stated_minutes;
  if (const Column* ratio = e.column(key + "/ratio_at_stated")) {
    out.ratio_at_stated = e.band(*ratio);
  }
  out.frost = planned.frost;
  if (const Column* thawed = e.column(key + "/thawed_minutes")) {
    out.thawed_minutes = e.band(*thawed);
  }
  out.volume_ratio = trace_of(e, key + "/volume_ratio");
  out.dough_celsius = trace_of(e, key + "/celsius");
  return out;
}

}  // namespace

std::vector<ProveSummary> proves_of(const ForecastSetup& setup, const Ensemble& e) {
  std::vector<ProveSummary> out;
  for (std::size_t i = 0; i < setup.schedule.proves.size(); ++i) {
    out.push_back(prove_of(setup, e, i));
  }
  return out;
}

std::vector<PrefermentSummary> preferments_of(const ForecastSetup& setup, const Ensemble& e) {
  std::vector<PrefermentSummary> out;
  for (std::size_t i = 0; i < setup.schedule.preferments.size(); ++i) {
    const std::string key = "preferment/" + std::to_string(i);
    if (e.column(key + "/ratio_at_end") == nullptr) {
      continue;
    }
    const PlannedPreferment& planned = setup.schedule.preferments[i];
    PrefermentSummary one;
    one.name = setup.recipe->parts[planned.part].name;
    one.stands_minutes = planned.rest.stated_minutes->middle();
    one.ripe_ratio = planned.rest.volume_ratio;
    one.ripe_minutes = e.band(key + "/ripe_minutes");
    one.ratio_at_end = e.band(key + "/ratio_at_end");
    one.celsius = e.band(key + "/celsius");
    one.ph = e.band(key + "/ph");
    one.acid_mmol_per_100g_flour = e.band(key + "/acid_mmol_per_100g_flour");
    one.sugar_spent_pct = e.band(key + "/sugar_spent_pct");
    one.volume_ratio = trace_of(e, key + "/volume_ratio");
    out.push_back(std::move(one));
  }
  return out;
}

}  // namespace maslin
