// What a finish depends on and nobody knows exactly.
#pragma once

#include <string>
#include <vector>

#include "numerics/lanes.h"
#include "quantity/distribution.h"

namespace maslin {

/// One draw of each in every lane; the defaults are the medians of
/// data/finish_unknowns.tsv, where each has its spread and its source.
struct FinishUnknowns {
  Lanes room_celsius = 21.0;
  Lanes humidity_pct = 55.0;  // relative, of the room
  Lanes altitude_m = 0.0;
  Lanes fridge_celsius = 5.0;
  Lanes packing_limit = 0.68;       // volume fraction at which icing sugar jams
  Lanes intrinsic_viscosity = 2.7;  // of its grains
  Lanes yield_scale_pa = 5.0;
  Lanes juice_solids_factor = 1.0;  // this fruit's sugars against its table value
  Lanes pulp_thickening = 1.25;     // of a juice's viscosity, by its pulp
  Lanes simple_sugar_claim = 0.5;   // g sucrose kept out of solution by 1 g glucose or fructose
  Lanes cooling_w_m2_k = 14.0;      // on a rack in still air
  Lanes thaw_w_m2_k = 9.0;          // in still air, cold
  Lanes crumb_w_m_k = 0.24;
  Lanes crumb_j_kg_k = 2750.0;
  Lanes piece_kg_m3 = 270.0;
  Lanes drying_m_s = 0.0045;   // mass transfer from a surface to still air
  Lanes skin_share = 0.25;     // of a film's water gone when it has a skin
  Lanes inverted_share = 0.3;  // of the sucrose in boiled acid fruit
  Lanes solution_activity_error = 0.0;
  Lanes crumb_activity_error = 0.0;
  Lanes crumb_diffusivity_m2_s = 3e-10;
  Lanes mould_factor = 1.0;
  Lanes staling_factor = 1.0;
  Lanes fresh_limit = 0.28;  // of lean bread's whole firming
  Lanes soak_factor = 1.0;
  Lanes leak_per_hour = 0.02;
  Lanes fruit_draw = 0.125;  // g water that 1 g of unsoaked fruit takes from a dough
  Lanes roll_sheet_mm = 6.0;
  Lanes dough_kg_m3 = 1050.0;
  Lanes runs_below_pa_s = 1.0;   // hot: a filling thinner than that runs out of its seams
  Lanes boils_margin_k = 0.0;    // on what a filling's place lets it reach
  Lanes steam_gap_from = 0.38;   // share of water from which steam lifts the dough off
  Lanes chocolate_factor = 1.0;  // how thick this chocolate is against one of its fat
  Lanes chocolate_sets_celsius = 27.3;
  Lanes seizes_from = 0.01;  // g free water per g of the rest of a melted chocolate
  Lanes ganache_from = 0.2;
};

/// A row of data/finish_unknowns.tsv and the place its draws go.
struct FinishUnknownRow {
  std::string name;
  std::string words;    // what it is, as a baker says it
  std::string measure;  // what would tell; empty when nothing in a kitchen would
  bool lasts = false;   // belongs to the kitchen and stays from bake to bake
  Distribution distribution;
  std::string unit;
  std::string source;
  Lanes FinishUnknowns::* place = nullptr;
};

/// Every unknown of FinishUnknowns, in the order of the table. room_celsius, humidity_pct
/// and altitude_m stand in where the kitchen does not say; draw them once for all models.
std::vector<FinishUnknownRow> finish_unknown_rows();

}  // namespace maslin
