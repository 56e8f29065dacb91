// The bake against published figures and against what the trade knows. One set of
// parameters throughout. Marks: "read", "from memory", "computed", "common practice".
#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "bake/bake.h"
#include "bake/bake_setup.h"
#include "bake/cell_physics.h"
#include "bake/progress.h"
#include "properties/water.h"
#include "quantity/number_text.h"
#include "support/book.h"

using namespace maslin;

namespace {

constexpr double k_celsius = 273.15;

constexpr std::string_view k_practice = "common practice, no source";

void baked(const std::string& what, std::string_view unit, std::string_view source, book::Mark mark,
           double got, const book::Expected& expected) {
  book::against({"bake", what, unit, source, mark}, got, expected);
}

DoughFigures lean() {
  DoughFigures d;
  d.water_share = 0.4583;
  d.solids_share = 0.5417;
  d.binding.polymer_share = 0.93;
  d.binding.solute_mol_per_kg_solids = 0.8;
  return d;
}

/// Flour 100, water and milk about 52, sugar 11, butter and egg fat 12.
DoughFigures enriched() {
  DoughFigures d;
  d.water_share = 0.36;
  d.solids_share = 0.64;
  d.solids_heat_j_per_kg_k = 1750.0;
  d.density_kg_per_m3 = 1190.0;
  d.conductivity_w_per_m_k = 0.36;
  d.sugar_pct_solids = 11.0;
  d.fat_pct_solids = 11.0;
  d.binding.polymer_share = 0.76;
  d.binding.solute_mol_per_kg_solids = 1.0;
  return d;
}

Piece piece_of(PieceShape shape, double grams, const DoughFigures& dough) {
  Piece p;
  p.shape = shape;
  p.mass_g = grams;
  p.dough = dough;
  p.porosity = 0.63;
  p.start_k = 28.0 + k_celsius;
  return p;
}

DoneRule core_at(double celsius) {
  DoneRule rule;
  rule.core_k = celsius + k_celsius;
  return rule;
}

DoneRule after(double minutes) {
  DoneRule rule;
  rule.by = DoneBy::time;
  rule.minutes = minutes;
  return rule;
}

BakeRun bake(const Piece& piece, const Oven& oven, const DoneRule& rule,
             const BakeOptions& options = {}) {
  return bake_piece(piece, oven, rule, {}, options);
}

double minutes(const BakeRun& run) {
  return run.minutes_to_done[0];
}

Oven home_oven(double celsius, const char* bakeware = "tray") {
  return oven_of(OvenKind::conventional, celsius + k_celsius, bakeware);
}

Piece tin_loaf(double grams, const DoughFigures& dough) {
  Piece p = piece_of(PieceShape::tin_loaf, grams, dough);
  p.length_mm = 216.0;
  p.width_mm = 114.0;
  p.porosity = 0.66;
  return p;
}

}  // namespace

TEST_CASE("Twelve touching pieces of 80 g at gas mark 5 are done by 30 minutes and a little dark") {
  // Common practice, no source: gas mark 5 is 190 degrees; done at about 30 minutes, and
  // a shade dark by then. Enriched crumb is done at 88-93 degrees.
  Piece p = piece_of(PieceShape::cluster, 80.0, enriched());
  p.neighbours = 34.0 / 12.0;  // four corners, six edges, two in the middle of 3 by 4
  BakeOptions options;
  options.at_least_minutes = 40.0;
  const BakeRun run = bake(p, home_oven(190.0), core_at(91.0), options);
  CHECK(run.status == BakeStatus::done);
  baked("twelve touching pieces of 80 g at gas mark 5", "min", k_practice, book::Mark::trade,
        minutes(run), book::between(21.0, 31.0));
  const BakeMoment then = moment_at(run, 30.0);
  // Past golden, not burnt.
  baked("their colour at 30 minutes, a shade dark", "L*", k_practice, book::Mark::trade,
        then.lightness[0], book::between(40.0, 62.0));
}

TEST_CASE("The middle of a tray is the last to be done, the corner the first") {
  Piece p = piece_of(PieceShape::cluster, 80.0, enriched());
  double last = 0.0;
  for (const double neighbours : {2.0, 3.0, 4.0}) {
    p.neighbours = neighbours;
    const double now = minutes(bake(p, home_oven(190.0), core_at(91.0)));
    CHECK(now > last);
    last = now;
  }
}

TEST_CASE("Free buns of 50 to 60 g take 13 to 16 minutes at 190 degrees") {
  // Common practice, no source.
  for (const double grams : {50.0, 60.0}) {
    const double m = minutes(
        bake(piece_of(PieceShape::bun, grams, enriched()), home_oven(190.0), core_at(91.0)));
    baked("free buns of " + number_text(grams, 0) + " g at 190 C", "min", k_practice,
          book::Mark::trade, m, book::between(13.0, 16.5));
  }
}

TEST_CASE("An enriched tin loaf of 800 g takes 35 to 45 minutes at 175 to 180 degrees") {
  // Common practice, no source.
  const double m =
      minutes(bake(tin_loaf(800.0, enriched()), home_oven(178.0, "tin"), core_at(91.0)));
  baked("enriched tin loaf of 800 g at 178 C", "min", k_practice, book::Mark::trade, m,
        book::between(35.0, 45.0));
}

TEST_CASE("A pan sandwich loaf reaches 85 degrees about minute 35 at 177 degrees") {
  // Home bakers' thread, read, anecdotal: within 5 minutes. Loaf size not stated there.
  const double m = minutes(bake(tin_loaf(800.0, lean()), home_oven(177.0, "tin"), core_at(85.0)));
  baked("pan sandwich loaf at 177 C to 85 C", "min", "home bakers' thread, anecdotal",
        book::Mark::read, m, book::near(35.0, 5.0));
}

TEST_CASE("A hearth loaf of a pound is above 92 degrees within 25 minutes, 260 falling to 232") {
  // Home bakers' thread, read, anecdotal: near 99 after about 25 minutes; 92 accepted.
  Piece p = piece_of(PieceShape::hearth, 454.0, lean());
  Oven oven = home_oven(260.0, "stone");
  OvenPhase later;
  later.from_minute = 5.0;
  later.set_point_k = 232.0 + k_celsius;
  oven.phases.push_back(later);
  BakeOptions options;
  options.at_least_minutes = 26.0;
  const BakeRun run = bake(p, oven, core_at(92.0), options);
  CAPTURE(minutes(run));
  CHECK(minutes(run) < 30.0);
  baked("hearth loaf of a pound, core after 25 min", "C", "home bakers' thread, anecdotal",
        book::Mark::read, moment_at(run, 25.0).core_k[0] - k_celsius, book::at_least(92.0));
}

TEST_CASE("A pan loaf of 500 g at 218 degrees with moving air is done before 30 minutes") {
  // Baking-trade article, read: 24 and 30 minutes compared as two acceptable bakes.
  const Oven oven = oven_of(OvenKind::fan, 218.0 + k_celsius, "tin");
  const BakeRun run = bake(tin_loaf(500.0, lean()), oven, core_at(96.0));
  baked("pan loaf of 500 g at 218 C, moving air", "min", "baking-trade article", book::Mark::read,
        minutes(run), book::between(16.0, 30.0));
}

TEST_CASE("The crumb of a loaf never much passes the boiling point, and comes near it") {
  // Zanoni 1993, abstract read: crumb tends to 100 degrees; tolerance 1.5 K.
  for (const double altitude : {0.0, 2600.0}) {
    Oven oven = home_oven(220.0);
    oven.pressure_pa = pressure_at_altitude_pa(altitude);
    const double boiling = boiling_point_k(oven.pressure_pa)[0];
    Piece p = piece_of(PieceShape::hearth, 500.0, lean());
    BakeOptions options;
    options.at_least_minutes = 45.0;
    const BakeRun run = bake(p, oven, core_at(90.0), options);
    double hottest = 0.0;
    for (const BakeMoment& moment : run.trace) {
      hottest = std::max(hottest, moment.core_k[0]);
    }
    baked("hottest crumb at " + number_text(altitude, 0) + " m over the boiling point", "K",
          "Zanoni 1993, abstract", book::Mark::read, hottest - boiling, book::between(-2.0, 1.5));
  }
}

TEST_CASE("Core water rises first and comes back toward the dough's") {
  // Wagner et al. 2007, abstract read: 182 degrees; core water rises by evaporation and
  // condensation, back at the raw dough's value at 7 minutes (size of the piece not in the
  // abstract). Met: the sign, and that a piece left to dry comes back. Missed: when; here
  // the core holds its water until the drying front is near (docs/models/bake.md).
  Piece p = piece_of(PieceShape::bun, 30.0, lean());
  BakeOptions options;
  options.at_least_minutes = 60.0;
  const BakeRun run = bake(p, home_oven(182.0), core_at(92.0), options);
  const double first = run.trace.front().core_water[0];
  double most = 0.0, at = 0.0;
  for (std::size_t i = 0; i < run.trace.size(); ++i) {
    if (run.trace[i].core_water[0] > most) {
      most = run.trace[i].core_water[0];
      at = run.trace_minutes[i];
    }
  }
  constexpr std::string_view k_wagner = "Wagner et al. 2007, abstract";
  baked("core water at its most over the dough's", "", k_wagner, book::Mark::read, most / first,
        book::between(1.02, 1.35));
  CHECK(at < 50.0);
  // Back at the dough's own at 7 minutes: missed, the reason is in docs/models/bake.md.
  double back_minutes = run.trace_minutes.back();
  for (std::size_t i = run.trace.size(); i-- > 0 && run.trace_minutes[i] > at;) {
    back_minutes = run.trace[i].core_water[0] <= first ? run.trace_minutes[i] : back_minutes;
  }
  book::against({"bake", "core water back at the dough's own", "min", k_wagner, book::Mark::read,
                 "the core holds its water until the drying front is near (docs/models/bake.md)"},
                back_minutes, book::near(7.0, 2.0));
  CHECK(run.trace.back().core_water[0] < most);
}

TEST_CASE("Conductivity with evaporation and condensation follows Purlis and Salvadori") {
  // k = 0.2 + 0.9 / (1 + exp(-0.1 (T - 353.16))), from memory: 0.307, 0.650, 0.936 W/mK at
  // 60, 80, 95 degrees; within 30 %. Share of evaporation and condensation about 60 % in
  // closed pores (Zhang et al. 2025, abstract read), within 20 points at 80 degrees.
  Piece p = piece_of(PieceShape::bun, 60.0, lean());
  p.porosity = 0.65;
  const BakeSetup setup = bake_setup(p, home_oven(190.0), {}, {}, {});
  REQUIRE(setup.problem.empty());
  const ColumnFigures& f = setup.figures;
  for (const auto& [celsius, wanted] :
       {std::array{60.0, 0.307}, std::array{80.0, 0.650}, std::array{95.0, 0.936}}) {
    const CellPhysics c = cell_physics(f, celsius + k_celsius, f.first_water);
    const double evaporation =
        (c.vapour * c.potential_t)[0] * latent_heat_j_per_kg(celsius + k_celsius)[0];
    const double whole = c.conductivity[0] + evaporation;
    baked("conductivity with evaporation at " + number_text(celsius, 0) + " C", "W/(m K)",
          "Purlis and Salvadori", book::Mark::memory, whole, book::near_share(wanted, 0.30));
    if (celsius == 80.0) {
      baked("share of evaporation and condensation at 80 C", "", "Zhang et al. 2025, abstract",
            book::Mark::read, evaporation / whole, book::near(0.60, 0.20));
    }
  }
}

TEST_CASE("A loaf done at 98 degrees has lost about a tenth") {
  // Bakery page (Latvia), read: done at 98, about 10 % lighter; 12-15 % is overbaked.
  const BakeRun run = bake(tin_loaf(700.0, lean()), home_oven(220.0, "tin"), core_at(97.5));
  CAPTURE(run.at_done.weight_loss_pct[0]);
  CHECK(run.status == BakeStatus::done);
  baked("loss of a tin loaf done at 97.5 C", "%", "bakery page (Latvia): about 10",
        book::Mark::read, run.at_done.weight_loss_pct[0], book::between(7.0, 13.0));
}

TEST_CASE("A sandwich loaf whose tin walls are known has the crumb that was measured") {
  // Therdthai, Zhou and Adamczak 2002, abstract read: tin at 115, 130, 156, 176 degrees in
  // four equal zones, 27.4 minutes, crumb 99 degrees; -4/+1 K. Loaf size from memory:
  // 680 to 800 g in a tin of 100 by 100 mm; 700 g is met, 800 g is not.
  Piece p = tin_loaf(700.0, lean());
  p.length_mm = 200.0;
  p.width_mm = 100.0;
  p.start_k = 35.0 + k_celsius;
  Oven oven = home_oven(115.0, "tin");
  oven.figures.convection_w_per_m2_k = 900.0;  // walls as warm as the air
  oven.figures.radiation = 0.0;
  oven.figures.base_above_set_k = 0.0;
  oven.figures.drop_k = 0.0;
  oven.figures.recovery_minutes = 0.3;
  oven.bakeware.heat_j_per_m2_k = 10.0;
  oven.bakeware.contact_w_per_m2_k = 300.0;
  oven.phases.clear();
  int zone = 0;
  for (const double celsius : {115.0, 130.0, 156.0, 176.0}) {
    OvenPhase phase;
    phase.from_minute = 27.4 / 4.0 * zone++;
    phase.set_point_k = celsius + k_celsius;
    oven.phases.push_back(phase);
  }
  BakeUnknowns lidded;
  lidded.evaporation_factor = 0.02;  // of an open crust's, past the lid
  const BakeRun run = bake_piece(p, oven, after(27.4), lidded);
  const double core = run.at_done.core_k[0] - k_celsius;
  baked("crumb of a loaf in a tin of known walls after 27.4 min", "C",
        "Therdthai, Zhou and Adamczak 2002, abstract: 99, -4/+1", book::Mark::read, core,
        book::between(95.0, 100.0));
}

TEST_CASE("Heat and water close, and a loaf takes what the balance says") {
  // Computed: 1 kg of lean dough from 25 to 97 degrees with 11 % lost takes
  // 2.84 * 72 + 0.11 * 2257 = 453 kJ. The loaf's crust is hotter than that: up to 15 % more.
  Piece p = tin_loaf(1000.0, lean());
  p.start_k = 25.0 + k_celsius;
  BakeOptions options;
  const BakeRun run = bake(p, home_oven(220.0, "tin"), core_at(97.0), options);
  baked("water that is not accounted for", "", "balance", book::Mark::derived, run.mass_closure,
        book::at_most(1e-6));
  baked("heat that is not accounted for", "", "balance", book::Mark::derived, run.energy_closure,
        book::at_most(1e-6));
}

TEST_CASE("Dried crumb browns as Zanoni measured") {
  // Zanoni, Peri and Bruno 1995, abstract read: dE/dt = k (52 - E), k0 42000 /s, 64151
  // J/mol. Computed: after 10 minutes at 140, 160, 180, 200 degrees 9.23, 19.27, 33.17,
  // 45.55 (with R 8.314463).
  for (const auto& [celsius, wanted] : {std::array{140.0, 9.2299}, std::array{160.0, 19.266},
                                        std::array{180.0, 33.172}, std::array{200.0, 45.546}}) {
    const double rate = dry_browning_rate(celsius + k_celsius)[0];
    baked("browning of dried crumb, 10 min at " + number_text(celsius, 0) + " C", "dE",
          "Zanoni, Peri and Bruno 1995, abstract", book::Mark::computed,
          52.0 * (1.0 - std::exp(-600.0 * rate)), book::near_share(wanted, 1e-3));
  }
}

TEST_CASE("Starch sets as fast as Zanoni's kinetics say") {
  // 2.8e18 /s and 139 kJ/mol, from memory; computed: to 98 % in 138 s at 90 degrees, 74 s
  // at 95, 8.5 min at 80; 1 %.
  for (const auto& [celsius, seconds] :
       {std::array{80.0, 507.0}, std::array{90.0, 138.0}, std::array{95.0, 74.0}}) {
    const double rate = starch_setting_rate(celsius + k_celsius)[0];
    baked("starch set to 98 % at " + number_text(celsius, 0) + " C", "s", "Zanoni's kinetics",
          book::Mark::memory, -std::log(0.02) / rate, book::near_share(seconds, 0.015));
  }
}

TEST_CASE("Heat comes in at the rate that is measured in ovens") {
  // Baik et al. 1999, abstract read: 20-48 W/m2K in all, 186-225 degrees, air up to 0.44
  // m/s. Linear radiation to a surface of 120 degrees, computed.
  for (const OvenKind kind : {OvenKind::conventional, OvenKind::fan}) {
    const Oven oven = oven_of(kind, 473.15);
    const double t = 473.15, s = 393.15;
    const double radiant = k_stefan_boltzmann * oven.figures.radiation * (t * t + s * s) * (t + s);
    const double whole = radiant + oven.figures.convection_w_per_m2_k;
    baked(std::string("heat transfer in a ") +
              (kind == OvenKind::fan ? "fan oven" : "conventional oven"),
          "W/(m2 K)", "Baik et al. 1999, abstract", book::Mark::read, whole,
          book::between(20.0, 48.0));
    if (kind == OvenKind::conventional) {
      CHECK(radiant / whole > 0.55);
    }
  }
}

TEST_CASE("Steam at the start wets the skin, keeps it cooler, and the loaf pales") {
  // Direction read: more steam, less colour (Altamirano-Fortoul et al. 2012).
  const Piece p = piece_of(PieceShape::hearth, 500.0, lean());
  Oven dry = home_oven(230.0, "stone");
  Oven steamy = dry;
  steamy.phases.front().steam_pa = 60000.0;
  const BakeRun without = bake(p, dry, after(20.0));
  const BakeRun with = bake(p, steamy, after(20.0));
  CHECK(with.at_done.lightness[0] > without.at_done.lightness[0]);
  CHECK(with.at_done.weight_loss_pct[0] < without.at_done.weight_loss_pct[0]);
}

TEST_CASE("A fan oven 20 degrees lower takes about as long") {
  // Common practice, no source: fan settings are 20 degrees lower; within a fifth.
  const Piece p = piece_of(PieceShape::bun, 70.0, enriched());
  const double still = minutes(bake(p, home_oven(200.0), core_at(91.0)));
  const double fan = minutes(bake(p, oven_of(OvenKind::fan, 180.0 + k_celsius), core_at(91.0)));
  baked("time in a fan oven at 180 C over a still one at 200 C", "", k_practice, book::Mark::trade,
        fan / still, book::near(1.0, 0.2));
}
