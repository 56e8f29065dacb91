// From a piece's size to the one-dimensional body that the column is cut from.
#include "bake/piece.h"

namespace maslin {
namespace {

constexpr double k_pi = 3.14159265358979323846;

/// A body as the reduction to one dimension needs it.
struct Body {
  Lanes open_area, open_depth, base_area, base_depth;
  /// Slowest decay of pure conduction with the surface held, along its three axes,
  /// 1/m2 (pi^2 over length squared between two held faces).
  Lanes decay_x, decay_y, decay_z;
};

/// First zero squared of the radial problem with exponent n: 2.467, 5.783, 9.870 for
/// slab, cylinder, sphere; the parabola through these three.
Lanes radial_decay(const Lanes& n) {
  return 2.4674 + n * (2.9306 + 0.3854 * n);
}

/// Share of area times depth that lies outside s, for an area falling as s^m.
Lanes shell_share(const Lanes& join, const Lanes& m) {
  return (1.0 - pow(join, m + 1.0)) / (m + 1.0);
}

/// Axes along which heat comes by the time a piece is done: one whose own decay is a
/// sixth of the whole or more counts full (its first term rules by then), a slower one
/// in proportion.
Lanes axes(const Body& body, const Lanes& decay) {
  constexpr double k_full = 0.18;
  Lanes out = 0.0;
  for (const Lanes* axis : {&body.decay_x, &body.decay_y, &body.decay_z}) {
    out += min(*axis / (k_full * decay), 1.0);
  }
  return out;
}

/// Between films of air and not held surfaces a compact body warms more slowly against
/// its column than their decays say: by about this share, from buns, loaves and blocks
/// solved in three dimensions (docs/models/bake.md).
constexpr double k_films_hinder = 0.12;

/// Where the legs meet the core: where isotherms close, but not outside a small filling.
Lanes joined(const Lanes& exponent, const Lanes& filling_share) {
  const Lanes usual = clamp(0.25 * exponent, 0.08, 0.5);
  const Lanes rim = pow(max(0.95 * filling_share, 1e-9), 1.0 / (exponent + 1.0));
  return select(filling_share > Lanes(0.0), min(usual, max(rim, 0.02)), usual);
}

/// The exponent says along how many axes heat comes (one: slab, three: sphere), the
/// depth then follows from the decay, the shell's exponent from the volume.
PieceGeometry reduced(const Body& body, const Lanes& volume, const Lanes& filling_share) {
  const Lanes decay = body.decay_x + body.decay_y + body.decay_z;
  PieceGeometry out;
  out.exponent = clamp(axes(body, decay) - 1.0, 0.0, 2.0);
  out.decay_per_m2 = decay * (1.0 - k_films_hinder * min(out.exponent, 1.0));
  const Lanes area = body.open_area + body.base_area;
  // Not so deep that the core alone would hold more than the body.
  const Lanes depth =
      min(sqrt(radial_decay(out.exponent) / decay), (out.exponent + 1.0) * volume / (0.4 * area));
  out.join = joined(out.exponent, filling_share);
  const Lanes shell = volume * (1.0 - pow(out.join, out.exponent + 1.0)) / (area * depth);
  Lanes low = -0.9, high = 12.0;
  for (int i = 0; i < 40; ++i) {
    const Lanes middle = 0.5 * (low + high);
    const Mask roomy = shell_share(out.join, middle) > shell;
    low = select(roomy, middle, low);
    high = select(roomy, high, middle);
  }
  out.shell_exponent = 0.5 * (low + high);
  const Lanes mean_depth =
      (body.open_area * body.open_depth + body.base_area * body.base_depth) / area;
  out.open_area_m2 = body.open_area;
  out.base_area_m2 = body.base_area;
  out.open_depth_m = depth * body.open_depth / mean_depth;
  out.base_depth_m = depth * body.base_depth / mean_depth;
  out.volume_m3 = volume;
  out.fits =
      (out.open_depth_m > Lanes(3e-4)) & (out.base_depth_m > Lanes(3e-4)) & (depth < Lanes(0.25));
  return out;
}

/// A dome with an upright rim and a paraboloid above it, see `k_dome_rim`.
Body dome(const Lanes& volume, const Lanes& half_width, const Lanes& height) {
  const Lanes& a = half_width;
  const Lanes crown = (1.0 - k_dome_rim) * height;
  const Lanes four = 4.0 * crown * crown;
  // Paraboloid r = a: pi a / (6 H^2) ((a^2 + 4 H^2)^1.5 - a^3).
  const Lanes slant = a * a + four;
  const Lanes paraboloid =
      (4.0 * k_pi / 6.0) * a * (slant * sqrt(slant) - a * a * a) / max(four, 1e-30);
  Body out;
  out.base_area = k_pi * a * a;
  out.open_area = paraboloid + (2.0 * k_pi * k_dome_rim) * a * height;
  out.base_depth = 0.45 * height;
  out.open_depth = (3.0 * volume - out.base_area * out.base_depth) / out.open_area;
  // Decay times height squared, by the solid solver for heights of 0.3 to 1.8 of the
  // half-width: 8.6 + 8.3 q + 1.2 q^2, q = h/a, within 2 %; half of the middle term is
  // given to the way up.
  const Lanes q = height / a;
  const Lanes per_height = 1.0 / (height * height);
  out.decay_z = (8.6 + 4.15 * q) * per_height;
  out.decay_x = 0.5 * (4.15 * q + 1.2 * q * q) * per_height;
  out.decay_y = out.decay_x;
  return out;
}

PieceGeometry ball_geometry(const PieceSize& size) {
  const Lanes r = 0.5 * size.height_m;
  PieceGeometry out;
  const Lanes area = 4.0 * k_pi * r * r;
  out.open_area_m2 = 0.95 * area;
  out.base_area_m2 = 0.05 * area;
  out.open_depth_m = r;
  out.base_depth_m = r;
  out.volume_m3 = size.volume_m3;
  out.exponent = 2.0;
  out.shell_exponent = 2.0;
  out.join = joined(out.exponent, size.filling_share);
  out.decay_per_m2 = (k_pi * k_pi) / (r * r);
  out.fits = r > Lanes(3e-4);
  return out;
}

PieceGeometry dome_geometry(const PieceSize& size) {
  const Lanes a = 0.5 * size.width_m;
  PieceGeometry out =
      reduced(dome(size.volume_m3, a, size.height_m), size.volume_m3, size.filling_share);
  out.fits = out.fits & (size.height_m < 3.0 * a);
  return out;
}

/// A block on its base with a somewhat domed top.
PieceGeometry block_geometry(const PieceSize& size) {
  const Lanes& height = size.height_m;
  const Lanes footprint = size.length_m * size.width_m;
  const Lanes top = k_domed_top * footprint;
  const Lanes side = 0.5 * (size.length_m + size.width_m) * height;  // one of four
  const Lanes side_depth = 0.25 * (size.length_m + size.width_m);
  Body body;
  body.open_area = top + size.open_sides * side;
  body.open_depth = (top * 0.5 * height + size.open_sides * side * side_depth) / body.open_area;
  body.base_area = footprint + size.tin_sides * side;
  body.base_depth =
      (footprint * 0.5 * height + size.tin_sides * side * side_depth) / body.base_area;
  // Two free opposite sides: (pi/w)^2; one alone a quarter of that; in between squared.
  const Lanes free_share = 0.25 * (size.open_sides + size.tin_sides);
  const Lanes across = k_pi * k_pi * free_share * free_share;
  body.decay_x = across / (size.length_m * size.length_m);
  body.decay_y = across / (size.width_m * size.width_m);
  body.decay_z = k_pi * k_pi / (height * height);
  PieceGeometry out = reduced(body, size.volume_m3, size.filling_share);
  out.fits = out.fits & (height < 4.0 * min(size.length_m, size.width_m));
  return out;
}

}  // namespace

PieceGeometry piece_geometry(const PieceSize& size) {
  PieceGeometry out;
  switch (size.form) {
    case PieceForm::ball:
      out = ball_geometry(size);
      break;
    case PieceForm::dome:
      out = dome_geometry(size);
      break;
    case PieceForm::block:
      out = block_geometry(size);
      break;
  }
  out.spring_along = size.spring_along;
  out.filling_share = size.filling_share;
  return out;
}

}  // namespace maslin
