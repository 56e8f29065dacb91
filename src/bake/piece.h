// A piece as it goes into the oven: mass, shape, dough, gas.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

#include "bake/dough_figures.h"
#include "numerics/lanes.h"

namespace maslin {

enum class PieceShape : std::uint8_t {
  ball,      // free all round (on a rack or a rough sphere)
  bun,       // free-standing dome on a tray or stone
  cluster,   // buns touching in a tray: see neighbours
  slice,     // rolled and sliced, lying on the cut
  hearth,    // free-standing loaf on a tray or stone
  baton,     // long free-standing loaf
  tin_loaf,  // loaf in a tin
  ring,      // ring tin
  flat,      // flatbread, pizza base
  sheet      // a tray filled edge to edge
};
std::string_view piece_shape_name(PieceShape shape);
std::optional<PieceShape> piece_shape_from(std::string_view name);

/// A piece, one value or eight. A dimension of 0 is not stated: it follows from mass,
/// gas and the shape's usual proportions.
struct Piece {
  PieceShape shape = PieceShape::bun;
  Lanes mass_g = 60.0;
  /// Volume of gas per volume of the piece as it is loaded, 0 to 0.9 (from the rise;
  /// a doubled dough has about 0.65).
  Lanes porosity = 0.65;
  Lanes start_k = 298.15;
  DoughFigures dough;
  Lanes length_mm = 0.0;     // of the piece, or of the tin
  Lanes width_mm = 0.0;      // of the piece, or of the tin
  Lanes height_mm = 0.0;     // of the piece at loading
  Lanes diameter_mm = 0.0;   // of a round piece or tin
  Lanes tin_depth_mm = 0.0;  // of a loaf or ring tin; 0: 0.55 of its width
  /// Sides that touch a neighbour, 0 to 4, for a cluster or slices: corner 2, edge 3,
  /// middle 4 (the free sides of a cluster stand against the tray's wall or the air).
  Lanes neighbours = 4.0;
  /// Share of the surface's colouring that a wash or the like adds: 1 none, about 1.5
  /// egg (a rough figure: common practice, no source).
  Lanes wash_factor = 1.0;
  /// Share of the piece's mass that is a filling, 0 to 0.7.
  Lanes filling_share = 0.0;
  /// What the filling is made of, when it lies in the middle; without, it is taken as dough
  /// without gas, spread evenly (rolled up, sliced).
  std::optional<DoughFigures> filling;
  Lanes filling_porosity = 0.0;  // volume of gas per volume of the filling
  /// Share of the piece's mass that lies on its open surface, evenly, 0 to 0.7, and what it is
  /// made of: cheese, custard, crumble, tomato. Without `topping` there is none.
  Lanes topping_share = 0.0;
  std::optional<DoughFigures> topping;
};

/// The piece under its topping.
Piece without_topping(const Piece& piece);
/// The topping taken as dough without gas, spread evenly through the piece: what a cut through
/// the piece does, which knows no layers.
Piece with_topping_spread(const Piece& piece);

/// The temperature at which a dough without ice would lack the heat that this one lacks, frozen
/// through at so many degrees Celsius: the bake knows no ice. Against conduction with ice in a ball
/// of 5 and 7 cm the core is there 1.2 % too soon. Freezing point by what is dissolved (1.86 K kg
/// per mol, ideal); 0.3 of water per starch and protein never freezes (from memory).
Lanes frozen_start_k(const DoughFigures& dough, double celsius);

/// Height of a dome's upright rim over that of its middle (common practice, no source).
inline constexpr double k_dome_rim = 0.35;
/// Area of a risen block's top over its footprint (common practice, no source).
inline constexpr double k_domed_top = 1.15;

enum class PieceForm : std::uint8_t { ball, dome, block };

/// A piece's size as it is loaded. Each lane its own. A dome has its diameter in length
/// and width. Sides count to four: so many stand open, so many against a tin (each over
/// its share of the height); the rest touch a neighbour and pass no heat.
struct PieceSize {
  PieceForm form = PieceForm::dome;
  Lanes length_m = 0.0;
  Lanes width_m = 0.0;
  Lanes height_m = 0.0;
  Lanes volume_m3 = 0.0;
  Lanes open_sides = 0.0;
  Lanes tin_sides = 0.0;
  Lanes spring_along = 1.0;   // 1: spring lifts all dimensions alike; 0: the height alone
  Lanes filling_share = 0.0;  // of the volume, in the middle; 0: none there
};

/// Size by mass, gas and what is stated; the rest by the shape's usual proportions (common
/// practice, no source).
PieceSize piece_size(const Piece& piece, const Lanes& mass_factor);

/// The piece reduced to one dimension: a distance from the core, as a share s of the
/// depth, and the area that heat crosses there. Inside s = `join` the area grows as
/// s^`exponent` (0, 1, 2 for slab, cylinder, sphere); outside, two legs end at the open
/// and the covered surface with their real areas, falling inward as s^`shell_exponent` so
/// that the volume is right. The column then eases or hinders its inside so that pure
/// conduction dies away at the real shape's `decay`. Exact for slab, cylinder, sphere.
struct PieceGeometry {
  Lanes open_area_m2 = 0.0;
  Lanes open_depth_m = 0.0;
  Lanes base_area_m2 = 0.0;
  Lanes base_depth_m = 0.0;
  Lanes volume_m3 = 0.0;
  Lanes exponent = 0.0;
  Lanes shell_exponent = 0.0;
  Lanes join = 0.08;
  Lanes decay_per_m2 = 0.0;   // slowest decay with all surfaces held, over diffusivity
  Lanes spring_along = 1.0;   // 1: spring lifts all dimensions alike; 0: the height alone
  Lanes filling_share = 0.0;  // of the volume, in the middle
  /// Lanes where the mass can have the stated size: at least 0.6 mm thick, at most 0.5 m,
  /// and not more than four times as high as wide.
  Mask fits{};
};

PieceGeometry piece_geometry(const PieceSize& size);

/// A sentence when the piece cannot be baked by the model (no mass, no water at all,
/// a figure that is no number), else empty.
std::string_view piece_problem(const Piece& piece);

}  // namespace maslin
