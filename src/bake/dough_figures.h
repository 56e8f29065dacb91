// What the bake needs to know of a dough, from what is in the bowl.
#pragma once

#include "numerics/lanes.h"
#include "properties/portion.h"
#include "properties/water_activity.h"

namespace maslin {

/// A dough as the oven sees it. Shares are of the dough's mass unless said.
struct DoughFigures {
  Lanes water_share = 0.42;
  Lanes solids_share = 0.58;              // everything but water and alcohol
  Lanes solids_heat_j_per_kg_k = 1700.0;  // heat capacity of the dry solids near 60 degrees
  Lanes density_kg_per_m3 = 1220.0;       // without pores, near 60 degrees
  Lanes conductivity_w_per_m_k = 0.42;    // without pores, near 60 degrees
  Lanes sugar_pct_solids = 2.0;           // all sugars, per 100 of dry solids
  Lanes protein_pct_solids = 13.0;
  Lanes fat_pct_solids = 2.0;
  Binding binding;

  /// Water per dry solids, kg/kg.
  Lanes water_per_solids() const { return water_share / solids_share; }
};

/// Figures of a bowl; one without mass gives the defaults of a lean wheat dough.
/// Heat capacity, density and conductivity by component at 60 degrees Celsius;
/// conductivity the mean of along and across the layers.
DoughFigures dough_figures(const Portions& portions);

}  // namespace maslin
