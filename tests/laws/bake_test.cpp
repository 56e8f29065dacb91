// Laws of the bake: balances close, nothing is ever no number, hotter and smaller is
// sooner, and draws that share a batch do not share their fate.
#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <limits>
#include <string>

#include "bake/bake.h"
#include "numerics/draws.h"
#include "support/all_cases.h"

using namespace maslin;

namespace {

constexpr std::array k_shapes{PieceShape::ball,     PieceShape::bun,    PieceShape::cluster,
                              PieceShape::slice,    PieceShape::hearth, PieceShape::baton,
                              PieceShape::tin_loaf, PieceShape::ring,   PieceShape::flat,
                              PieceShape::sheet};
constexpr std::array k_kinds{OvenKind::conventional,  OvenKind::fan, OvenKind::gas, OvenKind::wood,
                             OvenKind::charcoal_drum, OvenKind::pot, OvenKind::none};
constexpr std::array k_ware{"tray",       "dark tray", "bright tray", "tin",     "dark tin",
                            "bright tin", "cast iron", "glass",       "ceramic", "paper",
                            "rack",       "stone",     "steel"};

/// Uniform draws under one name each, for one batch of eight cases.
struct Cases {
  std::uint32_t batch;
  Lanes between(const char* name, double low, double high) const {
    return low + (high - low) * draw_lanes(name_key(name), 3, 8 * batch);
  }
  Lanes logarithmic(const char* name, double low, double high) const {
    return exp(between(name, std::log(low), std::log(high)));
  }
  double one(const char* name, double low, double high) const {
    return between(name, low, high)[0];
  }
  template <class T, std::size_t N>
  T pick(const char* name, const std::array<T, N>& from) const {
    return from[static_cast<std::size_t>(one(name, 0.0, static_cast<double>(N) - 1e-9))];
  }
};

Piece any_piece(const Cases& c) {
  Piece p;
  p.shape = c.pick("shape", k_shapes);
  p.mass_g = c.logarithmic("mass", 1.0, 20000.0);
  p.porosity = c.between("porosity", 0.0, 0.95);
  p.start_k = c.between("start", 233.15, 373.15);
  const Lanes water = c.between("water", 0.03, 0.9);
  p.dough.water_share = water;
  p.dough.solids_share = max((1.0 - water) * c.between("dry", 0.7, 1.0), 0.02);
  p.dough.solids_heat_j_per_kg_k = c.between("heat", 1000.0, 2200.0);
  p.dough.density_kg_per_m3 = c.between("density", 900.0, 1500.0);
  p.dough.conductivity_w_per_m_k = c.between("conductivity", 0.15, 0.6);
  p.dough.sugar_pct_solids = c.between("sugar", 0.0, 80.0);
  p.dough.binding.polymer_share = c.between("polymer", 0.0, 1.0);
  p.dough.binding.solute_mol_per_kg_solids = c.between("solute", 0.0, 8.0);
  if (c.one("stated", 0.0, 1.0) > 0.5) {
    // Sizes about what the mass would have, from four fifths of it to nearly twice.
    const Lanes about = pow(2e6 * p.mass_g / 1000.0, 1.0 / 3.0);
    p.length_mm = about * c.logarithmic("length", 0.8, 1.8);
    p.width_mm = about * c.logarithmic("width", 0.8, 1.8);
    p.diameter_mm = about * c.logarithmic("diameter", 0.8, 1.8);
    p.tin_depth_mm = about * c.logarithmic("depth", 0.1, 1.0);
  }
  p.neighbours = c.between("neighbours", 0.0, 4.0);
  p.wash_factor = c.between("wash", 0.5, 3.0);
  p.filling_share = c.between("filling", 0.0, 0.7);
  if (c.one("filled", 0.0, 1.0) > 0.6) {
    DoughFigures stuff;
    stuff.water_share = c.between("filling water", 0.0, 0.95);
    stuff.solids_share = max(1.0 - stuff.water_share, 0.02);
    stuff.density_kg_per_m3 = c.between("filling density", 800.0, 1500.0);
    stuff.conductivity_w_per_m_k = c.between("filling conductivity", 0.15, 0.6);
    stuff.binding.polymer_share = c.between("filling polymer", 0.0, 1.0);
    stuff.binding.solute_mol_per_kg_solids = c.between("filling solute", 0.0, 8.0);
    p.filling = stuff;
    p.filling_porosity = c.between("filling porosity", 0.0, 0.9);
  }
  return p;
}

Oven any_oven(const Cases& c) {
  Oven o =
      oven_of(c.pick("kind", k_kinds), c.between("set", 273.15, 973.15), c.pick("ware", k_ware));
  o.pressure_pa = c.between("pressure", 3e4, 1.1e5);
  o.room_k = c.between("room", 250.0, 320.0);
  o.preheat = c.one("cold", 0.0, 1.0) > 0.7 ? Preheat::cold : Preheat::hot;
  o.phases.front().steam_pa = c.one("steam", 0.0, 1.0) > 0.5 ? 60000.0 : 0.0;
  o.phases.front().covered = c.one("covered", 0.0, 1.0) > 0.8;
  if (c.one("phases", 0.0, 1.0) > 0.5) {
    OvenPhase later;
    later.from_minute = c.one("when", 0.5, 60.0);
    later.set_point_k = c.between("later", 273.15, 973.15);
    o.phases.push_back(later);
  }
  return o;
}

BakeUnknowns any_unknowns(const Cases& c) {
  BakeUnknowns u;
  u.oven_offset_k = c.between("offset", -60.0, 60.0);
  u.convection_factor = c.logarithmic("u convection", 0.2, 5.0);
  u.radiation_factor = c.logarithmic("u radiation", 0.3, 2.0);
  u.conductivity_factor = c.logarithmic("u conductivity", 0.3, 3.0);
  u.evaporation_factor = c.logarithmic("u evaporation", 0.1, 10.0);
  u.browning_factor = c.logarithmic("u browning", 0.1, 10.0);
  u.mass_factor = c.between("u mass", 0.5, 2.0);
  u.spring_factor = c.between("u spring", 0.0, 3.0);
  return u;
}

bool numbers(const BakeMoment& m) {
  for (const Lanes* field : {&m.minutes, &m.core_k, &m.filling_k, &m.surface_k, &m.base_k,
                             &m.weight_loss_pct, &m.lightness, &m.base_lightness, &m.crust_mm,
                             &m.core_water, &m.starch_set, &m.volume_ratio}) {
    for (std::size_t lane = 0; lane < k_lane_count; ++lane) {
      if (!std::isfinite((*field)[lane])) {
        return false;
      }
    }
  }
  return true;
}

bool within(const Lanes& x, double low, double high) {
  return all((x >= Lanes(low)) & (x <= Lanes(high)));
}

Piece bun(double grams) {
  Piece p;
  p.mass_g = grams;
  return p;
}

Oven at(double celsius) {
  return oven_of(OvenKind::conventional, celsius + 273.15);
}

double minutes_to(const Piece& piece, const Oven& oven, double core_celsius) {
  DoneRule rule;
  rule.core_k = core_celsius + 273.15;
  return bake_piece(piece, oven, rule, {}).minutes_to_done[0];
}

}  // namespace

TEST_CASE("Random pieces in random ovens end in numbers that close") {
  // Ten thousand of them under ctest's label `slow`, else a thousand.
  const std::uint32_t batches = all_cases() ? 1250 : 125;
  int done = 0, refused = 0;
  for (std::uint32_t batch = 0; batch < batches; ++batch) {
    const Cases c{batch};
    CAPTURE(batch);
    BakeOptions options;
    options.at_most_minutes = 120.0;
    options.sample_minutes = 5.0;
    const BakeRun run = bake_piece(any_piece(c), any_oven(c), {}, any_unknowns(c), options);
    if (run.status == BakeStatus::impossible) {
      // Only ever because the size drawn cannot belong to the mass.
      CHECK(run.problem.find("size stated") != std::string::npos);
      ++refused;
      continue;
    }
    CHECK((run.status == BakeStatus::done) == run.problem.empty());
    CHECK(numbers(run.at_done));
    CHECK(run.mass_closure < 1e-6);
    CHECK(run.energy_closure < 1e-6);
    CHECK(run.steps < 5000);
    for (const BakeMoment& moment : run.trace) {
      CHECK(numbers(moment));
      CHECK(within(moment.core_k, 200.0, 1100.0));
      CHECK(within(moment.surface_k, 200.0, 1100.0));
      // Steam can make a crumb of a gram nearly twice as heavy.
      CHECK(within(moment.weight_loss_pct, -100.0, 100.0));
      CHECK(within(moment.lightness, 20.0, 85.001));
    }
    done += run.status == BakeStatus::done;
  }
  CHECK(done > static_cast<int>(batches) * 8 / 100);
  CHECK(refused < static_cast<int>(batches) * 32 / 100);
}

TEST_CASE("What cannot be baked comes back with one sentence") {
  const double no_number = std::numeric_limits<double>::quiet_NaN();
  const auto refused = [](const Piece& piece, const Oven& oven, const BakeUnknowns& unknowns) {
    const BakeRun run = bake_piece(piece, oven, {}, unknowns);
    CHECK(run.status == BakeStatus::impossible);
    CHECK(run.problem.size() > 20);
    CHECK(run.problem.back() == '.');
    CHECK(run.trace.empty());
  };
  for (const double grams : {0.0, -5.0, 1e9, no_number}) {
    refused(bun(grams), at(200.0), {});
  }
  Piece dry = bun(60.0);
  dry.dough.water_share = 0.0;
  refused(dry, at(200.0), {});
  Piece odd = bun(60.0);
  odd.length_mm = no_number;
  refused(odd, at(200.0), {});
  refused(bun(60.0), at(2000.0), {});
  refused(bun(60.0), at(no_number), {});
  Oven high = at(200.0);
  high.pressure_pa = 100.0;
  refused(bun(60.0), high, {});
  Oven none = at(200.0);
  none.phases.clear();
  refused(bun(60.0), none, {});
  BakeUnknowns unknowns;
  unknowns.convection_factor = no_number;
  refused(bun(60.0), at(200.0), unknowns);
}

TEST_CASE("An oven too cool bakes nothing, and says so") {
  DoneRule rule;
  rule.core_k = 366.15;
  const BakeRun run = bake_piece(bun(60.0), at(60.0), rule, {});
  CHECK(run.status == BakeStatus::not_reached);
  CHECK(!run.problem.empty());
  CHECK(run.at_done.core_k[0] < 340.0);
}

TEST_CASE("Hotter is sooner, heavier is later, colder dough is later") {
  double last = 1e9;
  for (const double celsius : {150.0, 170.0, 190.0, 220.0, 250.0}) {
    const double now = minutes_to(bun(70.0), at(celsius), 91.0);
    CHECK(now < last);
    last = now;
  }
  last = 0.0;
  for (const double grams : {20.0, 40.0, 80.0, 160.0, 400.0, 900.0}) {
    const double now = minutes_to(bun(grams), at(200.0), 91.0);
    CHECK(now > last);
    last = now;
  }
  Piece cold = bun(70.0);
  cold.start_k = 277.15;
  CHECK(minutes_to(cold, at(200.0), 91.0) > minutes_to(bun(70.0), at(200.0), 91.0));
}

TEST_CASE("A draw's fate hardly hangs on its batch-mates") {
  // Lanes share their steps, so a lane may differ by the error of a step, no more.
  BakeUnknowns mixed;
  for (std::size_t lane = 0; lane < k_lane_count; ++lane) {
    mixed.oven_offset_k.set(lane, 15.0 * (static_cast<double>(lane) - 3.5));
  }
  DoneRule rule;
  rule.core_k = 364.15;
  const BakeRun together = bake_piece(bun(70.0), at(200.0), rule, mixed);
  for (std::size_t lane = 0; lane < k_lane_count; ++lane) {
    BakeUnknowns alone;
    alone.oven_offset_k = mixed.oven_offset_k[lane];
    const BakeRun single = bake_piece(bun(70.0), at(200.0), rule, alone);
    CHECK(together.minutes_to_done[lane] ==
          doctest::Approx(single.minutes_to_done[0]).epsilon(0.005));
  }
}

TEST_CASE("The same bake twice gives the same bits") {
  const BakeRun first = bake_piece(bun(70.0), at(200.0), {}, {});
  const BakeRun second = bake_piece(bun(70.0), at(200.0), {}, {});
  CHECK(first.minutes_to_done[3] == second.minutes_to_done[3]);
  CHECK(first.steps == second.steps);
  CHECK(first.at_done.weight_loss_pct[5] == second.at_done.weight_loss_pct[5]);
}

TEST_CASE(
    "A finer mesh and finer steps move the core by half a kelvin and the loss by 0.2 points") {
  BakeOptions fine;
  fine.cells_base = 48;
  fine.cells_core = 16;
  fine.cells_open = 64;
  fine.tolerance = 0.05;
  DoneRule rule;
  rule.core_k = 364.15;
  for (const PieceShape shape : {PieceShape::bun, PieceShape::cluster, PieceShape::tin_loaf}) {
    Piece p = bun(shape == PieceShape::tin_loaf ? 800.0 : 70.0);
    p.shape = shape;
    const BakeRun coarse = bake_piece(p, at(190.0), rule, {});
    BakeOptions longer = fine;
    longer.at_least_minutes = coarse.minutes_to_done[0] + 1.0;
    const BakeRun exact = bake_piece(p, at(190.0), rule, {}, longer);
    const BakeMoment then = moment_at(exact, coarse.minutes_to_done);
    CAPTURE(piece_shape_name(shape));
    CHECK(std::fabs(then.core_k[0] - rule.core_k[0]) < 0.5);
    CHECK(std::fabs(then.weight_loss_pct[0] - coarse.at_done.weight_loss_pct[0]) < 0.2);
  }
}

TEST_CASE("A time that was stated can be looked up") {
  BakeOptions options;
  options.at_least_minutes = 40.0;
  const BakeRun run = bake_piece(bun(70.0), at(190.0), {}, {}, options);
  const BakeMoment early = moment_at(run, 10.0);
  const BakeMoment late = moment_at(run, 35.0);
  CHECK(early.minutes[0] == doctest::Approx(10.0));
  CHECK(late.core_k[0] > early.core_k[0]);
  CHECK(late.weight_loss_pct[0] > early.weight_loss_pct[0]);
  CHECK(late.lightness[0] < early.lightness[0]);
}
