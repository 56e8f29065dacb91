// bake: heat and water through a piece in an oven, over lanes. From the piece, its
// tin, the oven and the altitude: minutes to done, crust, weight loss, the inside as
// it bakes. Two conserved fields, enthalpy and total water, with vapour moving through
// the pores; the boiling plateau, the drying crust, recondensation toward the core,
// altitude and steam all come from the same equations. See docs/models/bake.md.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "bake/dough_figures.h"
#include "bake/oven.h"
#include "bake/piece.h"
#include "numerics/lanes.h"

namespace maslin {

/// What nobody knows exactly about a bake. The defaults are medians; the comment says
/// the suggested spread (normal unless said) and whether it belongs to the kitchen
/// (and is learnt) or to the day.
struct BakeUnknowns {
  /// Air above the set-point, K. Sd 10 K, kitchen. Common practice, no source.
  Lanes oven_offset_k = 0.0;
  /// Times the oven kind's convection. Lognormal, cv 0.25, kitchen. Sakin et al. 2009
  /// give 20-45 W/m2K in all for still and fan ovens (from memory).
  Lanes convection_factor = 1.0;
  /// Times the radiation that the oven kind gives. Lognormal, cv 0.10, kitchen; no source.
  Lanes radiation_factor = 1.0;
  /// Times the conductivity of dough and crumb. Lognormal, cv 0.12, flour; spread of the
  /// parallel, series and Krischer forms in Hamdami et al. 2004 (abstract read).
  Lanes conductivity_factor = 1.0;
  /// Times the surface's mass transfer. Lognormal, cv 0.20, recipe; no source.
  Lanes evaporation_factor = 1.0;
  /// Times the browning rate. Lognormal, cv 0.30, recipe and eye; the two published
  /// browning models differ by about that.
  Lanes browning_factor = 1.0;
  /// Times the piece's mass. Normal, cv 0.05 when divided by eye, 0.01 by scale, day.
  Lanes mass_factor = 1.0;
  /// Times the oven spring. Lognormal, cv 0.3, day; no source.
  Lanes spring_factor = 1.0;
};

/// `loaf`: the signs that bread books give for a loaf together: core, brown on top, golden
/// where it stood against tin or stone, and lighter by about a tenth (a bakery's page; "brown
/// on all sides", A Manual of Home-making; both read).
enum class DoneBy : std::uint8_t { core, starch, colour, core_and_colour, loaf, time };

/// When a piece is done.
struct DoneRule {
  DoneBy by = DoneBy::core;
  /// Core temperature, K; it is lowered to 2 K under the local boiling point where
  /// that is less. 361-366 K enriched, 366-371 K lean (common practice).
  Lanes core_k = 366.15;
  double starch_set = 0.98;      // share of starch gelatinised in the coldest place
  double lightness = 62.0;       // L* of the open crust (of the base where nothing is open)
  double base_lightness = 70.0;  // for DoneBy::loaf, against tin or stone: where golden begins
  /// For DoneBy::loaf, of the dough, of a loaf of 900 g in a tin; others as their surface is, see
  /// `loss_when_baked_pct`.
  double weight_loss_pct = 10.0;
  double minutes = 0.0;      // for DoneBy::time
  double from_minute = 0.0;  // what stands before does not count: a second bake
};

/// What a loaf has lost when it counts as baked, per cent of its dough, where one of 900 g in a tin
/// has lost `of_tin_pct`: by the surface that a mass has, so as its cube root, and a fifth more
/// where no tin covers the sides. Bakers scale 460-470 g of dough for 400 g of tinned bread and
/// 890-910 for 800, of which one or two go as it cools, and more for loaves without a tin: common
/// practice, no source.
Lanes loss_when_baked_pct(const Piece& piece, const Lanes& mass_g, double of_tin_pct);

enum class Crust : std::uint8_t { none, pale, light_gold, golden, brown, dark, burnt };
std::string_view crust_name(Crust crust);
/// The class of a lightness L*: over 78 pale, 70 light gold, 60 golden, 50 brown, 32
/// dark, below burnt (char; browning alone ends at 38). Common practice, no source; `none` where
/// nothing is open.
Crust crust_of(double lightness);
/// The lightness between which a crust is called that; 0 and 100 at the ends.
struct LightnessBounds {
  double low = 0.0;
  double high = 100.0;
};
LightnessBounds crust_bounds(Crust crust);
/// From crust_name's word; `none` for another.
Crust crust_from(std::string_view word);

/// How much is followed: what a forecast asks, or also the colour at every depth.
enum class BakeDetail : std::uint8_t { outcome, inside };

struct BakeOptions {
  BakeDetail detail = BakeDetail::outcome;
  double at_least_minutes = 0.0;  // go on to here even when all are done
  double at_most_minutes = 240.0;
  double sample_minutes = 0.5;  // spacing of the traces
  double cut_minutes = 0.0;     // spacing of the cuts kept; 0: none
  double tolerance = 1.0;       // times the standing error tolerances; 0.1 is finer
  int cells_open = 16;          // near the open surface
  int cells_base = 12;          // near the covered one
  int cells_core = 4;           // in the core that both share
};

/// State at one moment, each lane at its own time.
struct BakeMoment {
  Lanes minutes = 0.0;
  Lanes core_k = 0.0;     // the coldest place of the crumb
  Lanes filling_k = 0.0;  // of a filling in its middle; core_k where there is none
  Lanes surface_k = 0.0;  // open surface (the covered one where nothing is open)
  Lanes base_k = 0.0;     // against tin, tray or stone
  Lanes weight_loss_pct = 0.0;
  Lanes lightness = 0.0;       // L* of the open surface
  Lanes base_lightness = 0.0;  // L* of the covered one
  Lanes crust_mm = 0.0;        // layer with less than 0.3 of the dough's water
  Lanes core_water = 0.0;      // kg per kg dry solids, coldest place
  Lanes starch_set = 0.0;      // share gelatinised in the coldest place
  Lanes volume_ratio = 1.0;    // of the volume at loading
};

/// One draw's inside at the end: from the base (0) to the open surface.
struct BakeProfile {
  std::vector<double> depth_mm;
  std::vector<double> temperature_k;
  std::vector<double> water;      // kg per kg dry solids
  std::vector<double> lightness;  // what the colour would be there
  /// The places from the first to before the second are a filling; none where they are alike.
  std::size_t filling_from = 0, filling_to = 0;
};

/// The inside of every lane at one moment.
struct BakeCut {
  double minutes = 0.0;
  std::vector<BakeProfile> profiles;
};

enum class BakeStatus : std::uint8_t { done, not_reached, impossible };

struct BakeRun {
  BakeStatus status = BakeStatus::impossible;
  std::string problem;  // one sentence when not done: what, where, the mend
  Lanes minutes_to_done = 0.0;
  Mask reached{};      // lanes that got there before at_most_minutes
  BakeMoment at_done;  // each lane at its own minutes_to_done (or at the end)
  /// Every `sample_minutes` from loading on, all lanes at the same time.
  std::vector<double> trace_minutes;
  std::vector<BakeMoment> trace;
  std::vector<BakeProfile> profiles;  // one for each lane at the end of the run
  std::vector<BakeCut> cuts;          // from loading on, at least BakeOptions::cut_minutes apart
  // How the answer was had.
  int steps = 0;
  int rejected = 0;
  double mass_closure = 0.0;    // worst lane, relative to the water at the start
  double energy_closure = 0.0;  // worst lane, relative to the heat taken up

  Crust crust(std::size_t lane) const { return crust_of(at_done.lightness[lane]); }
};

/// Bakes eight draws of a piece. Never fails to return: what cannot be baked comes back
/// as `impossible` with the sentence that says why.
BakeRun bake_piece(const Piece& piece, const Oven& oven, const DoneRule& rule,
                   const BakeUnknowns& unknowns, const BakeOptions& options = {});

/// The state of a run at these minutes, by interpolation in its trace; held at the ends.
BakeMoment moment_at(const BakeRun& run, const Lanes& minutes);

}  // namespace maslin
