#include "plan/oven_room.h"

#include <algorithm>
#include <cmath>

#include "plan/embedded_table.h"
#include "quantity/table.h"

namespace maslin {
namespace {

struct Size {
  double length = 0.0;
  double width = 0.0;
};

/// Row of a table whose `column` says `word`; the first when there is none.
std::size_t row_where(const Table& table, std::string_view column, std::string_view word) {
  for (std::size_t row = 0; row < table.size(); ++row) {
    if (table.cell(row, column) == word) {
      return row;
    }
  }
  return 0;
}

/// Pieces of that size with a gap between them on a shelf, turned the better way.
double on_shelf(const Size& shelf, const Size& piece, double gap) {
  const auto along = [gap](double room, double each) {
    return std::floor((room + gap) / (each + gap));
  };
  return std::max(along(shelf.length, piece.length) * along(shelf.width, piece.width),
                  along(shelf.length, piece.width) * along(shelf.width, piece.length));
}

bool shares_one_tin(const PlannedBake& bake) {
  return bake.shape == PieceShape::sheet ||
         (bake.tin && (bake.shape == PieceShape::cluster || bake.shape == PieceShape::slice));
}

struct Shelves {
  Size each;
  double levels = 1.0;
};

/// The baker's own trays, where they are known, are what the pieces lie on.
Shelves on_own_trays(Shelves shelves, const std::vector<Tin>& tins) {
  double trays = 0.0;
  for (const Tin& tin : tins) {
    if (tin.kind == "tray" && tin.length_mm > 0.0 && tin.width_mm > 0.0) {
      const Size size{tin.length_mm, tin.width_mm};
      shelves.each = trays > 0.0 ? Size{std::min(shelves.each.length, size.length),
                                        std::min(shelves.each.width, size.width)}
                                 : size;
      trays += 1.0;
    }
  }
  shelves.levels = trays > 0.0 ? std::min(shelves.levels, trays) : shelves.levels;
  return shelves;
}

}  // namespace

OvenRoom oven_room_of(const ForecastSetup& setup, double piece_grams) {
  const Table ovens(plan_data::embedded_table("oven_room.tsv"));
  const Table pieces(plan_data::embedded_table("piece_room.tsv"));
  const PlannedBake& bake = setup.schedule.bake;
  const std::size_t row =
      row_where(ovens, "oven", oven_kind_name(setup.kitchen.oven.value_or(OvenKind::conventional)));
  OvenRoom out;
  out.preheat_minutes = ovens.number(row, "preheat_minutes");
  out.preheat_spread = ovens.number(row, "spread");
  out.reload_minutes = ovens.number(row, "reload_minutes");
  if (shares_one_tin(bake)) {
    out.pieces_at_once = bake.pieces;
    return out;
  }
  Shelves shelves{{ovens.number(row, "length_mm"), ovens.number(row, "width_mm")},
                  ovens.number(row, "levels")};
  const std::size_t shape = row_where(pieces, "shape", piece_shape_name(bake.shape));
  const double breadth =
      pieces.number(shape, "mm_per_cube_root_g") * std::cbrt(std::max(piece_grams, 1.0));
  Size piece{breadth * pieces.number(shape, "length_ratio", 1.0), breadth};
  if (bake.tin && bake.tin->length_mm > 0.0 && bake.tin->width_mm > 0.0) {
    piece = {bake.tin->length_mm, bake.tin->width_mm};
  } else {
    shelves = on_own_trays(shelves, setup.kitchen.tins);
  }
  const double gap = pieces.number(shape, "gap_mm");
  out.pieces_at_once = std::max(shelves.levels * on_shelf(shelves.each, piece, gap), 1.0);
  return out;
}

}  // namespace maslin
