#include "bake/piece.h"

#include <array>

namespace maslin {
namespace {

constexpr double k_pi = 3.14159265358979323846;

struct ShapeName {
  PieceShape shape;
  std::string_view name;
};
constexpr std::array k_shape_names{
    ShapeName{PieceShape::ball, "ball"},         ShapeName{PieceShape::bun, "bun"},
    ShapeName{PieceShape::cluster, "cluster"},   ShapeName{PieceShape::slice, "slice"},
    ShapeName{PieceShape::hearth, "hearth"},     ShapeName{PieceShape::baton, "baton"},
    ShapeName{PieceShape::tin_loaf, "tin_loaf"}, ShapeName{PieceShape::ring, "ring"},
    ShapeName{PieceShape::flat, "flat"},         ShapeName{PieceShape::sheet, "sheet"}};

/// `stated` in metres where it is positive, else `otherwise`.
Lanes metres_or(const Lanes& stated_mm, const Lanes& otherwise_m) {
  return select(stated_mm > Lanes(0.0), 1e-3 * stated_mm, otherwise_m);
}

Lanes cube_root(const Lanes& x) {
  return pow(x, 1.0 / 3.0);
}

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

/// The exponent says along how many axes heat comes (one: slab, three: sphere), the
/// depth then follows from the decay, the shell's exponent from the volume.
PieceGeometry reduced(const Body& body, const Lanes& volume) {
  const Lanes fastest = max(max(body.decay_x, body.decay_y), body.decay_z);
  const Lanes decay = body.decay_x + body.decay_y + body.decay_z;
  PieceGeometry out;
  out.exponent = clamp(decay / fastest - 1.0, 0.0, 2.0);
  const Lanes area = body.open_area + body.base_area;
  // Not so deep that the core alone would hold more than the body.
  const Lanes depth =
      min(sqrt(radial_decay(out.exponent) / decay), (out.exponent + 1.0) * volume / (0.4 * area));
  out.join = clamp(0.25 * out.exponent, 0.08, 0.5);
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

/// A dome: a cap of a sphere, or for a long piece of a cylinder, of base half-width `a`.
Body dome(const Lanes& volume, const Lanes& half_width, const Lanes& height) {
  Body out;
  const Lanes a2 = half_width * half_width;
  out.base_area = k_pi * a2;
  out.open_area = k_pi * (a2 + height * height);
  out.base_depth = 0.45 * height;
  out.open_depth = (3.0 * volume - out.base_area * out.base_depth) / out.open_area;
  // Exact for sphere and half sphere; in between an ellipsoid of half height 0.492 h.
  const Lanes half_height = 0.492 * height;
  out.decay_x = (k_pi * k_pi / 3.0) / a2;
  out.decay_y = out.decay_x;
  out.decay_z = (k_pi * k_pi / 3.0) / (half_height * half_height);
  return out;
}

/// A dome of the volume with this ratio of height to base diameter, or as stated.
PieceGeometry dome_geometry(const Piece& piece, const Lanes& volume, double ratio) {
  // V = pi h (3 a^2 + h^2) / 6 with h = 2 ratio a.
  const Lanes h_over_a = 2.0 * ratio;
  const Lanes usual = cube_root(6.0 * volume / (k_pi * h_over_a * (3.0 + h_over_a * h_over_a)));
  Lanes a = metres_or(piece.diameter_mm, 2.0 * usual) * 0.5;
  // With the diameter stated the height follows from the volume (three Newton steps).
  Lanes h = h_over_a * usual;
  for (int i = 0; i < 8; ++i) {
    const Lanes rest = k_pi * h * (3.0 * a * a + h * h) / 6.0 - volume;
    h -= rest / (k_pi * (a * a + h * h) / 2.0);
  }
  PieceGeometry out = reduced(dome(volume, a, h), volume);
  out.fits = out.fits & (h < 3.0 * a);
  out.spring_along = 1.0;
  return out;
}

PieceGeometry ball_geometry(const Lanes& volume) {
  const Lanes r = cube_root(volume * (3.0 / (4.0 * k_pi)));
  PieceGeometry out;
  const Lanes area = 4.0 * k_pi * r * r;
  out.open_area_m2 = 0.95 * area;
  out.base_area_m2 = 0.05 * area;
  out.open_depth_m = r;
  out.base_depth_m = r;
  out.volume_m3 = volume;
  out.exponent = 2.0;
  out.shell_exponent = 2.0;
  out.join = 0.5;
  out.fits = r > Lanes(3e-4);
  return out;
}

/// A block on its base with a somewhat domed top. Of its four sides so many stand
/// open, so many against the tin, each over its share of the height; those that touch
/// a neighbour pass no heat and are left out.
struct BlockSides {
  Lanes open = 0.0;
  Lanes tin = 0.0;
};

constexpr double k_domed = 1.15;  // area of a risen top over its footprint, common practice

PieceGeometry block_geometry(const Lanes& length, const Lanes& width, const Lanes& volume,
                             const BlockSides& sides) {
  const Lanes footprint = length * width;
  const Lanes top = k_domed * footprint;
  const Lanes height = volume / footprint;
  const Lanes side = 0.5 * (length + width) * height;  // one of four
  const Lanes side_depth = 0.25 * (length + width);
  Body body;
  body.open_area = top + sides.open * side;
  body.open_depth = (top * 0.5 * height + sides.open * side * side_depth) / body.open_area;
  body.base_area = footprint + sides.tin * side;
  body.base_depth = (footprint * 0.5 * height + sides.tin * side * side_depth) / body.base_area;
  // Two free opposite sides: (pi/w)^2; one alone a quarter of that; in between squared.
  const Lanes free_share = 0.25 * (sides.open + sides.tin);
  const Lanes across = k_pi * k_pi * free_share * free_share;
  body.decay_x = across / (length * length);
  body.decay_y = across / (width * width);
  body.decay_z = k_pi * k_pi / (height * height);
  PieceGeometry out = reduced(body, volume);
  out.fits = out.fits & (height < 4.0 * min(length, width));
  out.spring_along = 0.0;
  return out;
}

/// In a tin: what rises above its rim is open. `risen` is the share by which the loaf
/// outgrows its height at loading in the middle of the bake (common practice).
PieceGeometry tin_geometry(const Piece& piece, const Lanes& length, const Lanes& width,
                           const Lanes& volume) {
  constexpr double k_risen = 1.15;
  const Lanes depth = metres_or(piece.tin_depth_mm, 0.55 * width);
  const Lanes inside = min(depth * length * width / (k_risen * volume), 1.0);
  PieceGeometry out = block_geometry(length, width, volume, {4.0 * (1.0 - inside), 4.0 * inside});
  out.spring_along = 0.3;  // walls grow with the loaf, the way from wall to wall does not
  return out;
}

}  // namespace

std::string_view piece_shape_name(PieceShape shape) {
  for (const ShapeName& row : k_shape_names) {
    if (row.shape == shape) {
      return row.name;
    }
  }
  return "bun";
}

std::optional<PieceShape> piece_shape_from(std::string_view name) {
  for (const ShapeName& row : k_shape_names) {
    if (row.name == name) {
      return row.shape;
    }
  }
  return std::nullopt;
}

PieceGeometry piece_geometry(const Piece& piece, const Lanes& mass_factor) {
  const Lanes kg = 1e-3 * piece.mass_g * mass_factor;
  const Lanes dense = kg / piece.dough.density_kg_per_m3;
  const Lanes filling = clamp(piece.filling_share, 0.0, 0.7);
  const Lanes porosity = clamp(piece.porosity, 0.0, 0.9);
  const Lanes volume = dense * (filling + (1.0 - filling) / (1.0 - porosity));
  // Usual proportions at loading: common practice, no source.
  switch (piece.shape) {
    case PieceShape::ball:
      return ball_geometry(volume);
    case PieceShape::bun:
      return dome_geometry(piece, volume, 0.55);
    case PieceShape::hearth:
      return dome_geometry(piece, volume, 0.42);
    case PieceShape::cluster:
    case PieceShape::slice: {
      const Lanes side = cube_root(volume / 0.62);
      const Lanes width = metres_or(piece.width_mm, metres_or(piece.diameter_mm, side));
      const Lanes length = metres_or(piece.length_mm, width);
      return block_geometry(length, width, volume, {4.0 - clamp(piece.neighbours, 0.0, 4.0), 0.0});
    }
    case PieceShape::baton: {
      const Lanes width = metres_or(piece.width_mm, cube_root(volume / (5.0 * 0.6)));
      const Lanes length = metres_or(piece.length_mm, 5.0 * width);
      return block_geometry(length, width, volume, {4.0, 0.0});
    }
    case PieceShape::tin_loaf: {
      const Lanes width = metres_or(piece.width_mm, cube_root(volume / (2.0 * 0.85)));
      const Lanes length = metres_or(piece.length_mm, 2.0 * width);
      return tin_geometry(piece, length, width, volume);
    }
    case PieceShape::ring: {
      const Lanes outer = metres_or(piece.diameter_mm, cube_root(volume / 0.32));
      const Lanes width = metres_or(piece.width_mm, 0.32 * outer);
      const Lanes length = k_pi * (outer - width);
      return tin_geometry(piece, length, width, volume);
    }
    case PieceShape::flat: {
      const Lanes usual = sqrt(volume / 0.012);
      const Lanes width = metres_or(piece.width_mm, metres_or(0.886 * piece.diameter_mm, usual));
      const Lanes length = metres_or(piece.length_mm, width);
      return block_geometry(length, width, volume, {});
    }
    case PieceShape::sheet: {
      const Lanes width =
          metres_or(piece.width_mm, metres_or(0.886 * piece.diameter_mm, sqrt(volume / 0.035)));
      const Lanes length = metres_or(piece.length_mm, width);
      return block_geometry(length, width, volume, {});
    }
  }
  return ball_geometry(volume);
}

std::string_view piece_problem(const Piece& piece) {
  const auto within = [](const Lanes& x, double low, double high) {
    return all((x >= Lanes(low)) & (x <= Lanes(high)));
  };
  if (!within(piece.mass_g, 1.0, 20000.0)) {
    return "The piece's mass is outside 1 g to 20 kg: give its mass.";
  }
  if (!within(piece.dough.water_share, 0.02, 0.95) ||
      !within(piece.dough.solids_share, 0.02, 0.98)) {
    return "The dough is nearly all water or nearly none: check its lines.";
  }
  if (!within(piece.start_k, 233.15, 373.15)) {
    return "The piece goes in outside -40 to 100 degrees Celsius: give its temperature.";
  }
  if (!within(piece.porosity, 0.0, 0.95)) {
    return "The share of gas in the piece is outside 0 to 0.95: give how far it has risen.";
  }
  for (const Lanes* mm : {&piece.length_mm, &piece.width_mm, &piece.height_mm, &piece.diameter_mm,
                          &piece.tin_depth_mm}) {
    if (!within(*mm, 0.0, 3000.0)) {
      return "A length of the piece or tin is outside 0 to 3 m: give it in millimetres.";
    }
  }
  if (!within(piece.neighbours, 0.0, 4.0) || !within(piece.wash_factor, 0.1, 10.0) ||
      !within(piece.filling_share, 0.0, 0.95)) {
    return "The piece's neighbours, wash or filling is no sensible number: check them.";
  }
  return {};
}

}  // namespace maslin
