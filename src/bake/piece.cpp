#include "bake/piece.h"

#include <array>

#include "properties/water.h"

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

PieceSize ball_size(const Lanes& volume) {
  PieceSize out;
  out.form = PieceForm::ball;
  out.height_m = 2.0 * cube_root(volume * (3.0 / (4.0 * k_pi)));
  out.length_m = out.height_m;
  out.width_m = out.height_m;
  out.volume_m3 = volume;
  return out;
}

/// A dome with this ratio of height to base diameter, or as stated: volume
/// pi a^2 h (rim + (1 - rim) / 2).
PieceSize dome_size(const Piece& piece, const Lanes& volume, double ratio) {
  constexpr double k_full = k_pi * (k_dome_rim + 0.5 * (1.0 - k_dome_rim));
  const Lanes usual = cube_root(volume / (k_full * 2.0 * ratio));
  const Lanes a = metres_or(piece.diameter_mm, 2.0 * usual) * 0.5;
  PieceSize out;
  out.form = PieceForm::dome;
  out.length_m = 2.0 * a;
  out.width_m = 2.0 * a;
  out.height_m = volume / (k_full * a * a);
  out.volume_m3 = volume;
  return out;
}

PieceSize block_size(const Lanes& length, const Lanes& width, const Lanes& volume,
                     const Lanes& open_sides) {
  PieceSize out;
  out.form = PieceForm::block;
  out.length_m = length;
  out.width_m = width;
  out.height_m = volume / (length * width);
  out.volume_m3 = volume;
  out.open_sides = open_sides;
  out.spring_along = 0.0;
  return out;
}

/// In a tin: what rises above its rim is open. `risen` is the share by which the loaf
/// outgrows its height at loading in the middle of the bake (common practice).
PieceSize tin_size(const Piece& piece, const Lanes& length, const Lanes& width,
                   const Lanes& volume) {
  constexpr double k_risen = 1.15;
  const Lanes depth = metres_or(piece.tin_depth_mm, 0.55 * width);
  const Lanes inside = min(depth * length * width / (k_risen * volume), 1.0);
  PieceSize out = block_size(length, width, volume, 4.0 * (1.0 - inside));
  out.tin_sides = 4.0 * inside;
  out.spring_along = 0.3;  // walls grow with the loaf, the way from wall to wall does not
  return out;
}

PieceSize shaped(const Piece& piece, const Lanes& volume) {
  switch (piece.shape) {
    case PieceShape::ball:
      return ball_size(volume);
    case PieceShape::bun:
      return dome_size(piece, volume, 0.55);
    case PieceShape::hearth:
      return dome_size(piece, volume, 0.42);
    case PieceShape::cluster:
    case PieceShape::slice: {
      const Lanes side = cube_root(volume / 0.62);
      const Lanes width = metres_or(piece.width_mm, metres_or(piece.diameter_mm, side));
      const Lanes length = metres_or(piece.length_mm, width);
      return block_size(length, width, volume, 4.0 - clamp(piece.neighbours, 0.0, 4.0));
    }
    case PieceShape::baton: {
      const Lanes width = metres_or(piece.width_mm, cube_root(volume / (5.0 * 0.6)));
      const Lanes length = metres_or(piece.length_mm, 5.0 * width);
      return block_size(length, width, volume, 4.0);
    }
    case PieceShape::tin_loaf: {
      const Lanes width = metres_or(piece.width_mm, cube_root(volume / (2.0 * 0.85)));
      const Lanes length = metres_or(piece.length_mm, 2.0 * width);
      return tin_size(piece, length, width, volume);
    }
    case PieceShape::ring: {
      const Lanes outer = metres_or(piece.diameter_mm, cube_root(volume / 0.32));
      const Lanes width = metres_or(piece.width_mm, 0.32 * outer);
      return tin_size(piece, k_pi * (outer - width), width, volume);
    }
    case PieceShape::flat:
    case PieceShape::sheet: {
      // 12 mm and 35 mm high unless stated.
      const double height_m = piece.shape == PieceShape::flat ? 0.012 : 0.035;
      const Lanes width =
          metres_or(piece.width_mm, metres_or(0.886 * piece.diameter_mm, sqrt(volume / height_m)));
      const Lanes length = metres_or(piece.length_mm, width);
      return block_size(length, width, volume, 0.0);
    }
  }
  return ball_size(volume);
}

}  // namespace

Lanes frozen_start_k(const DoughFigures& dough, double celsius) {
  constexpr double k_cryoscopic_k_kg_per_mol = 1.86;
  constexpr double k_fusion_j_per_kg = 333.6e3;
  constexpr double k_never_freezes = 0.3;
  constexpr double k_ice_spares_j_per_kg_k = 2100.0;  // water 4.2, ice 2.1 kJ/(kg K): from memory
  const Lanes water = dough.water_share;
  const Lanes free =
      max(water - k_never_freezes * dough.binding.polymer_share * dough.solids_share, 0.0);
  const Lanes freezes = -max(k_cryoscopic_k_kg_per_mol * dough.binding.solute_mol_per_kg_solids *
                                 dough.solids_share / max(water, 1e-6),
                             0.5);
  const Lanes below = max(freezes - celsius, 0.0);
  const Lanes ice = select(below > Lanes(0.0), free * (1.0 - freezes / min(celsius, -0.5)), 0.0);
  const Lanes heat = dough.solids_heat_j_per_kg_k * dough.solids_share + 4186.0 * water;
  const Lanes lacking = (heat - k_ice_spares_j_per_kg_k * ice) * below + k_fusion_j_per_kg * ice;
  return select(below > Lanes(0.0), k_zero_celsius_k + freezes - lacking / heat,
                k_zero_celsius_k + celsius);
}

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

Piece without_topping(const Piece& piece) {
  Piece out = piece;
  if (piece.topping) {
    const Lanes rest = 1.0 - clamp(piece.topping_share, 0.0, 0.7);
    out.mass_g = piece.mass_g * rest;
    out.filling_share = min(piece.filling_share / rest, 0.7);
    out.topping_share = 0.0;
    out.topping.reset();
  }
  return out;
}

Piece with_topping_spread(const Piece& piece) {
  Piece out = piece;
  if (piece.topping) {
    out.filling_share = min(piece.filling_share + piece.topping_share, 0.7);
    out.filling.reset();
    out.topping_share = 0.0;
    out.topping.reset();
  }
  return out;
}

PieceSize piece_size(const Piece& whole, const Lanes& mass_factor) {
  const Piece piece = without_topping(whole);
  const Lanes kg = 1e-3 * piece.mass_g * mass_factor;
  const Lanes share = clamp(piece.filling_share, 0.0, 0.7);
  const Lanes dough =
      kg * (1.0 - share) / piece.dough.density_kg_per_m3 / (1.0 - clamp(piece.porosity, 0.0, 0.9));
  const Lanes filling = piece.filling ? kg * share / piece.filling->density_kg_per_m3 /
                                            (1.0 - clamp(piece.filling_porosity, 0.0, 0.9))
                                      : kg * share / piece.dough.density_kg_per_m3;
  const Lanes volume = dough + filling;
  PieceSize out = shaped(piece, volume);
  out.filling_share = piece.filling ? filling / volume : Lanes(0.0);
  return out;
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
  if (!within(piece.start_k, 193.15, 373.15)) {
    return "The piece goes in outside -80 to 100 degrees Celsius: give its temperature.";
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
      !within(piece.filling_share, 0.0, 0.95) || !within(piece.filling_porosity, 0.0, 0.95)) {
    return "The piece's neighbours, wash or filling is no sensible number: check them.";
  }
  if (!within(piece.topping_share, 0.0, 0.7) ||
      (piece.topping && (!within(piece.topping->water_share, 0.0, 0.98) ||
                         !within(piece.topping->solids_share, 0.02, 1.0)))) {
    return "The topping is heavier than the piece can carry, or nearly all water: check its lines.";
  }
  if (piece.filling && (!within(piece.filling->water_share, 0.0, 0.98) ||
                        !within(piece.filling->solids_share, 0.02, 1.0))) {
    return "The filling is nearly all water: check its lines.";
  }
  return {};
}

}  // namespace maslin
