#include "forecast/seen_glaze.h"

#include "finish/glaze.h"

namespace maslin {
namespace {

/// Eight values of a column from `first` on, or of what the kitchen says.
void take(const Ensemble& ensemble, const std::string& name, std::size_t first, Lanes& to) {
  const Column* column = ensemble.column(name);
  for (std::size_t i = 0; column != nullptr && i < k_lane_count; ++i) {
    to.set(i, column->values[first + i]);
  }
}

FinishUnknowns unknowns_at(const ForecastSetup& setup, const Ensemble& ensemble,
                           std::size_t first) {
  FinishUnknowns out;
  for (const FinishUnknownRow& row : setup.models.finish_unknowns) {
    take(ensemble, "finish/" + row.name, first, out.*(row.place));
  }
  take(ensemble, "room_celsius", first, out.room_celsius);
  return out;
}

/// The first glaze's own lines at the middle of their amounts.
std::optional<Portions> middling_glaze(const Bowls& bowls) {
  BatchDraws middle;
  for (const Unknown& one : bowls.unknowns) {
    middle.emplace_back(one.prior.p50());
  }
  const std::vector<FilledBowl> filled = fill_bowls(bowls, middle);
  for (std::size_t i = 0; i < filled.size(); ++i) {
    if (bowls.bowls[i].kind == PartKind::glaze && !filled[i].portions.items.empty()) {
      return filled[i].portions;
    }
  }
  return std::nullopt;
}

std::optional<std::vector<double>> as_written(const Ensemble& ensemble) {
  const Column* one = ensemble.first_outcome("finish/glaze/", "/viscosity_pa_s");
  return one != nullptr ? std::optional(one->values) : std::nullopt;
}

}  // namespace

std::optional<std::vector<double>> glaze_pa_s(const ForecastSetup& setup, const Ensemble& ensemble,
                                              double liquid_per_100_g) {
  if (!(liquid_per_100_g > 0.0)) {
    return as_written(ensemble);
  }
  const auto portions = middling_glaze(setup.bowls);
  if (!portions || ensemble.draws() % k_lane_count != 0) {
    return std::nullopt;
  }
  std::vector<double> out;
  for (std::size_t first = 0; first < ensemble.draws(); first += k_lane_count) {
    const FinishUnknowns unknowns = unknowns_at(setup, ensemble, first);
    const GlazeHalves halves = glaze_halves(*portions, unknowns);
    const Lanes dry = halves.dry.total_g();
    const Lanes wet = halves.wet.total_g();
    if (!(dry[0] > 0.0) || !(wet[0] > 0.0)) {
      return std::nullopt;
    }
    const GlazeMix mix = halves.dry * (100.0 / dry) + halves.wet * (liquid_per_100_g / wet);
    const Lanes viscosity = glaze_state(mix, unknowns.room_celsius, unknowns).viscosity_pa_s;
    for (std::size_t i = 0; i < k_lane_count; ++i) {
      out.push_back(viscosity[i]);
    }
  }
  return out;
}

}  // namespace maslin
