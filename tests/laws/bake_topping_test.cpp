// A piece with a layer on its open surface: balances, and what such a layer does.
#include <doctest/doctest.h>

#include "bake/bake.h"

using namespace maslin;

namespace {

constexpr double k_celsius = 273.15;

/// Of so much water and sugar (% of the solids), polymers a kg of solids and dissolved mol a kg.
DoughFigures stuff(double water, double density_kg_per_m3, double conductivity_w_per_m_k,
                   double sugar_pct, double polymers, double dissolved_mol) {
  DoughFigures out;
  out.water_share = water;
  out.solids_share = 1.0 - water;
  out.density_kg_per_m3 = density_kg_per_m3;
  out.conductivity_w_per_m_k = conductivity_w_per_m_k;
  out.sugar_pct_solids = sugar_pct;
  out.binding.polymer_share = polymers;
  out.binding.solute_mol_per_kg_solids = dissolved_mol;
  return out;
}

/// Crushed tomato with a little oil: nine tenths of water.
DoughFigures tomato() {
  return stuff(0.88, 1030.0, 0.55, 40.0, 0.4, 3.0);
}

/// Butter, sugar and flour rubbed together.
DoughFigures crumble() {
  return stuff(0.09, 1200.0, 0.22, 30.0, 0.45, 0.9);
}

Piece flat(double dough_g, double topping_g, const DoughFigures& topping) {
  Piece out;
  out.shape = PieceShape::flat;
  out.mass_g = dough_g + topping_g;
  out.porosity = 0.4;
  out.diameter_mm = 300.0;
  out.topping_share = topping_g / (dough_g + topping_g);
  if (topping_g > 0.0) {
    out.topping = topping;
  }
  return out;
}

BakeRun baked(const Piece& piece, double celsius, int finer = 1) {
  DoneRule rule;
  rule.by = DoneBy::time;
  rule.minutes = 12.0;
  BakeOptions options;
  options.cells_open *= finer;
  options.cells_base *= finer;
  options.tolerance = finer > 1 ? 0.1 : 1.0;
  return bake_piece(piece, oven_of(OvenKind::conventional, celsius + k_celsius), rule, {}, options);
}

}  // namespace

TEST_CASE("A topped piece keeps heat and water") {
  for (const PieceShape shape : {PieceShape::flat, PieceShape::bun, PieceShape::cluster,
                                 PieceShape::sheet, PieceShape::tin_loaf}) {
    for (const double share : {0.02, 0.2, 0.5, 0.7}) {
      for (const DoughFigures& stuff : {tomato(), crumble()}) {
        CAPTURE(static_cast<int>(shape));
        CAPTURE(share);
        Piece piece = flat(120.0, 0.0, {});
        piece.shape = shape;
        piece.diameter_mm = 0.0;
        piece.topping = stuff;
        piece.topping_share = share;
        const BakeRun run = baked(piece, 220.0);
        REQUIRE(run.status == BakeStatus::done);
        CHECK(run.mass_closure < 1e-6);
        CHECK(run.energy_closure < 1e-6);
        CHECK(run.at_done.surface_k[0] < 500.0);
        CHECK(run.steps < 2000);
      }
    }
  }
}

TEST_CASE("Under a wet layer a flat bread bakes slower and keeps its own water") {
  const BakeRun bare = baked(flat(250.0, 0.0, {}), 250.0);
  const BakeRun topped = baked(flat(250.0, 150.0, tomato()), 250.0);
  // The crumb's coldest place, early on.
  CHECK(moment_at(topped, 4.0).core_k[0] < moment_at(bare, 4.0).core_k[0] - 3.0);
  // A wet top is held near the boiling point long after a bare one has dried.
  CHECK(moment_at(topped, 5.0).surface_k[0] < k_celsius + 108.0);
  CHECK(moment_at(bare, 5.0).surface_k[0] > moment_at(topped, 5.0).surface_k[0]);
  // What it loses is the layer's: of the whole in grams less than the layer had to give.
  const double lost_g = 4.0 * topped.at_done.weight_loss_pct[0];
  CHECK(lost_g > 20.0);
  CHECK(lost_g < 150.0 * 0.88 + 0.5 * 2.5 * bare.at_done.weight_loss_pct[0]);
  // Thick layers shield more than thin ones.
  const BakeRun thick = baked(flat(250.0, 300.0, tomato()), 250.0);
  CHECK(moment_at(thick, 4.0).core_k[0] < moment_at(topped, 4.0).core_k[0]);
}

TEST_CASE("A dry crumble browns by its own sugar, a wet layer hardly") {
  const BakeRun sweet = baked(flat(250.0, 100.0, crumble()), 220.0);
  const BakeRun wet = baked(flat(250.0, 100.0, tomato()), 220.0);
  CHECK(sweet.at_done.lightness[0] < wet.at_done.lightness[0] - 3.0);
}

TEST_CASE("The usual mesh follows a layer as a finer one does") {
  for (const DoughFigures& stuff : {tomato(), crumble()}) {
    const BakeRun usual = baked(flat(250.0, 150.0, stuff), 230.0);
    const BakeRun finer = baked(flat(250.0, 150.0, stuff), 230.0, 3);
    for (const double at : {3.0, 6.0, 12.0}) {
      CAPTURE(at);
      CHECK(moment_at(usual, at).core_k[0] ==
            doctest::Approx(moment_at(finer, at).core_k[0]).epsilon(2e-3));
      CHECK(moment_at(usual, at).weight_loss_pct[0] ==
            doctest::Approx(moment_at(finer, at).weight_loss_pct[0]).epsilon(0.03));
    }
  }
}
