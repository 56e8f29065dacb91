// What follows from temperature and water along the way, without acting back on them
// (but for the volume): browning, starch, spring.
#pragma once

#include <vector>

#include "bake/bake.h"
#include "bake/column.h"

namespace maslin {

/// Temperature at the very middle, K: it lies under the mean of the innermost cell.
Lanes middle_temperature_k(const CellColumn& column, const ColumnState& state);

/// Integrals since loading.
struct Progress {
  std::vector<Lanes> starch;         // per node: set = 1 - exp(-this)
  std::vector<Lanes> starch_rate;    // per node, 1/s, at the last moment
  std::vector<Lanes> browning;       // per node, see lightness_of; 0 is the base, at the plate
  std::vector<Lanes> browning_rate;  // last node: at the surface itself
  Lanes volume_ratio = 1.0;
};
/// Browning of dried crumb, 1/s: the colour difference grows as dE/dt = k (52 - E), k =
/// 42000 exp(-64151 / (R T)); 140 to 250 degrees Celsius. Source: Zanoni, Peri and Bruno
/// 1995, LWT 28:604 (abstract read).
Lanes dry_browning_rate(const Lanes& temperature_k);

/// Starch gelatinising with water enough, 1/s; 50 to 100 degrees Celsius: 2.8e18
/// exp(-139000 / (R T)). Source: Zanoni et al. 1995, J. Food Eng. 24:25 (constants from
/// memory).
Lanes starch_setting_rate(const Lanes& temperature_k);

/// The same in a crust of this water activity, see docs/models/bake.md; 1/s.
Lanes browning_of(const Lanes& temperature_k, const Lanes& water_activity);

/// Swelling of a gas cell full of vapour up to where its wall opens (71 to 81 degrees:
/// Zhang et al. 2025, abstract read; the middle taken), relative to loading.
Lanes gas_swelling(const ColumnFigures& figures, const Lanes& temperature_k);

/// Lightness L* after so much browning (integral of the rate): 85 raw, 38 where all has browned
/// (Zanoni's end), and on to char, near 20. Bread baked between black walls went from 80 to 25 in
/// 30 minutes, between shiny ones to 60 (a study of oven surfaces, excerpt read); how much slower
/// char follows is settled by that, its own end by coal's (from memory).
Lanes lightness_of(const Lanes& browning);

Progress progress_at_start(const CellColumn& column);

/// Advances the integrals over an accepted step (trapezium rule) to `state`, and fills
/// `moment` but for its minutes and weight loss.
void follow(const CellColumn& column, const ColumnFigures& figures, const Surroundings& around,
            const ColumnState& state, double step_s, BakeDetail detail, Progress& progress,
            BakeMoment& moment);

}  // namespace maslin
