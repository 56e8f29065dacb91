#include "forecast/worth_measuring.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "forecast/embedded_table.h"
#include "forecast/likelihood.h"
#include "numerics/draws.h"
#include "quantity/table.h"

namespace maslin {
namespace {

constexpr int k_readings = 16;
/// With fewer, a width read off them comes out too small.
constexpr double k_fewest_draws = 48.0;

std::optional<std::size_t> row_of(const Table& table, std::string_view name) {
  for (std::size_t row = 0; row < table.size(); ++row) {
    const std::string_view of = table.cell(row, "of");
    const bool fits =
        of.ends_with('*') ? name.starts_with(of.substr(0, of.size() - 1)) : name == of;
    if (fits) {
      return row;
    }
  }
  return std::nullopt;
}

/// What the line whose own unknown this is weighs in each draw.
std::optional<std::vector<double>> line_grams(const ForecastSetup& setup, const Ensemble& ensemble,
                                              std::size_t unknown) {
  for (const Bowls::Bowl& bowl : setup.bowls.bowls) {
    for (const LineAmount& line : bowl.lines) {
      const Column* own = ensemble.column(setup.unknowns[unknown].name);
      if (line.own_unknown != unknown || own == nullptr) {
        continue;
      }
      std::vector<double> out = own->values;
      const Column* fill = line.fill_unknown == 0
                               ? nullptr
                               : ensemble.column(setup.unknowns[line.fill_unknown].name);
      for (std::size_t i = 0; fill != nullptr && i < out.size(); ++i) {
        const double own_z = log_same(out[i] / line.grams.a) / line.grams.b;
        out[i] = line.grams.a * exp_same(line.own_sd * own_z + line.fill_sd * fill->values[i]);
      }
      return out;
    }
  }
  return std::nullopt;
}

/// The observation a baker would note, with the time at which one would look.
std::optional<Sighting> noted(const ForecastSetup& setup, const Ensemble& ensemble,
                              const std::vector<SightingError>& errors, std::string_view kind,
                              double share) {
  Observation one;
  one.value = 1.0;  // of no matter: only what is expected is looked at
  if (kind == "volume_in_jar") {
    one.kind = ObservationKind::volume_ratio;
    one.text = "jar";
    one.at_minutes = share * ensemble.band("prove/0/minutes").p50;
  } else if (const auto known = observation_kind_from(kind)) {
    one.kind = *known;
    if (is_of_bake(*known)) {
      one.at_minutes = share * ensemble.band("bake/minutes").p50;
    }
  } else {
    const Column* column = ensemble.column("bake/done/weight_loss_pct");
    for (const SightingError& error : errors) {
      if (column != nullptr && error.kind == kind) {
        return Sighting{column->values, 0, 0, error.sd, error.misread, error.logarithm};
      }
    }
    return std::nullopt;
  }
  return sighting_of(setup, ensemble, errors, one, {});
}

bool is_told_apart(const Sighting& reading) {
  const auto [low, high] = std::minmax_element(reading.expected.begin(), reading.expected.end());
  return low != reading.expected.end() && std::isfinite(*low) && std::isfinite(*high) &&
         *high - *low > reading.sd;
}

}  // namespace

std::vector<CheapMeasurement> cheap_measurements(const ForecastSetup& setup,
                                                 const Ensemble& ensemble) {
  const Table table(forecast_data::embedded_table("measurements.tsv"));
  const std::vector<SightingError> errors = sighting_errors();
  std::vector<CheapMeasurement> out;
  for (std::size_t i = 1; i < setup.unknowns.size(); ++i) {
    const Unknown& unknown = setup.unknowns[i];
    const auto row = unknown.measure.empty() ? std::nullopt : row_of(table, unknown.name);
    const Column* column = ensemble.column(unknown.name);
    if (!row || column == nullptr) {
      continue;
    }
    const std::string_view reads = table.cell(*row, "reads");
    CheapMeasurement one{unknown.measure, {}};
    if (reads == "itself" || reads == "grams") {
      const auto grams = reads == "grams" ? line_grams(setup, ensemble, i) : std::nullopt;
      one.reading.expected = grams.value_or(column->values);
      one.reading.sd = table.number(*row, "sd", 1.0);
      one.reading.logarithm = table.cell(*row, "scale") == "log";
      for (double& value : one.reading.expected) {
        value = one.reading.logarithm ? log_same(std::max(value, 1e-6)) : value;
      }
    } else if (auto reading =
                   noted(setup, ensemble, errors, reads, table.number(*row, "at", 1.0))) {
      one.reading = std::move(*reading);
    }
    if (is_told_apart(one.reading)) {
      out.push_back(std::move(one));
    }
  }
  return out;
}

std::vector<Narrowing> narrowings(const Ensemble& ensemble, const CheapMeasurement& measurement,
                                  const std::vector<OutcomeInOrder>& outcomes) {
  std::vector<Narrowing> out;
  for (const OutcomeInOrder& outcome : outcomes) {
    out.push_back({band_of(outcome.column->values, ensemble.weight, outcome.order).width(), 0.0});
  }
  Sighting reading = measurement.reading;
  const Anywhere misread = anywhere(reading, ensemble.weight);
  const std::vector<std::size_t> by_reading = order_of(reading.expected);
  double passed = 0.0;
  auto next = by_reading.begin();
  for (int k = 0; k < k_readings; ++k) {
    while (next + 1 != by_reading.end() &&
           passed + ensemble.weight[*next] < (k + 0.5) / k_readings) {
      passed += ensemble.weight[*next++];
    }
    const double error = standard_normal_quantile(
        Lanes(draw(name_key(measurement.measure), 1, static_cast<std::uint32_t>(k))))[0];
    reading.low = reading.expected[*next] + reading.sd * error;
    reading.high = reading.low;
    const std::vector<double> likelihoods = log_likelihoods(reading, misread);
    const double power = power_for(ensemble.weight, likelihoods, k_fewest_draws);
    const std::vector<double> weight = weighed(ensemble.weight, likelihoods, power);
    for (std::size_t o = 0; o < outcomes.size(); ++o) {
      out[o].to +=
          band_of(outcomes[o].column->values, weight, outcomes[o].order).width() / k_readings;
    }
  }
  return out;
}

}  // namespace maslin
