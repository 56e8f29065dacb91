#include "pantry/filling.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "quantity/table.h"

namespace maslin {
namespace {

constexpr std::array<std::string_view, 5> k_ways{"sifted", "level", "scooped", "packed", "loose"};

const Packing* named(const std::vector<Packing>& known, std::string_view name) {
  for (const Packing& packing : known) {
    if (packing.name == name) {
      return &packing;
    }
  }
  return nullptr;
}

struct Mixture {
  double share = 0.0;
  double first = 0.0;   // sum of share x density
  double second = 0.0;  // sum of share x mean square of the density

  void add(const Packing& packing, double part) {
    const double g = packing.g_per_ml;
    share += part;
    first += part * g;
    second += part * g * g * (1.0 + packing.cv * packing.cv);
  }
};

}  // namespace

std::vector<Filling> fillings_from(std::string_view table) {
  const Table rows(table);
  std::vector<Filling> out;
  for (std::size_t row = 0; row < rows.size(); ++row) {
    Filling filling;
    filling.of = rows.cell(row, "id");
    filling.spoon = rows.cell(row, "measure") == "spoon";
    for (const std::string_view way : k_ways) {
      if (const double share = rows.number(row, way); share > 0.0) {
        filling.ways.push_back({std::string(way), share});
      }
    }
    filling.spread = rows.number(row, "spread");
    filling.source = rows.cell(row, "source");
    out.push_back(std::move(filling));
  }
  return out;
}

std::optional<Packing> expected_packing(const Filling& filling, const std::vector<Packing>& known) {
  Mixture mixture;
  for (const Filling::Way& way : filling.ways) {
    if (const Packing* packing = named(known, way.packing)) {
      mixture.add(*packing, way.share);
    }
  }
  if (mixture.share <= 0.0) {
    if (known.empty()) {
      return std::nullopt;
    }
    mixture.add(known.front(), 1.0);
  }
  const double mean = mixture.first / mixture.share;
  const double mixed_cv2 = mixture.second / mixture.share / (mean * mean) - 1.0;
  const double cv2 = std::max(0.0, mixed_cv2) + filling.spread * filling.spread;
  // The mean of a lognormal stands sqrt(1 + cv^2) above its median.
  return Packing{std::string(filling.spoon ? k_unstated_spoon_packing : k_unstated_packing),
                 mean / std::sqrt(1.0 + cv2), std::sqrt(cv2), filling.source};
}

}  // namespace maslin
