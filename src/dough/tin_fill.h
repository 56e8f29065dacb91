// How full a tin is, and how pieces sit in a tray.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "dough/dough.h"
#include "recipe/recipe.h"

namespace maslin {

/// Raw dough per brim volume that a kind of dough wants, a row of data/tin_fill.tsv.
struct FillRange {
  std::string kind;
  double low_g_per_ml = 0.0;
  double high_g_per_ml = 0.0;
};
std::vector<FillRange> fill_ranges();

/// Brim volume of a tin, mL; 0 for a flat tray without depth or unstated sizes.
/// A loaf tin's stated size is its rim: its floor is 12 % shorter each way, as taper;
/// V = h/3 (A1 + A2 + sqrt(A1 A2)). A ring tin's tube takes 0.3 of the diameter. A muffin
/// tin counts one cup. Taper and tube: common practice, no source.
double tin_volume_ml(const Tin& tin);
/// Floor area, cm2; 0 when unstated.
double tin_floor_cm2(const Tin& tin);

enum class FillVerdict : std::uint8_t { unknown, too_little, right, too_much };
std::string_view fill_verdict_name(FillVerdict verdict);

struct TinFill {
  double tin_ml = 0.0;
  double dough_g_per_ml = 0.0;
  FillRange wanted;
  double wanted_g = 0.0;  // of dough for the middle of the range
  FillVerdict verdict = FillVerdict::unknown;
};
/// The fill of `dough_g` grams of this dough in one tin. Gluten-free, rye (a third of the
/// flour without gluten), wholemeal (fibre over 7 % of flour), rich (fat over 15 %) and
/// open white doughs are told by their state.
TinFill fill_of(const std::vector<FillRange>& ranges, const Tin& tin, const DoughState& state,
                double dough_g);

/// Pieces of one mass side by side.
struct PieceLayout {
  double ball_mm = 0.0;          // raw ball
  double baked_side_mm = 0.0;    // where it meets its neighbours: 1.28 balls
  int touching_in_tray = 0;      // as many as fill the floor so that they touch; 0 = no tray
  double gap_to_touch_mm = 0.0;  // to leave between raw balls
};
/// Common practice, no source: touching buns end 1.25 to 1.3 raw diameters wide.
PieceLayout lay_pieces(const Tin& tin, const DoughState& state, double piece_g);

}  // namespace maslin
