// Laws any rise obeys, over random doughs and rooms.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "../published/rise_kit.h"
#include "numerics/draws.h"

using namespace maslin;
using namespace rise_kit;

namespace {

double between(const char* name, std::uint32_t index, double low, double high) {
  return low + (high - low) * draw(name_key(name), 11, index);
}

Row random_row(std::uint32_t i) {
  Row row;
  row.grams["flour_g"] = 500.0;
  row.grams["water_g"] = between("water", i, 250.0, 420.0);
  row.grams["sugar_g"] = std::max(0.0, between("sugar", i, -60.0, 150.0));
  row.grams["salt_g"] = between("salt", i, 0.0, 13.0);
  row.grams["egg_g"] = std::max(0.0, between("egg", i, -60.0, 110.0));
  row.grams["butter_g"] = std::max(0.0, between("butter", i, -60.0, 120.0));
  row.grams["yeast_g"] = std::exp(between("yeast", i, std::log(0.3), std::log(15.0)));
  row.yeast = between("kind", i, 0.0, 1.0) < 0.3 ? "osmotolerant" : "instant";
  row.dough_c = between("dough", i, 18.0, 32.0);
  row.room_c = between("room", i, 5.0, 36.0);
  return row;
}

RiseDough dough_of(const Row& row) {
  return rise_dough(portions_of(k_shelf, row));
}

/// Two hours and a half left alone in 300 g pieces.
RiseRun left_alone(const Row& row, int fineness = 1) {
  Prove p;
  p.target = ProveTarget::minutes;
  p.value = 150.0;
  p.piece_g = 300.0;
  p.ambient = {{0.0, row.room_c + 273.15}};
  RiseSettings settings;
  settings.fineness = fineness;
  const std::vector<Prove> proves = {p};
  const RiseDough d = dough_of(row);
  return run_proves(d, start_of_rise(d, row.dough_c + 273.15), proves, {}, settings);
}

double gas_of(const Row& row) {
  return left_alone(row).end.co2_made_mol[0] / dough_of(row).flour_g[0];
}

constexpr std::uint32_t k_cases = 200;

}  // namespace

TEST_CASE("no yeast, no gas") {
  for (std::uint32_t i = 0; i < k_cases; ++i) {
    Row row = random_row(i);
    row.grams["yeast_g"] = 0.0;
    CHECK(gas_of(row) == 0.0);
  }
}

TEST_CASE("sugar, carbon dioxide and ethanol balance to a millionth") {
  for (std::uint32_t i = 0; i < k_cases; ++i) {
    const RiseRun run = left_alone(random_row(i));
    CHECK(run.balance.sugar[0] < 1e-6);
    CHECK(run.balance.carbon_dioxide[0] < 1e-6);
    CHECK(run.balance.ethanol[0] < 1e-6);
  }
}

TEST_CASE("nothing falls below nothing and every figure is finite") {
  for (std::uint32_t i = 0; i < k_cases; ++i) {
    const RiseRun run = left_alone(random_row(i));
    const RiseState& s = run.end;
    for (const Lanes& x : {s.hexose_g, s.sucrose_g, s.maltose_g, s.latent_maltose_g, s.yeast_g,
                           s.co2_made_mol, s.co2_lost_mol, s.air_mol, s.ethanol_g, s.awake,
                           s.induction, s.adaptation, s.co2_in_dough_mol()}) {
      CHECK(x[0] >= 0.0);
      CHECK(std::isfinite(x[0]));
    }
    for (const Lanes& ratio : run.proves[0].volume_ratio) {
      CHECK(ratio[0] > 0.5);
      CHECK(ratio[0] < 8.0);
    }
  }
}

TEST_CASE("below the best temperature colder is slower") {
  for (std::uint32_t i = 0; i < k_cases; ++i) {
    Row row = random_row(i);
    row.room_c = std::min(row.room_c, 33.0);
    Row colder = row;
    colder.room_c -= 3.0;
    colder.dough_c -= 3.0;
    CHECK(gas_of(colder) < gas_of(row));
  }
}

TEST_CASE("more salt is slower, more yeast is faster") {
  for (std::uint32_t i = 0; i < k_cases; ++i) {
    const Row row = random_row(i);
    Row salty = row;
    salty.grams["salt_g"] += 3.0;
    CHECK(gas_of(salty) < gas_of(row));
    Row lively = row;
    lively.grams["yeast_g"] *= 1.3;
    CHECK(gas_of(lively) > gas_of(row));
  }
}

TEST_CASE("twice the recipe in pieces as heavy rises the same") {
  for (std::uint32_t i = 0; i < k_cases; ++i) {
    const Row row = random_row(i);
    Row twice = row;
    for (auto& [column, grams] : twice.grams) {
      grams *= 2.0;
    }
    const RiseRun a = left_alone(row);
    const RiseRun b = left_alone(twice);
    for (std::size_t k = 0; k < a.proves[0].volume_ratio.size(); ++k) {
      CHECK(b.proves[0].volume_ratio[k][0] ==
            doctest::Approx(a.proves[0].volume_ratio[k][0]).epsilon(1e-9));
    }
    CHECK(b.end.co2_made_mol[0] == doctest::Approx(2.0 * a.end.co2_made_mol[0]).epsilon(1e-9));
  }
}

TEST_CASE("halving the steps changes the volume by less than a thousandth, and again by less") {
  double coarse = 0.0;
  double fine = 0.0;
  for (std::uint32_t i = 0; i < k_cases; ++i) {
    const Row row = random_row(i);
    const double one = left_alone(row, 1).proves[0].volume_ratio_end[0];
    const double two = left_alone(row, 2).proves[0].volume_ratio_end[0];
    const double four = left_alone(row, 4).proves[0].volume_ratio_end[0];
    CHECK(two == doctest::Approx(one).epsilon(1e-3));
    coarse += std::fabs(two - one);
    fine += std::fabs(four - two);
  }
  // Second order: a quarter of the error each time, within a factor.
  CHECK(fine < 0.45 * coarse);
}

TEST_CASE("one draw does not feel the other seven") {
  const Row row = random_row(3);
  const RiseDough d = dough_of(row);
  Prove p;
  p.ambient = {{0.0, row.room_c + 273.15}};
  const std::vector<Prove> proves = {p};
  RiseUnknowns mixed;
  for (std::size_t i = 0; i < k_lane_count; ++i) {
    mixed.yeast_vigour.set(i, 0.9 + 0.01 * static_cast<double>(i));
  }
  RiseUnknowns alone;
  alone.yeast_vigour = 0.93;
  const RiseState start = start_of_rise(d, row.dough_c + 273.15);
  CHECK(run_proves(d, start, proves, mixed).proves[0].minutes_to_target[3] ==
        doctest::Approx(run_proves(d, start, proves, alone).proves[0].minutes_to_target[0])
            .epsilon(1e-4));
}

TEST_CASE("a ball cools as the series solution says") {
  // Sphere with convection, Bi = h R / k: any text on conduction. Mean of the ball:
  // sum 6 Bi^2 / (b^2 (b^2 + Bi^2 - Bi)) exp(-b^2 Fo), b cot b = 1 - Bi.
  Row row;
  row.grams["flour_g"] = 500.0;
  row.grams["water_g"] = 325.0;
  row.dough_c = 30.0;
  const RiseDough d = dough_of(row);
  for (const double h : {3.0, 6.0, 15.0}) {
    Prove p;
    p.target = ProveTarget::minutes;
    p.value = 240.0;
    p.ambient = {{0.0, 277.15}};
    p.heat_transfer_w_per_m2k = h;
    RiseUnknowns airless;
    airless.mixed_air = 0.0;
    const std::vector<Prove> proves = {p};
    const RiseRun run = run_proves(d, start_of_rise(d, 303.15, airless), proves, airless);
    const double volume = d.dense_ml[0] * 1e-6;
    const double radius = std::cbrt(volume * 3.0 / (4.0 * M_PI));
    const double biot = h * radius / 0.45;
    const double diffusivity = 0.45 * volume / d.heat_capacity_j_per_k[0];
    for (std::size_t k = 6; k < run.proves[0].temperature_k.size(); k += 6) {
      const double fourier = diffusivity * 300.0 * static_cast<double>(k) / (radius * radius);
      double share = 0.0;
      for (int n = 0; n < 20; ++n) {
        double low = n * M_PI + 1e-9;
        double high = (n + 1) * M_PI - 1e-9;
        for (int it = 0; it < 80; ++it) {
          const double b = 0.5 * (low + high);
          (b * std::cos(b) / std::sin(b) > 1.0 - biot ? low : high) = b;
        }
        const double b2 = low * low;
        share += 6.0 * biot * biot / (b2 * (b2 + biot * biot - biot)) * std::exp(-b2 * fourier);
      }
      const double got = (run.proves[0].temperature_k[k][0] - 277.15) / 26.0;
      CHECK(std::fabs(got - share) < 0.02);
    }
  }
}
