#include "finish/soak.h"

#include "numerics/clones.h"
#include "properties/solution_activity.h"

namespace maslin {
namespace {

constexpr double k_trace_g = 1e-9;

const SoakingRow* row_for(const FinishTables& tables, std::string_view id) {
  const SoakingRow* any = nullptr;
  for (const SoakingRow& row : tables.soaking) {
    for (const std::string& each : row.ids) {
      if (each == id) {
        return &row;
      }
      if (each == "any") {
        any = &row;
      }
    }
  }
  return any;
}

/// Liquid that fills the gaps between packed dried fruit, g per g: gaps 0.45 of the bed,
/// fruit 1.4 kg/l (from memory). With less than that only a share of the fruit is wet.
constexpr double k_covering_g_per_g = 0.58;

/// g of water taken up per g of fruit, `offered` g per g standing about it.
///
/// Peleg's G = t/(k1 + k2 t) as a rate, (1 - k2 G)^2/k1, times the share of the fruit that
/// the liquid left covers. Runge-Kutta 4; the end is brought forward where all is over.
Lanes uptake_per_g(const SoakingRow& row, const Lanes& offered, const Lanes& pace_hours) {
  constexpr int k_steps = 20;
  const double quickest_per_h =
      max(Lanes(2.0 * row.k2), Lanes(1.0 / k_covering_g_per_g))[0] / row.k1_h;
  const Lanes step = min(pace_hours, 50.0 / quickest_per_h) / static_cast<double>(k_steps);
  const auto rate = [&row, &offered](const Lanes& g) {
    const Lanes open = max(1.0 - row.k2 * g, 0.0);
    const Lanes covered = clamp((offered - g) / k_covering_g_per_g, 0.0, 1.0);
    return open * open * covered / row.k1_h;
  };
  Lanes g = 0.0;
  for (int i = 0; i < k_steps; ++i) {
    const Lanes r1 = rate(g);
    const Lanes r2 = rate(g + 0.5 * step * r1);
    const Lanes r3 = rate(g + 0.5 * step * r2);
    const Lanes r4 = rate(g + step * r3);
    g += step * (r1 + 2.0 * (r2 + r3) + r4) / 6.0;
  }
  return min(g, offered);
}

Lanes sugar_of(const Portions& portions) {
  Lanes total = 0.0;
  for (const Component c : {Component::sucrose, Component::glucose, Component::fructose,
                            Component::lactose, Component::maltose}) {
    total += portions.grams_of(c);
  }
  return total;
}

}  // namespace

MASLIN_ALL_WIDTHS
Soaked soak_fruit(const FinishTables& tables, const Soak& soak, const FinishUnknowns& unknowns) {
  auto fruit = soak.fruit.components();
  const auto liquid = soak.liquid.components();
  const auto water = static_cast<std::size_t>(Component::water);
  const Lanes fruit_activity = dissolved_water_activity(fruit);
  const Lanes liquid_activity = dissolved_water_activity(liquid);
  const Lanes drive =
      clamp((liquid_activity - fruit_activity) / max(1.0 - fruit_activity, 1e-3), 0.0, 1.0);
  // Rate rises by half for each 10 K.
  const Lanes pace = unknowns.soak_factor * drive * pow(1.5, (soak.celsius - 23.0) / 10.0);
  const Lanes hours = max(soak.hours, 0.0);
  const Lanes fruit_g = max(soak.fruit.total_grams(), k_trace_g);
  const Lanes offered = liquid[water] / fruit_g;
  Soaked out;
  out.taken_up_g = 0.0;
  for (const Portions::Item& item : soak.fruit.items) {
    const SoakingRow* row = row_for(tables, item.ingredient->id);
    if (row != nullptr) {
      out.taken_up_g += item.grams * uptake_per_g(*row, offered, pace * hours);
    }
  }
  const Lanes left_over = max(soak.liquid.total_grams() - out.taken_up_g, 0.0);
  // Sugar leaks only while free liquid stands about the fruit.
  const Lanes free_share = left_over / max(soak.liquid.total_grams(), k_trace_g);
  const Lanes sugar = sugar_of(soak.fruit);
  out.leaked_g = min(unknowns.leak_per_hour * hours * fruit_g * free_share, 0.5 * sugar);
  out.left_g = left_over + out.leaked_g;
  out.left_sugar_fraction = (sugar_of(soak.liquid) + out.leaked_g) / max(out.left_g, k_trace_g);
  out.left_sugar_fraction = min(out.left_sugar_fraction, 1.0);
  const Lanes kept = 1.0 - out.leaked_g / max(sugar, k_trace_g);
  for (const Component c : {Component::sucrose, Component::glucose, Component::fructose,
                            Component::lactose, Component::maltose}) {
    fruit[static_cast<std::size_t>(c)] *= kept;
  }
  fruit[water] += out.taken_up_g;
  out.fruit_activity =
      clamp(dissolved_water_activity(fruit) + unknowns.solution_activity_error, 0.0, 1.0);
  out.uptake_g_per_g = out.taken_up_g / fruit_g;
  return out;
}

}  // namespace maslin
