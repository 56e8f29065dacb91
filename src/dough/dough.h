// dough: will it make a dough, and of what feel.
//
// From the portions in the bowl: total and baker's percentages, what counts as water,
// what the flour takes up, consistency and feel, what weakens the gluten, what the
// yeast will meet (sugar, salt, acid against flour and water), volume. Beside it: how
// much flour or liquid to hold back, the temperature of the dough and of its water, what
// fills a tin, what comes of a strained fruit, and whether a formula is sane.
// Model, parameters and checks: docs/models/dough.md.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "dough/feel.h"
#include "dough/hydration.h"
#include "numerics/lanes.h"
#include "properties/portion.h"
#include "quantity/distribution.h"

namespace maslin {

/// What is not known of a dough beyond its amounts. The defaults are the medians;
/// spreads with their sources stand in data/dough_unknowns.tsv (see dough_unknowns).
struct DoughUnknowns {
  Lanes flour_absorption = 0.0;      // points of water per 100 g flour above its kind's figure
  Lanes sugar_scale = 1.0;           // of the water equivalent of sugars
  Lanes fat_scale = 1.0;             // of fats
  Lanes egg_scale = 1.0;             // of eggs, whole
  Lanes fruit_scale = 1.0;           // of fruit, vegetables, purees
  Lanes fibre_scale = 1.0;           // of what fibre, bran, milk powder and the like take up
  Lanes salt_points_per_pct = -0.5;  // absorption, points per 1 % of salt on flour
  Lanes feel_shift = 0.0;            // points: this baker calls softer (+) what others call firmer
  Lanes dough_celsius = 24.0;        // from the heat balance; a warmer dough feels softer
};

/// How long an unknown keeps its value.
enum class UnknownLasts : std::uint8_t { draw, flour, baker };

/// One of DoughUnknowns with what is known of it beforehand.
struct DoughUnknown {
  std::string_view name;  // "flour_absorption"
  std::string_view unit;
  Distribution prior;
  UnknownLasts lasts = UnknownLasts::draw;
  Lanes DoughUnknowns::* value = nullptr;
  std::string_view source;
};

/// The tables the model works from. A value: make one, pass it by reference.
struct DoughModel {
  HydrationTable hydration;
  std::vector<DoughUnknown> unknowns;
};
/// From the tables embedded in the program.
DoughModel dough_model();

/// How much each thing weakens the gluten, 0 (not at all) .. 1 (all of it).
struct GlutenWeakening {
  Lanes protease = 0.0;     // raw pineapple, papaya, kiwi, fig, ginger
  Lanes acid = 0.0;         // dough pH under 4.5
  Lanes fat = 0.0;          // coats the flour
  Lanes bran = 0.0;         // cuts the films
  Lanes low_protein = 0.0;  // too little to begin with
  /// What is left of a white bread flour's gluten, 0..1.
  Lanes strength() const;
};

/// A dough as mixed. Percentages are g per 100 g of flour unless the name says of what;
/// with no flour in the bowl they are zero and `has_flour` is false.
struct DoughState {
  bool has_flour = false;
  Lanes total_g;
  Lanes flour_g;  // with the flour in a starter or a cooked paste
  Lanes water_g;  // all but the flour's own moisture
  Lanes water_pct_flour;
  Lanes effective_water_g;
  Lanes effective_hydration_pct;
  Lanes absorption_pct;
  Lanes consistency_fu;
  Lanes feel_score;  // points; see feel.h
  Lanes sugar_pct_flour;
  Lanes fat_pct_flour;
  Lanes salt_pct_flour;
  Lanes egg_pct_flour;
  Lanes acid_pct_flour;
  Lanes fibre_pct_flour;
  Lanes alcohol_pct_flour;
  Lanes spice_pct_flour;
  Lanes yeast_pct_flour;  // as instant dry yeast of the same work
  Lanes protein_pct_flour;
  Lanes sugar_per_water;  // g per g
  Lanes water_activity;
  Lanes ph;
  GlutenWeakening weakening;
  Lanes volume_ml;  // just mixed, with the air mixed in
  Lanes density_g_per_ml;
  /// Each ingredient by id, g per 100 g flour; flours by id too.
  std::vector<std::pair<std::string, Lanes>> bakers_pct;
};

/// The sums over a bowl from which its state is made. Additive: the terms of two bowls
/// poured together are the sums of theirs, so that a change of amounts is linear in them.
struct DoughTerms {
  Lanes flour_g = 0.0;
  Lanes bag_flour_g = 0.0;        // flour that still has to take up water
  Lanes absorbed_g = 0.0;         // sum of flour g times absorption, g per 100 g
  Lanes flour_moisture_g = 0.0;   // the flours' own water
  Lanes wheat_protein_g = 0.0;    // protein of flours with gluten
  Lanes gluten_quality_g = 0.0;   // that protein weighted by the flour's class
  Lanes effective_water_g = 0.0;  // all water equivalents but the sugars'
  Lanes sugar_water_g = 0.0;      // water equivalent of the sugars in a soft dough
  Lanes protease_g = 0.0;
  Lanes spice_g = 0.0;
  Lanes egg_g = 0.0;
  Lanes yeast_g = 0.0;  // as instant
};
DoughTerms dough_terms(const DoughModel& model, const Portions& portions,
                       const DoughUnknowns& unknowns);
/// A given sugar slackens a stiff dough more than a soft one: times 1 at 45 % hydration and
/// above, rising to 2 at 25 %. Derived from Manohar & Rao 1997, J Sci Food Agric 75:383
/// (abstract: 25 to 35 % sugar in biscuit dough) and practice.
Lanes stiffness_factor(const Lanes& hydration_pct);

/// The dough these portions make. Range of validity: wheat doughs and mixtures with up
/// to half of other flours, effective hydration 25 to 200; outside, figures are computed
/// but feel is a guess (see doubts in formula_doubts.h).
DoughState assess_dough(const DoughModel& model, const Portions& portions,
                        const DoughUnknowns& unknowns);

/// Grams of flour (of the same kinds) that would bring the dough to this feel score, all
/// else as it is; of any sign above zero. Derived from the definition of the score.
Lanes flour_for_score(const DoughState& state, double score);
/// Grams of plain water to add (or, below zero, to leave out) to reach the score.
Lanes water_for_score(const DoughState& state, double score);

}  // namespace maslin
