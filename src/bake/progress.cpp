#include "bake/progress.h"

#include "bake/column_flux.h"
#include "numerics/clones.h"

namespace maslin {
namespace {

constexpr double k_walls_open_k = 349.15;
constexpr double k_starch_wakes_k = 318.15;
constexpr double k_fully_set = 20.0;  // integral of the rate: set but for 2e-9

inline Lanes dry_rate(const Lanes& temperature_k) {
  return 42000.0 * exp_short((-64151.0 / 8.31446) / temperature_k);
}

/// What is still wet does not brown: the dried crumb's rate fades as 1 - a^4 of the water
/// activity (own bridge).
inline Lanes browning_rate(const Lanes& temperature_k, const Lanes& water_activity) {
  const Lanes square = water_activity * water_activity;
  return (1.0 - square * square) * dry_rate(temperature_k);
}

inline Lanes starch_rate(const Lanes& temperature_k) {
  return exp_short(42.4761 - (139000.0 / 8.31446) / temperature_k);
}

inline Lanes swelling_of(const ColumnFigures& g, const Lanes& temperature_k) {
  Lanes unused;
  const Lanes t = min(temperature_k, k_walls_open_k);
  const Lanes now = 0.97 * exp_short(log_saturation(t, unused)) * g.inverse_pressure;
  return max(t / (g.first_swelling * max(1.0 - now, 0.1)) - 1.0, 0.0);
}

inline void advance(Lanes& integral, Lanes& rate, const Lanes& new_rate, double step_s) {
  integral += 0.5 * step_s * (rate + new_rate);
  rate = new_rate;
}

}  // namespace

Lanes dry_browning_rate(const Lanes& temperature_k) {
  return dry_rate(temperature_k);
}

Lanes browning_of(const Lanes& temperature_k, const Lanes& water_activity) {
  return browning_rate(temperature_k, water_activity);
}

Lanes gas_swelling(const ColumnFigures& figures, const Lanes& temperature_k) {
  return swelling_of(figures, temperature_k);
}

Lanes starch_setting_rate(const Lanes& temperature_k) {
  return starch_rate(temperature_k);
}

Lanes lightness_of(const Lanes& browning) {
  constexpr double k_raw = 85.0;          // L* of a dough's skin
  constexpr double k_full = 52.0;         // colour difference of the browned
  constexpr double k_of_lightness = 0.9;  // share of it that is lightness (own estimate)
  // What has browned chars in its turn, one step after the other, the second this much slower.
  constexpr double k_slower = 15.0;
  constexpr double k_char = 18.0;  // by how much char is darker still
  const Lanes unbrowned = exp(-browning);
  const Lanes charred =
      1.0 - (k_slower * exp((-1.0 / k_slower) * browning) - unbrowned) * (1.0 / (k_slower - 1.0));
  return k_raw - k_of_lightness * k_full * (1.0 - unbrowned) - k_char * charred;
}

Lanes middle_temperature_k(const CellColumn& column, const ColumnState& state) {
  const Lanes* t = state.temperature.data();
  const std::size_t tip = column.count - 1;
  const std::size_t next = column.before(tip - 1);
  // A parabola through the two innermost means; a steep front is none, so at most 1 K.
  const Lanes below = column.core_extrapolation * max(t[next] - t[tip], 0.0);
  return t[tip] - min(below, 1.0);
}

Progress progress_at_start(const CellColumn& column) {
  Progress out;
  out.starch.assign(column.count, 0.0);
  out.starch_rate.assign(column.count, 0.0);
  out.browning.assign(column.count, 0.0);
  out.browning_rate.assign(column.count, 0.0);
  return out;
}

MASLIN_ALL_WIDTHS
void follow(const CellColumn& column, const ColumnFigures& figures, const Surroundings& around,
            const ColumnState& state, double step_s, BakeDetail detail, Progress& progress,
            BakeMoment& moment) {
  const std::size_t last = column.last;
  const Lanes* t = state.temperature.data();
  const Lanes* x = state.water.data();
  Lanes swelling = 0.0, solids = 0.0;
  Lanes coldest = t[1], coldest_water = x[1];
  Lanes coldest_filling = 1e300;
  Lanes least_set = 1e300;
  const Lanes open_swelling = swelling_of(figures, 400.0);
  for (std::size_t i = 1; i < column.count; ++i) {
    const ColumnFigures& own = figures.at(column, i);
    const bool filling = figures.filling && column.inside(i);
    const bool crumb = &own == &figures;
    // What is long set, or too cold to set, is not worth an exponential.
    if (crumb && any(progress.starch[i] < Lanes(k_fully_set)) &&
        any(t[i] > Lanes(k_starch_wakes_k))) {
      advance(progress.starch[i], progress.starch_rate[i],
              starch_rate(t[i] - figures.starch_delay_k), step_s);
    }
    const bool open = all(t[i] > Lanes(k_walls_open_k));
    const Lanes gas = column.solids_kg[i] * own.gas;
    swelling += gas * (open ? open_swelling : swelling_of(figures, t[i]));
    solids += gas;
    if (filling) {
      coldest_filling = min(coldest_filling, t[i]);
    } else if (crumb) {
      least_set = min(least_set, progress.starch[i]);
      const Mask colder = t[i] < coldest;
      coldest_water = select(colder, x[i], coldest_water);
      coldest = select(colder, t[i], coldest);
    }
    if (detail == BakeDetail::inside && i != last) {
      const Lanes rate =
          own.browning_factor * browning_rate(t[i], cell_water_activity(own, t[i], x[i]));
      advance(progress.browning[i], progress.browning_rate[i], rate, step_s);
    }
  }
  Lanes surface_k;
  const ColumnFigures& top = figures.at(column, last);
  const CellPhysics outer = cell_physics(top, t[last], x[last]);
  open_flux(Meeting{figures, around}, column.open_area_m2, column.open_reach_m, outer, t[last],
            surface_k);
  const Lanes outer_activity = cell_water_activity(top, t[last], x[last]);
  advance(progress.browning[last], progress.browning_rate[last],
          top.browning_factor * top.wash_factor * browning_rate(surface_k, outer_activity), step_s);
  // The skin against the plate stands between plate and first cell.
  const CellPhysics inner = cell_physics(figures, t[1], x[1]);
  const Lanes conduct = column.reach_m[0] * inner.conductivity;
  const Lanes contact = column.base_area_m2 * figures.plate_contact;
  const Lanes base_k = (conduct * t[1] + contact * t[0]) / (conduct + contact);
  advance(
      progress.browning[0], progress.browning_rate[0],
      figures.browning_factor * browning_rate(base_k, cell_water_activity(figures, base_k, x[1])),
      step_s);
  progress.volume_ratio =
      max(progress.volume_ratio, 1.0 + figures.volume_gain * swelling / max(solids, 1e-30));
  const Lanes middle = middle_temperature_k(column, state);
  moment.core_k = figures.filling ? coldest : min(coldest, middle);
  moment.filling_k = figures.filling ? min(coldest_filling, middle) : moment.core_k;
  moment.core_water = coldest_water;
  moment.surface_k = surface_k;
  moment.base_k = base_k;
  moment.lightness = lightness_of(progress.browning[last]);
  moment.base_lightness = lightness_of(progress.browning[0]);
  moment.starch_set = 1.0 - exp(-least_set);
  moment.volume_ratio = progress.volume_ratio;
  // Crust: from the open surface to where water passes 0.3 of the dough's.
  constexpr double k_edge = 0.3;  // of the first water, a topping's of its own
  const Lanes linear = exp((1.0 / 3.0) * log(progress.volume_ratio));
  Lanes crust = 0.0;
  for (std::size_t i = last; i > column.join; --i) {
    const ColumnFigures& own = figures.at(column, i);
    const Lanes wet = x[i] * own.inverse_first_water;
    const Lanes below = x[i - 1] * figures.at(column, i - 1).inverse_first_water;
    // Share of the cell that is dry, water taken as linear between neighbours' middles.
    const Lanes share = clamp((k_edge - wet) / max(abs(below - wet), 1e-6) + 0.5, 0.0, 1.0);
    const Lanes thin = 1.0 - own.crust_shrink * (1.0 - min(wet, 1.0));
    crust += share * thin * column.depth_m[i];
  }
  moment.crust_mm = 1e3 * crust * linear;
}

}  // namespace maslin
