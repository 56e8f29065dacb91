// rise: how a dough ferments and grows: yeast, sugars, carbon dioxide dissolved and in
// bubbles, ethanol, what leaks, and the dough's temperature drifting toward the room,
// prove after prove. Over lanes: eight draws at once.
//
// A dough is described once (RiseDough); what changes is a RiseState, which goes
// through a row of proves (run_proves) and comes out the other end.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "numerics/lanes.h"
#include "properties/portion.h"
#include "rise/constants.h"

namespace maslin {

/// What nobody knows of a dough, as multipliers about 1 (the median). To draw one:
/// exp(sigma * z), z standard normal, sigma as stated.
struct RiseUnknowns {
  Lanes yeast_vigour = 1.0;   // gas made per g of yeast. sigma 0.25: 90-160 mL/(g h) between
                              // brands (from memory), and packets of unknown age
  Lanes flour_sugar = 1.0;    // sugars ready or freed in the flour. sigma 0.25, from memory
                              // (native 0.3-0.8 %, freed 1.5-3.5 %)
  Lanes retention = 1.0;      // critical expansion. sigma 0.10, common practice
  Lanes inversion = 1.0;      // speed of sucrose inversion. sigma 0.35, from memory (strains)
  Lanes tolerance = 1.0;      // osmolality at half rate. sigma 0.08, from memory (strains)
  Lanes waking = 1.0;         // time the yeast takes to start. sigma 0.30, common practice
  Lanes mixed_air = 1.0;      // air beaten in. sigma 0.25 (4-12 % of the volume), from memory
  Lanes heat_transfer = 1.0;  // bowl and air. sigma 0.25, common practice
  Lanes gas_kept = 1.0;       // gas kept through shaping. sigma 0.20, common practice (40-60 %)
  Lanes eye = 1.0;            // growth at which a person sees a target met, against the
                              // target's growth (ratio - 1). sigma 0.15: what is called
                              // doubled is x1.8 to x2.3, common practice
};

/// How long and how well the yeast was kept.
struct YeastStorage {
  Lanes months = 0.0;  // of dry yeast, since opened; loss per month by the ingredient's figure
  Lanes fresh_months = 0.0;  // of fresh yeast, since made
  // A starter goes in ripe, and is as old as its last feeding.
};

/// What yeast sees of a dough, in the whole dough. Made by rise_dough.
struct RiseDough {
  Lanes mass_g = 0.0;
  Lanes flour_g = 0.0;
  Lanes flour_dry_g = 0.0;
  Lanes water_g = 0.0;
  Lanes solvent_water_g = 0.0;
  Lanes yeast_g = 0.0;         // commercial, as g of fresh yeast
  Lanes tolerant_share = 0.0;  // of it, osmotolerant, 0..1
  Lanes wild_yeast_g = 0.0;    // from starter, as g of fresh yeast
  Lanes ripe_flour_g = 0.0;    // flour's worth of lactic bacteria at full count
  Lanes hexose_g = 0.0;        // added; the flour's own comes on top
  Lanes sucrose_g = 0.0;
  Lanes maltose_g = 0.0;
  Lanes native_hexose_g = 0.0;
  Lanes native_maltose_g = 0.0;
  Lanes latent_maltose_g = 0.0;  // amylase will free it
  Lanes inert_osmol = 0.0;       // salt, lactose, minerals, flour solubles, mol
  Lanes salt_g = 0.0;
  Lanes fat_g = 0.0;
  Lanes ethanol_g = 0.0;
  Lanes ph = 5.6;
  Lanes buffer_mmol = 0.0;         // per pH unit, whole dough
  Lanes spice_factor = 1.0;        // on the gas rate
  Lanes wake_h = 0.15;             // time constant of the yeast's start, before stress
  Lanes dense_ml = 0.0;            // without any gas
  Lanes critical_expansion = 3.5;  // over the mixed volume, where gas begins to leak
  Lanes heat_capacity_j_per_k = 0.0;

  /// Osmolality of the whole before any fermentation, mol/kg solvent water; the second
  /// with every sucrose inverted.
  Lanes osmolality() const;
  Lanes osmolality_inverted() const;
  /// pH with the acid the lactic bacteria of `state` have made.
  Lanes ph_with(const struct RiseState& state, const RiseConstants& constants = {}) const;
};

/// Portions to dough; grams of the whole bowl. Portions of kind yeast carry their
/// kind and activity; what is neither flour nor known counts by its composition.
RiseDough rise_dough(const Portions& portions, const YeastStorage& storage = {},
                     const RiseConstants& constants = {});

inline constexpr std::size_t k_dough_shells = 5;

/// Everything that moves while a dough rises, in the whole dough.
struct RiseState {
  Lanes hexose_g;
  Lanes sucrose_g;
  Lanes maltose_g;
  Lanes latent_maltose_g;
  Lanes fermented_g;  // hexose equivalent turned into gas and ethanol since mixing
  Lanes yeast_g;      // living, as fresh
  Lanes wild_yeast_g;
  Lanes ripe_flour_g;
  Lanes awake;       // 0..1
  Lanes induction;   // 0..1, readiness for maltose
  Lanes adaptation;  // 0..1, to the dissolved matter
  Lanes age_h;       // hours at 27 C
  Lanes co2_made_mol;
  Lanes co2_lost_mol;  // leaked or knocked out
  Lanes air_mol;       // beaten in, still there
  Lanes ethanol_g;
  Lanes strength = 1.0;                             // of the gluten, on the critical expansion
  Lanes minutes;                                    // since mixing
  std::array<Lanes, k_dough_shells> temperature_k;  // equal masses, middle to skin

  Lanes mean_temperature_k() const;
  Lanes co2_in_dough_mol() const { return co2_made_mol - co2_lost_mol; }
};

/// The dough as it comes from mixing.
RiseState start_of_rise(const RiseDough& dough, const Lanes& temperature_k,
                        const RiseUnknowns& unknowns = {}, const RiseConstants& constants = {});

/// A ripe preferment goes into a dough: `share` of it, whose raw portions are already
/// counted in the dough. What it grew, spent and soured since its own start is carried
/// over; its bubbles are lost, its dissolved gas stays.
RiseState mix_in(const RiseState& dough_start, const RiseState& preferment_start,
                 const RiseState& preferment_end, const Lanes& share);

/// The dough frozen through and kept so for so long: part of the yeast is dead, and the
/// gluten holds less gas.
RiseState after_freezing(const RiseState& state, double months,
                         const RiseConstants& constants = {});

/// thawed: no ice is left in it.
enum class ProveTarget { volume_ratio, minutes, thawed };
enum class DoughShape { ball, slab };
enum class AmbientClock { from_prove, from_mixing };

/// The air round the dough at a time; straight between points, level outside them.
struct AmbientPoint {
  double minutes = 0.0;
  Lanes temperature_k;
};

struct Prove {
  std::string name;
  ProveTarget target = ProveTarget::volume_ratio;
  double value = 2.0;                 // ratio to the volume at the start of this prove, or minutes
  std::vector<AmbientPoint> ambient;  // 25 C when empty
  AmbientClock clock = AmbientClock::from_prove;
  Lanes piece_g = 0.0;  // 0: the whole dough in one piece
  DoughShape shape = DoughShape::ball;
  double half_thickness_m = 0.0;         // of a slab
  double heat_transfer_w_per_m2k = 6.0;  // covered bowl in still air 5-7, metal or bench 8-10,
                                         // moving air 12-15: common practice
  bool freezes = false;         // by the clock in a freezer; what is frozen through is kept so
  Lanes gas_kept_before = 1.0;  // of the bubbles, just before: fold 0.85-0.9, knock-back and
                                // shaping 0.4-0.6, hard 0.25-0.35: common practice
  bool traced = true;           // goes on past its target as far as the settings ask
};

struct RiseSettings {
  double sample_s = 300.0;        // between samples of the traces, at most 300; steps divide it
  int fineness = 1;               // 2: steps half as long, for checking
  double limit_minutes = 2880.0;  // of one prove
  double trace_minutes = 0.0;     // traces go on at least this long
  double pressure_pa = 101325.0;  // 74 000 at 2 600 m
};

enum class RiseStatus { reached, not_reached, nothing_to_rise };

/// One prove over eight draws. All figures finite.
struct ProveRun {
  std::string name;
  RiseStatus status = RiseStatus::reached;  // the worst of the draws
  Mask reached;
  Lanes minutes_to_target;  // the limit where not reached
  Lanes volume_ratio_end;   // at the target
  double sample_s = 300.0;
  std::vector<Lanes> volume_ratio;      // at 0, sample_s, ...: as if left alone past the target
  std::vector<Lanes> temperature_k;     // mean of the dough
  std::optional<Lanes> thawed_minutes;  // of what had ice: when the last was gone; else the end
  Lanes start_volume_ml;
  RiseState end;  // at the target
};

/// What should be nothing: relative errors of the balances over the whole run.
struct RiseBalance {
  Lanes sugar;
  Lanes carbon_dioxide;
  Lanes ethanol;
};

struct RiseRun {
  std::vector<ProveRun> proves;
  RiseState end;
  RiseBalance balance;
  std::size_t steps = 0;
};

RiseRun run_proves(const RiseDough& dough, const RiseState& start, std::span<const Prove> proves,
                   const RiseUnknowns& unknowns = {}, const RiseSettings& settings = {},
                   const RiseConstants& constants = {});

}  // namespace maslin
