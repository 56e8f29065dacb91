#include "bake/bake_setup.h"

#include "properties/thermal.h"
#include "properties/water.h"

namespace maslin {
namespace {

// The one set of parameters, in the order in which they were settled; docs/models/bake.md
// says against what.
constexpr double k_conduction = 2.12;  // times Maxwell-Eucken at the dough's porosity
constexpr double k_dry_crust = 0.07;   // W/m K, densified crust
constexpr double k_vapour_passage = 0.2;
constexpr double k_closed_passage = 0.05;  // of it, what a paste without gas has (judged)
constexpr double k_crust_passage = 0.33;
constexpr double k_water_diffusivity = 1e-9;  // m2/s
constexpr double k_crust_shrink = 0.44;       // solids 181 in crumb, 321 kg/m3 in crust (memory)
constexpr double k_skin = 0.75;               // of the mass transfer that the Lewis analogy gives
constexpr double k_lewis = 6.5e-9;  // kg/s m2 Pa per W/m2K, film at 140 degrees (computed)
constexpr double k_browning =
    4.3;  // times the dried crumb's rate: sugars and protein at a moist skin
constexpr double k_gas_kept = 0.45;  // of the swelling of the gas that lifts the piece

/// How far pores are those of a risen dough, 0 to 1: what passes through them was settled on doughs
/// with 0.6 of gas and more. A dough's conduction is left as a risen one's: docs/models/bake.md.
Lanes open_pores(const Lanes& porosity) {
  return clamp(porosity * (1.0 / 0.6), 0.0, 1.0);
}

/// Browning by sugar: 5 % of flour 1.15, 12 % 1.5, at most 2. A rough figure:
/// common practice, no source.
Lanes sugar_browning(const DoughFigures& dough) {
  return 1.0 + clamp(0.05 * (dough.sugar_pct_solids - 2.0), 0.0, 1.0);
}

/// Degrees by which sugar delays setting: 0.35 K per g in 100 g of water over a lean
/// dough's 3, at most 15 K (from memory, unverified).
Lanes starch_delay(const DoughFigures& dough) {
  return clamp(0.35 * (dough.sugar_pct_solids / dough.water_per_solids() - 3.0), 0.0, 15.0);
}

ColumnFigures figures_of(const Piece& piece, const Oven& oven, const BakeUnknowns& unknowns,
                         const PieceGeometry& geometry, const Lanes& solids_kg) {
  const DoughFigures& dough = piece.dough;
  ColumnFigures f;
  const Lanes porosity = clamp(piece.porosity, 0.0, 0.9);
  f.solids_heat = dough.solids_heat_j_per_kg_k;
  f.first_water = dough.water_per_solids();
  f.polymer_share = max(dough.binding.polymer_share, 0.02);
  f.solute_water = k_water_molar_mass_kg_per_mol * dough.binding.solute_mol_per_kg_solids;
  const Lanes open = open_pores(porosity);
  f.conductivity_wet =
      k_conduction * unknowns.conductivity_factor *
      porous_conductivity_w_per_m_k(dough.conductivity_w_per_m_k, porosity, 333.15);
  f.conductivity_dry = min(k_dry_crust * unknowns.conductivity_factor, f.conductivity_wet);
  f.crust_shrink = k_crust_shrink;
  f.vapour_passage = k_vapour_passage * max(open, k_closed_passage);
  f.crust_passage = k_crust_passage;
  f.water_diffusivity = k_water_diffusivity;
  f.solids_density = solids_kg / geometry.volume_m3;
  f.volume_gain = k_gas_kept * unknowns.spring_factor * porosity;
  f.spring_conductance = geometry.spring_along * (1.0 / 3.0) - (1.0 - geometry.spring_along);
  f.spring_area = geometry.spring_along * (2.0 / 3.0);
  f.start_k = piece.start_k;
  f.browning_factor = k_browning * unknowns.browning_factor * sugar_browning(dough);
  f.wash_factor = piece.wash_factor;
  f.starch_delay_k = starch_delay(dough);
  f.pressure = oven.pressure_pa;
  const Lanes thin_air = oven.pressure_pa * (1.0 / k_standard_pressure_pa);
  f.convection = oven.figures.convection_w_per_m2_k * unknowns.convection_factor * sqrt(thin_air);
  f.radiation = min(oven.figures.radiation * unknowns.radiation_factor, 1.0);
  f.mass_transfer = k_skin * k_lewis * unknowns.evaporation_factor * f.convection / thin_air;
  f.base_vent = oven.bakeware.vent;
  f.plate_heat = oven.bakeware.heat_j_per_m2_k;
  f.plate_convection = f.convection;
  f.plate_radiation =
      min(oven.bakeware.emissivity * oven.figures.radiation * unknowns.radiation_factor, 1.0);
  f.plate_contact = oven.bakeware.contact_w_per_m2_k;
  settle_figures(f);
  return f;
}

/// Of a filling or topping: its own heat, binding and conductivity. The dough's factor on
/// Maxwell-Eucken is for its pores; a paste without gas conducts as its components do and
/// lets hardly any vapour pass (a twentieth of a crumb's: common practice, no source).
ColumnFigures figures_of_part(const DoughFigures& made_of, const Lanes& gas_share,
                              const Piece& piece, const ColumnFigures& dough,
                              const BakeUnknowns& unknowns) {
  ColumnFigures f = dough;
  const Lanes porosity = clamp(gas_share, 0.0, 0.9);
  const Lanes open = open_pores(porosity);
  f.solids_heat = made_of.solids_heat_j_per_kg_k;
  f.first_water = max(made_of.water_per_solids(), 1e-3);
  f.polymer_share = max(made_of.binding.polymer_share, 0.02);
  f.solute_water = k_water_molar_mass_kg_per_mol * made_of.binding.solute_mol_per_kg_solids;
  f.conductivity_wet =
      (1.0 + (k_conduction - 1.0) * open) * unknowns.conductivity_factor *
      porous_conductivity_w_per_m_k(made_of.conductivity_w_per_m_k, porosity, 333.15);
  f.conductivity_dry = min(dough.conductivity_dry, f.conductivity_wet);
  f.vapour_passage = k_vapour_passage * max(open, k_closed_passage);
  const auto gas = [](const Lanes& share, const DoughFigures& stuff) {
    return share / ((1.0 - share) * stuff.density_kg_per_m3 * stuff.solids_share);
  };
  f.gas = gas(porosity, made_of) / max(gas(clamp(piece.porosity, 0.0, 0.9), piece.dough), 1e-9);
  settle_figures(f);
  return f;
}

/// A topping besides: it browns by its own sugar, shrinks by the water it loses, and what is
/// mostly water (over one part to one of solids) moves it up ten times as fast as a crumb does
/// (judged: it flows and is drawn, no source).
ColumnFigures figures_of_topping(const Piece& piece, const ColumnFigures& dough,
                                 const BakeUnknowns& unknowns) {
  constexpr double k_runs = 10.0;
  const DoughFigures& made_of = *piece.topping;
  ColumnFigures f = figures_of_part(made_of, 0.0, piece, dough, unknowns);
  f.browning_factor = k_browning * unknowns.browning_factor * sugar_browning(made_of);
  f.wash_factor = 1.0;
  f.crust_shrink =
      clamp(made_of.water_share * made_of.density_kg_per_m3 * 1e-3, k_crust_shrink, 0.9);
  f.solids_density = made_of.density_kg_per_m3 * made_of.solids_share;
  f.water_diffusivity =
      select(f.first_water > Lanes(1.0), k_runs * k_water_diffusivity, k_water_diffusivity);
  settle_figures(f);
  return f;
}

OvenCourse course_of(const Oven& oven, const BakeUnknowns& unknowns) {
  OvenCourse out;
  for (const OvenPhase& phase : oven.phases) {
    out.phases.push_back({60.0 * phase.from_minute,
                          max(phase.set_point_k + unknowns.oven_offset_k, 273.15), phase.steam_pa,
                          phase.covered, phase.shade, phase.outside});
  }
  const bool cold = oven.preheat == Preheat::cold;
  const Lanes set = out.phases.front().set_point_k;
  out.room_k = oven.room_k;
  out.top_above_k = oven.figures.top_above_set_k;
  out.floor_above_k = oven.figures.base_above_set_k;
  out.vapour_pa = oven.figures.vapour_pa;
  out.pressure_pa = oven.pressure_pa;
  out.drop_k = oven.figures.drop_k;
  out.first_air_k = cold ? oven.room_k : max(set - oven.figures.drop_k, min(set, oven.room_k));
  out.recovery_s = 60.0 * (cold ? oven.figures.warm_up_minutes : oven.figures.recovery_minutes);
  out.fall_s = 60.0 * oven.figures.fall_minutes;
  out.trapped_share = oven.figures.trapped_share;
  return out;
}

bool sound(const BakeUnknowns& u) {
  const auto within = [](const Lanes& x, double low, double high) {
    return all((x >= Lanes(low)) & (x <= Lanes(high)));
  };
  return within(u.oven_offset_k, -150.0, 150.0) && within(u.convection_factor, 0.01, 20.0) &&
         within(u.radiation_factor, 0.01, 20.0) && within(u.conductivity_factor, 0.05, 20.0) &&
         within(u.evaporation_factor, 0.0, 50.0) && within(u.browning_factor, 0.0, 100.0) &&
         within(u.mass_factor, 0.05, 20.0) && within(u.spring_factor, 0.0, 5.0);
}

}  // namespace

BakeSetup bake_setup(const Piece& whole, const Oven& oven, const DoneRule& rule,
                     const BakeUnknowns& unknowns, const BakeOptions& options) {
  BakeSetup out;
  out.problem = piece_problem(whole);
  if (out.problem.empty()) {
    out.problem = oven_problem(oven);
  }
  if (out.problem.empty() && !sound(unknowns)) {
    out.problem = "A quantity that the bake depends on is no sensible number: check the kitchen.";
  }
  if (!out.problem.empty()) {
    return out;
  }
  const Piece piece = without_topping(whole);
  const PieceSize size = piece_size(piece, unknowns.mass_factor);
  const PieceGeometry geometry = piece_geometry(size);
  if (!all(geometry.fits)) {
    out.problem =
        "The piece's mass and the size stated do not go together (too thin or too tall): check "
        "mass, tin and pieces.";
    return out;
  }
  out.mass_kg = 1e-3 * piece.mass_g * unknowns.mass_factor;
  const Lanes filled_kg =
      piece.filling ? out.mass_kg * clamp(piece.filling_share, 0.0, 0.7) : Lanes(0.0);
  const Lanes dough_kg = (out.mass_kg - filled_kg) * piece.dough.solids_share;
  const bool filled = all(filled_kg > Lanes(0.0));
  out.column =
      make_column(geometry, dough_kg, {options.cells_base, options.cells_core, options.cells_open});
  out.figures = figures_of(piece, oven, unknowns, geometry, dough_kg);
  if (filled) {
    part_solids(out.column, filled_kg * piece.filling->solids_share, dough_kg);
    const Lanes legs = geometry.volume_m3 * (1.0 - size.filling_share);
    out.figures.solids_density = dough_kg / legs;
    // Only what has gas swells: as much of it as the whole has.
    out.figures.volume_gain *= (1.0 - size.filling_share) + size.filling_share *
                                                                piece.filling_porosity /
                                                                max(piece.porosity, 1e-6);
    settle_figures(out.figures);
    out.figures.filling = std::make_shared<const ColumnFigures>(
        figures_of_part(*piece.filling, piece.filling_porosity, piece, out.figures, unknowns));
  }
  const Lanes topped_kg =
      1e-3 * whole.mass_g * unknowns.mass_factor * clamp(whole.topping_share, 0.0, 0.7);
  if (whole.topping && all(topped_kg > Lanes(0.0))) {
    const DoughFigures& made_of = *whole.topping;
    out.column =
        with_topping(out.column, topped_kg / (made_of.density_kg_per_m3 * out.column.open_area_m2),
                     topped_kg * made_of.solids_share);
    out.figures.topping =
        std::make_shared<const ColumnFigures>(figures_of_topping(whole, out.figures, unknowns));
    out.mass_kg += topped_kg;
  }
  out.course = course_of(oven, unknowns);
  out.start.temperature.assign(out.column.count, piece.start_k);
  out.start.water.assign(out.column.count, out.figures.first_water);
  for (std::size_t i = 1; i < out.column.count; ++i) {
    out.start.water[i] = out.figures.at(out.column, i).first_water;
  }
  out.start.water[0] = 0.0;
  out.start.temperature[0] = oven.bakeware.preheated && oven.preheat == Preheat::hot
                                 ? out.course.first_air_k
                                 : oven.room_k;
  out.loss_target_pct = loss_when_baked_pct(piece, 1e3 * out.mass_kg, rule.weight_loss_pct);
  out.core_target_k = min(rule.core_k, boiling_point_k(oven.pressure_pa) - 2.0);
  return out;
}

}  // namespace maslin
