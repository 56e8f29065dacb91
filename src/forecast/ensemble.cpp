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

/// A level among draws that weigh alike: the draw at or above it and how far it lies from
/// the one before. Draw i stands at (i + 1/2) / count.
struct Place {
  Place(double u, std::size_t count) {
    const double exact = u * static_cast<double>(count) - 0.5;
    const double above = std::clamp(std::ceil(exact), 0.0, static_cast<double>(count - 1));
    at = static_cast<std::ptrdiff_t>(above);
    share = std::min(exact - (above - 1.0), 1.0);
  }
  std::ptrdiff_t at;
  double share;
};

/// p10, p50 and p90 where all draws weigh alike, as they do until something is observed: only
/// the draws on either side of a level are put in their places, not all of them in order.
Band equal_band(std::vector<double>& values) {
  const Place low(0.1, values.size()), middle(0.5, values.size()), high(0.9, values.size());
  const auto begin = values.begin();
  std::nth_element(begin, begin + middle.at, values.end());
  std::nth_element(begin, begin + low.at, begin + middle.at);
  if (high.at > middle.at) {
    std::nth_element(begin + middle.at + 1, begin + high.at, values.end());
  }
  // Between `from`, which is in its place, and the level lies the draw before it.
  const auto level = [begin](const Place& place, std::ptrdiff_t from) {
    const double value = begin[place.at];
    if (place.at == 0) {
      return value;
    }
    const double last = *std::max_element(begin + std::min(from, place.at - 1), begin + place.at);
    // Never (an infinite time) has no value between it and a number.
    const bool straight = std::isfinite(value) && std::isfinite(last);
    return straight ? last + (value - last) * place.share : value;
  };
  return {level(low, 0), level(middle, low.at), level(high, middle.at)};
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
    return equal_band(placed);
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

const Column* Ensemble::first_outcome(std::string_view head, std::string_view tail) const {
  for (const Column& one : outcomes) {
    if (one.name.starts_with(head) && one.name.ends_with(tail)) {
      return &one;
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
