#include "handon/household.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace maslin::handon {
namespace {

constexpr double k_largest_spoon_ml = 30.0;
/// More fills of one vessel than this are miscounted: common practice, no source.
constexpr int k_most_fills = 16;
constexpr double k_none = 1e9;

const std::vector<double>& parts_of(const std::string& name, double ml) {
  // A set of cups has a third and a half; a mug or a jar can be marked at its quarters with
  // water; a level spoon is halved and quartered with a knife.
  static const std::vector<double> k_cup{1.0 / 4, 1.0 / 3, 1.0 / 2, 2.0 / 3, 3.0 / 4};
  static const std::vector<double> k_own{1.0 / 4, 1.0 / 2, 3.0 / 4};
  static const std::vector<double> k_spoon{1.0 / 8, 1.0 / 4, 3.0 / 8, 1.0 / 2,
                                           5.0 / 8, 3.0 / 4, 7.0 / 8};
  return ml <= k_largest_spoon_ml ? k_spoon : name == "cup" ? k_cup : k_own;
}

Vessel vessel_of(const std::string& name, double ml) {
  return {name, ml, parts_of(name, ml), ml <= k_largest_spoon_ml};
}

void add_of_place(Means& means, const Pantry& pantry, const std::string& country) {
  for (const char* unit : {"cup", "tbsp", "tsp"}) {
    if (const auto measure = pantry.measure(unit, country)) {
      means.vessels.push_back(vessel_of(unit, measure->ml));
    }
  }
}

/// The trouble of so many of a vessel: each fill, and judging a part of one. An eighth of a
/// spoon is a half of a half of a half.
double effort_of(double count) {
  if (count == 0.0) {
    return 0.0;
  }
  const double whole = std::floor(count);
  const double part = count - whole;
  // In eighths: 0 nothing, 2 a quarter, 4 a half, 6 three quarters; odd ones and thirds between.
  const double eighths = part * 8.0;
  const bool odd = std::fabs(eighths - std::round(eighths)) < 0.01 && std::lround(eighths) % 2 == 1;
  const double judged = part == 0.0 ? 0.0 : part == 0.5 ? 0.8 : odd ? 2.8 : 1.3;
  return whole + judged;
}

/// Counts near `wanted` of a vessel: the whole numbers and parts on either side of it.
std::vector<double> counts_near(const Vessel& vessel, double wanted) {
  std::vector<double> out;
  const double whole = std::floor(wanted);
  if (whole > k_most_fills) {
    return out;
  }
  std::vector<double> steps{0.0};
  steps.insert(steps.end(), vessel.parts.begin(), vessel.parts.end());
  double below = 0.0;
  double above = whole + 1.0;
  for (const double part : steps) {
    const double count = whole + part;
    below = count <= wanted ? std::max(below, count) : below;
    above = count > wanted ? std::min(above, count) : above;
  }
  out.push_back(below);
  out.push_back(above);
  return out;
}

/// Every count of a larger vessel that leaves something for the smaller ones or fills alone.
std::vector<double> counts_up_to(const Vessel& vessel, double wanted) {
  std::vector<double> out{0.0};
  const double most = std::min(wanted * 1.1, static_cast<double>(k_most_fills));
  for (int whole = 0; whole <= static_cast<int>(most); ++whole) {
    if (whole > 0) {
      out.push_back(whole);
    }
    for (const double part : vessel.parts) {
      if (whole + part <= most) {
        out.push_back(whole + part);
      }
    }
  }
  return out;
}

/// The search: the best so far, and what it costs.
struct Search {
  const std::vector<const Vessel*>& vessels;
  const MeasureAsk& ask;
  double best_cost = k_none;
  Combination best;

  /// Ease within the limit; beyond it only nearness counts.
  double cost(double effort, double error_pct) const {
    const double limit = limit_pct(ask.care);
    const double off = std::fabs(error_pct);
    return off <= limit ? effort + 2.5 * off / limit : 1000.0 + off;
  }

  void weigh(const std::vector<double>& counts) {
    double ml = 0.0;
    double effort = 0.0;
    int kinds = 0;
    for (std::size_t i = 0; i < counts.size(); ++i) {
      ml += counts[i] * vessels[i]->ml;
      effort += effort_of(counts[i]);
      kinds += counts[i] > 0.0 ? 1 : 0;
    }
    if (ml <= 0.0) {
      return;
    }
    effort += 1.2 * std::max(0, kinds - 1);
    const double error_pct = 100.0 * (ml - ask.ml) / ask.ml;
    const double now = cost(effort, error_pct);
    if (now < best_cost - 1e-9) {
      best_cost = now;
      best = {{}, ml, error_pct, effort};
      for (std::size_t i = 0; i < counts.size(); ++i) {
        if (counts[i] > 0.0) {
          best.counts.push_back({vessels[i]->name, counts[i], vessels[i]->ml});
        }
      }
    }
  }

  void go_down(std::vector<double>& counts, std::size_t at, double left_ml) {
    const Vessel& vessel = *vessels[at];
    if (at + 1 == vessels.size()) {
      for (const double count : counts_near(vessel, std::max(0.0, left_ml) / vessel.ml)) {
        counts[at] = count;
        weigh(counts);
      }
      counts[at] = 0.0;
      return;
    }
    for (const double count : counts_up_to(vessel, left_ml / vessel.ml)) {
      counts[at] = count;
      go_down(counts, at + 1, left_ml - count * vessel.ml);
    }
    counts[at] = 0.0;
  }
};

}  // namespace

Means means_of(const Kitchen& kitchen, const Pantry& pantry) {
  Means out;
  out.scale = kitchen.scale;
  for (const OwnMeasure& own : kitchen.measures) {
    if (own.ml > 0.0) {
      out.vessels.push_back(vessel_of(own.name.empty() ? "measure" : own.name, own.ml));
    }
  }
  if (out.vessels.empty() && !out.scale) {
    out.from = kitchen.country.empty() ? MeansFrom::assumed : MeansFrom::country;
    add_of_place(out, pantry, kitchen.country);
  }
  std::stable_sort(out.vessels.begin(), out.vessels.end(),
                   [](const Vessel& a, const Vessel& b) { return a.ml > b.ml; });
  return out;
}

double limit_pct(Care care) {
  return care == Care::exact ? k_exact_limit_pct : k_free_limit_pct;
}

Care care_for(const Ingredient& ingredient) {
  constexpr std::array k_exact{
      IngredientKind::flour, IngredientKind::water,      IngredientKind::dairy,
      IngredientKind::juice, IngredientKind::plant_milk, IngredientKind::egg,
      IngredientKind::salt,  IngredientKind::yeast,      IngredientKind::leavening};
  return std::find(k_exact.begin(), k_exact.end(), ingredient.kind) != k_exact.end() ? Care::exact
                                                                                     : Care::free;
}

bool by_spoon_alone(const Ingredient& ingredient) {
  return ingredient.kind == IngredientKind::salt || ingredient.kind == IngredientKind::leavening ||
         ingredient.kind == IngredientKind::spice ||
         (ingredient.kind == IngredientKind::yeast && ingredient.yeast.kind != YeastKind::starter);
}

std::optional<Combination> combination(const std::vector<Vessel>& vessels, const MeasureAsk& ask) {
  std::vector<const Vessel*> usable;
  for (const Vessel& vessel : vessels) {
    // A vessel of which not even its smallest part would be filled is of no use.
    const double least = vessel.parts.empty() ? 1.0 : vessel.parts.front();
    if ((vessel.spoon || !ask.spoons_only) && (vessel.spoon || vessel.ml * least <= 1.1 * ask.ml)) {
      usable.push_back(&vessel);
    }
  }
  if (usable.empty() || !(ask.ml > 0.0)) {
    return std::nullopt;
  }
  std::optional<Combination> best;
  double best_cost = k_none;
  const auto try_set = [&](const std::vector<const Vessel*>& set) {
    Search search{set, ask, k_none, {}};
    std::vector<double> counts(set.size(), 0.0);
    search.go_down(counts, 0, ask.ml);
    if (search.best_cost < best_cost - 1e-9) {
      best_cost = search.best_cost;
      best = std::move(search.best);
    }
  };
  for (std::size_t a = 0; a < usable.size(); ++a) {
    try_set({usable[a]});
    for (std::size_t b = a + 1; b < usable.size(); ++b) {
      try_set({usable[a], usable[b]});
      for (std::size_t c = b + 1; c < usable.size(); ++c) {
        try_set({usable[a], usable[b], usable[c]});
      }
    }
  }
  return best;
}

std::optional<Dilution> dilution(const Vessel& spoon, double g_per_ml, double added_ml_per_g,
                                 double grams, double most_g_per_ml) {
  constexpr double k_near_pct = 3.0;
  constexpr int k_most_water = 12;
  std::optional<Dilution> best;
  double best_effort = k_none;
  for (int solid = 1; solid <= 2; ++solid) {
    const double solid_g = solid * spoon.ml * g_per_ml;
    for (int water = 3; water <= k_most_water; ++water) {
      const double whole_ml = water * spoon.ml + solid_g * added_ml_per_g;
      if (solid_g > most_g_per_ml * water * spoon.ml) {
        continue;
      }
      for (int halves = 2; halves <= 2 * water; ++halves) {
        const double take = halves / 2.0;
        const double held_g = solid_g * take * spoon.ml / whole_ml;
        const double error_pct = 100.0 * (held_g - grams) / grams;
        const double effort = solid + water + effort_of(take) + std::fabs(error_pct) / k_near_pct;
        if (std::fabs(error_pct) <= k_near_pct && effort < best_effort) {
          best_effort = effort;
          best = {static_cast<double>(solid), static_cast<double>(water), take, error_pct};
        }
      }
    }
  }
  return best;
}

std::optional<HouseholdAmount> measured(const Means& means, const Pantry& pantry,
                                        const Ingredient& ingredient, const std::string& packing,
                                        double grams) {
  const std::string wanted = packing.empty() || packing == "heaped" ? "level" : packing;
  const auto filled = pantry.packing(ingredient, wanted);
  if (!filled || filled->g_per_ml <= 0.0) {
    return std::nullopt;
  }
  const MeasureAsk ask{grams / filled->g_per_ml, care_for(ingredient), by_spoon_alone(ingredient)};
  const auto found = combination(means.vessels, ask);
  if (!found) {
    return std::nullopt;
  }
  HouseholdAmount out;
  out.way = AmountWay::measures;
  out.counts = found->counts;
  out.packing = filled->name == k_unstated_packing || filled->name == k_unstated_spoon_packing
                    ? "level"
                    : filled->name;
  out.grams = found->ml * filled->g_per_ml;
  out.error_pct = found->error_pct;
  out.spread_pct = 100.0 * filled->cv;
  return out;
}

}  // namespace maslin::handon
