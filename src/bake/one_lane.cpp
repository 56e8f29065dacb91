#include "bake/one_lane.h"

namespace maslin {
namespace {

template <typename... Fields>
void spread(std::size_t lane, Fields&... fields) {
  ((fields = Lanes(fields[lane])), ...);
}

void spread_dough(std::size_t lane, DoughFigures& dough) {
  spread(lane, dough.water_share, dough.solids_share, dough.solids_heat_j_per_kg_k,
         dough.density_kg_per_m3, dough.conductivity_w_per_m_k, dough.sugar_pct_solids,
         dough.protein_pct_solids, dough.fat_pct_solids, dough.binding.polymer_share,
         dough.binding.solute_mol_per_kg_solids);
}

}  // namespace

Piece one_lane(const Piece& piece, std::size_t lane) {
  Piece out = piece;
  spread(lane, out.mass_g, out.porosity, out.start_k, out.length_mm, out.width_mm, out.height_mm,
         out.diameter_mm, out.tin_depth_mm, out.neighbours, out.wash_factor, out.filling_share,
         out.filling_porosity, out.topping_share);
  spread_dough(lane, out.dough);
  if (out.filling) {
    spread_dough(lane, *out.filling);
  }
  if (out.topping) {
    spread_dough(lane, *out.topping);
  }
  return out;
}

Oven one_lane(const Oven& oven, std::size_t lane) {
  Oven out = oven;
  spread(lane, out.room_k, out.pressure_pa);
  for (OvenPhase& phase : out.phases) {
    spread(lane, phase.set_point_k);
  }
  return out;
}

BakeUnknowns one_lane(const BakeUnknowns& unknowns, std::size_t lane) {
  BakeUnknowns out = unknowns;
  spread(lane, out.oven_offset_k, out.convection_factor, out.radiation_factor,
         out.conductivity_factor, out.evaporation_factor, out.browning_factor, out.mass_factor,
         out.spring_factor);
  return out;
}

}  // namespace maslin
