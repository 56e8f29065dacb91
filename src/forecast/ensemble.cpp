#include "forecast/ensemble.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace maslin {
namespace {

/// The value below which a share `u` of the weight lies, straight between draws whose
/// weights are taken as centred on them. Draws without weight are none: a value between one of
/// them and its neighbour would be one that nothing speaks for.
double quantile_of(const std::vector<double>& values, const std::vector<double>& weight,
                   const std::vector<std::size_t>& order, double u, double total) {
  double before = 0.0;
  double last_at = 0.0;
  const auto weighty = std::find_if(order.begin(), order.end(),
                                    [&weight](std::size_t i) { return weight[i] > 0.0; });
  double last_value = values[weighty == order.end() ? order.front() : *weighty];
  for (const std::size_t i : order) {
    if (!(weight[i] > 0.0)) {
      continue;
    }
    const double at = (before + 0.5 * weight[i]) / total;
    if (at >= u) {
      // Never (an infinite time) has no value between it and a number.
      const bool straight = at > last_at && std::isfinite(values[i]) && std::isfinite(last_value);
      return straight ? last_value + (values[i] - last_value) * (u - last_at) / (at - last_at)
                      : values[i];
    }
    before += weight[i];
    last_at = at;
    last_value = values[i];
  }
  return last_value;
}

/// The same where all draws weigh alike, as they do until something is observed: only the
/// draws on either side of the level are put in their places, not all of them in order.
double level_of(std::vector<double>& values, double weight, double u, double total) {
  double before = 0.0;
  double last_at = 0.0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    const double at = (before + 0.5 * weight) / total;
    if (at >= u) {
      const auto place = values.begin() + static_cast<std::ptrdiff_t>(i);
      std::nth_element(values.begin(), place, values.end());
      const double value = *place;
      const double last = i == 0 ? value : *std::max_element(values.begin(), place);
      const bool straight = at > last_at && std::isfinite(value) && std::isfinite(last);
      return straight ? last + (value - last) * (u - last_at) / (at - last_at) : value;
    }
    before += weight;
    last_at = at;
  }
  return *std::max_element(values.begin(), values.end());
}

bool alike(const std::vector<double>& weight) {
  return std::all_of(weight.begin(), weight.end(),
                     [&](double one) { return one == weight.front(); });
}

}  // namespace

std::vector<std::size_t> order_of(const std::vector<double>& values) {
  std::vector<std::size_t> order(values.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(), [&values](std::size_t a, std::size_t b) {
    // The index breaks ties, so that equal draws keep one order on every machine.
    return values[a] != values[b] ? values[a] < values[b] : a < b;
  });
  return order;
}

double quantile_of(const std::vector<double>& values, const std::vector<double>& weight,
                   double level) {
  const double total = std::accumulate(weight.begin(), weight.end(), 0.0);
  if (values.empty() || values.size() != weight.size() || !(total > 0)) {
    return 0.0;
  }
  return quantile_of(values, weight, order_of(values), level, total);
}

Band band_of(const std::vector<double>& values, const std::vector<double>& weight) {
  const double total = std::accumulate(weight.begin(), weight.end(), 0.0);
  if (values.empty() || values.size() != weight.size() || !(total > 0)) {
    return {};
  }
  if (alike(weight)) {
    std::vector<double> placed = values;
    return {level_of(placed, weight.front(), 0.1, total),
            level_of(placed, weight.front(), 0.5, total),
            level_of(placed, weight.front(), 0.9, total)};
  }
  return band_of(values, weight, order_of(values));
}

Band band_of(const std::vector<double>& values, const std::vector<double>& weight,
             const std::vector<std::size_t>& order) {
  const double total = std::accumulate(weight.begin(), weight.end(), 0.0);
  if (values.empty() || order.size() != weight.size() || !(total > 0)) {
    return {};
  }
  return {quantile_of(values, weight, order, 0.1, total),
          quantile_of(values, weight, order, 0.5, total),
          quantile_of(values, weight, order, 0.9, total)};
}

std::vector<double> trace_at(const Trace& trace, double minutes) {
  const double last = static_cast<double>(trace.samples.size() - 1);
  const double at = std::clamp(minutes / trace.step_minutes, 0.0, last);
  const auto before = static_cast<std::size_t>(at);
  const std::size_t after = std::min(before + 1, trace.samples.size() - 1);
  const double share = at - static_cast<double>(before);
  std::vector<double> out = trace.samples[before];
  for (std::size_t i = 0; i < out.size(); ++i) {
    out[i] += share * (trace.samples[after][i] - out[i]);
  }
  return out;
}

const Column* Ensemble::column(std::string_view name) const {
  for (const auto* columns : {&outcomes, &unknowns}) {
    for (const Column& one : *columns) {
      if (one.name == name) {
        return &one;
      }
    }
  }
  return nullptr;
}

Band Ensemble::band(const Column& one) const {
  return band_of(one.values, weight);
}

Band Ensemble::band(std::string_view name) const {
  const Column* one = column(name);
  return one == nullptr ? Band{} : band(*one);
}

double Ensemble::mean(const Column& one) const {
  double total = 0.0;
  for (std::size_t i = 0; i < one.values.size(); ++i) {
    total += one.values[i] * weight[i];
  }
  return total;
}

}  // namespace maslin
