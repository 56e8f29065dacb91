// What the makers of entries look at: the dough's totals, the cooling piece, the crumb.
#include "finish/entries.h"
#include "finish/syrup.h"

namespace maslin {
namespace {

constexpr double k_trace_g = 1e-9;

CoolingBody cooling_body(const BakedPiece& piece, const FinishUnknowns& unknowns) {
  CoolingBody body;
  body.shape = piece.shape;
  body.w_m_k = unknowns.crumb_w_m_k;
  body.kg_m3 = unknowns.piece_kg_m3;
  body.j_kg_k = unknowns.crumb_j_kg_k;
  // From memory: 14 W/m2K on a rack in still air, 10 on a tray or crowded, 20 in a draught.
  double by_place = 1.0;
  if (piece.place == CoolingPlace::tray) {
    by_place = 10.0 / 14.0;
  } else if (piece.place == CoolingPlace::fan) {
    by_place = 20.0 / 14.0;
  }
  body.film_w_m2_k = unknowns.cooling_w_m2_k * by_place;
  const Lanes radius = ball_radius_m(piece.grams, body.kg_m3);
  if (piece.shape == CoolingShape::ball) {
    body.half_thickness_m = radius;
  } else {
    // Pieces that touch are about as tall as a cube of their volume; on a tray they cool
    // from above alone, so that their whole height is the half thickness.
    const Lanes height = pow(max(1e-3 * piece.grams / body.kg_m3, 1e-12), 1.0 / 3.0);
    body.half_thickness_m = piece.place == CoolingPlace::tray ? height : 0.5 * height;
  }
  return body;
}

}  // namespace

FinishScene finish_scene(const FinishTables& tables, const std::vector<FinishPart>& parts,
                         const BakedPiece& piece, const FinishUnknowns& unknowns) {
  FinishScene scene{tables, parts, piece, unknowns, {}, {}, 0.0, 0.0, false, {}, 100.0, 0.38};
  scene.body = cooling_body(piece, unknowns);
  scene.water_boils_celsius = water_boils_celsius(unknowns.altitude_m);
  scene.cooling = cooling_curve(scene.body);
  scene.crumb = {0.95, 160.0, 1.0};
  for (const FinishPart& part : parts) {
    if (part.kind != PartKind::dough) {
      continue;
    }
    const Lanes grams = part.portions.total_grams();
    scene.has_dough = true;
    scene.dough_g += grams;
    scene.flour_g += part.portions.grams_of_kind(IngredientKind::flour);
    const Lanes water = part.portions.grams_of(Component::water) - piece.dough_loss * grams;
    const Lanes baked_g = max(grams * (1.0 - piece.dough_loss), k_trace_g);
    scene.crumb.water_activity =
        clamp(part_water_activity(part.portions, max(water, 0.0)) + unknowns.crumb_activity_error,
              0.0, 0.999);
    scene.crumb.polymer_kg_m3 = unknowns.piece_kg_m3 * polymer_g(part.portions) / baked_g;
    scene.crumb_water_fraction = max(water, 0.0) / baked_g;
  }
  return scene;
}

}  // namespace maslin
