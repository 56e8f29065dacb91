// A piece with a filling in its middle: balances, and where it must be no other than a
// plain piece.
#include <doctest/doctest.h>

#include <array>
#include <cmath>

#include "bake/bake.h"

using namespace maslin;

namespace {

constexpr double k_celsius = 273.15;

/// Cooked dates with water and a little butter: about a third of water, mostly sugar.
DoughFigures date_paste() {
  DoughFigures paste;
  paste.water_share = 0.35;
  paste.solids_share = 0.65;
  paste.solids_heat_j_per_kg_k = 1600.0;
  paste.density_kg_per_m3 = 1280.0;
  paste.conductivity_w_per_m_k = 0.38;
  paste.sugar_pct_solids = 80.0;
  paste.binding.polymer_share = 0.2;
  paste.binding.solute_mol_per_kg_solids = 4.0;
  return paste;
}

Piece bun(PieceShape shape, double grams, double filling_share) {
  Piece p;
  p.shape = shape;
  p.mass_g = grams;
  p.porosity = 0.62;
  p.neighbours = 3.0;
  p.filling_share = filling_share;
  return p;
}

BakeRun baked(const Piece& piece, double minutes = 60.0, int finer = 1) {
  DoneRule rule;
  rule.core_k = 91.0 + k_celsius;
  BakeOptions options;
  options.at_least_minutes = minutes;
  options.cells_open *= finer;
  options.cells_base *= finer;
  options.cells_core *= finer;
  return bake_piece(piece, oven_of(OvenKind::conventional, 190.0 + k_celsius), rule, {}, options);
}

}  // namespace

TEST_CASE("A filling of the dough's own stuff is a plain piece") {
  for (const PieceShape shape : {PieceShape::ball, PieceShape::bun, PieceShape::cluster}) {
    CAPTURE(static_cast<int>(shape));
    // The rim shifts the cells, so on a mesh fine enough that this does not tell.
    const BakeRun plain = baked(bun(shape, 90.0, 0.0), 60.0, 3);
    for (const double share : {0.15, 0.3}) {
      CAPTURE(share);
      Piece filled = bun(shape, 90.0, share);
      filled.filling = filled.dough;
      filled.filling_porosity = filled.porosity;
      const BakeRun run = baked(filled, 60.0, 3);
      REQUIRE(run.status == BakeStatus::done);
      for (const double at : {5.0, 10.0, 20.0, 30.0, 45.0}) {
        CAPTURE(at);
        const BakeMoment a = moment_at(plain, at);
        const BakeMoment b = moment_at(run, at);
        // In the middle of both, in kelvin: 0.1 % of 370 K.
        CHECK(b.filling_k[0] == doctest::Approx(a.core_k[0]).epsilon(1e-3));
        CHECK(b.surface_k[0] == doctest::Approx(a.surface_k[0]).epsilon(1e-3));
        CHECK(std::fabs(b.weight_loss_pct[0] - a.weight_loss_pct[0]) < 0.02);
        CHECK(b.volume_ratio[0] == doctest::Approx(a.volume_ratio[0]).epsilon(1e-3));
      }
    }
  }
}

TEST_CASE("A filled piece keeps heat and water") {
  for (const double share : {0.02, 0.1, 0.3, 0.5, 0.7}) {
    CAPTURE(share);
    for (const PieceShape shape :
         {PieceShape::ball, PieceShape::bun, PieceShape::cluster, PieceShape::tin_loaf}) {
      CAPTURE(static_cast<int>(shape));
      Piece filled = bun(shape, shape == PieceShape::tin_loaf ? 700.0 : 90.0, share);
      filled.filling = date_paste();
      const BakeRun run = baked(filled, 40.0);
      REQUIRE(run.status != BakeStatus::impossible);
      CHECK(run.mass_closure < 1e-6);
      CHECK(run.energy_closure < 1e-6);
      // The crumb is ahead of what it wraps, but for the steam that a sweet paste draws: it
      // boils a few kelvin above water.
      const BakeMoment end = run.trace.back();
      CHECK(end.filling_k[0] <= end.core_k[0] + 4.0);
      CHECK(end.filling_k[0] < 110.0 + k_celsius);
    }
  }
}

TEST_CASE("More filling without gas takes longer to warm") {
  double last = 0.0;
  for (const double share : {0.0, 0.15, 0.3, 0.45}) {
    Piece filled = bun(PieceShape::bun, 90.0 / (1.0 - share), share);
    filled.filling = date_paste();
    const BakeRun run = baked(filled, 60.0);
    double when = 0.0;
    while (when < 60.0 && moment_at(run, when).filling_k[0] < 75.0 + k_celsius) {
      when += 0.1;
    }
    CHECK(when > last);
    last = when;
  }
}
