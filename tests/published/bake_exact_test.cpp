// The column solver against closed solutions of heat conduction and of moving fronts,
// and the orders in which its errors fall.
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "bake/cell_physics.h"
#include "bake/column.h"
#include "bake/stepper.h"
#include "quantity/number_text.h"
#include "support/book.h"

using namespace maslin;

namespace {

constexpr double k_depth_m = 0.02;
constexpr double k_conductivity = 0.25;
constexpr double k_start_k = 300.0;
constexpr double k_oven_k = 400.0;
constexpr double k_solids_per_m3 = 400.0;
constexpr double k_heat = 2500.0;

/// A body of one kind all round: slab, cylinder or sphere as the exponent says. The base
/// leg is there but has next to no area.
PieceGeometry whole_body(double exponent, double depth_m = k_depth_m) {
  PieceGeometry g;
  g.open_area_m2 = 1.0;
  g.base_area_m2 = 1e-9;
  g.open_depth_m = depth_m;
  g.base_depth_m = depth_m;
  g.volume_m3 = depth_m / (exponent + 1.0);
  g.exponent = exponent;
  g.shell_exponent = exponent;
  g.join = std::clamp(0.25 * exponent, 0.08, 0.5);
  // Slab, cylinder, sphere with the surface held: first zeros squared.
  const double zero[] = {2.4674, 5.7832, 9.8696};
  g.decay_per_m2 = zero[static_cast<int>(exponent)] / (depth_m * depth_m);
  return g;
}

/// A dry body that only conducts.
ColumnFigures conducting(double convection) {
  ColumnFigures f;
  f.solids_heat = k_heat;
  f.first_water = 1e-3;
  f.conductivity_wet = k_conductivity;
  f.conductivity_dry = k_conductivity;
  f.crust_shrink = 0.0;
  f.vapour_passage = 0.0;
  f.water_diffusivity = 0.0;
  f.volume_gain = 0.0;
  f.convection = convection;
  f.radiation = 0.0;
  f.mass_transfer = 0.0;
  f.plate_convection = 0.0;
  f.plate_radiation = 0.0;
  f.plate_contact = 1e-9;
  settle_figures(f);
  return f;
}

struct Body {
  CellColumn column;
  ColumnFigures figures;
  ColumnState state;
  Surroundings around;
};

Body body_of(double exponent, double biot, const ColumnCells& cells) {
  Body b;
  b.figures = conducting(biot * k_conductivity / k_depth_m);
  b.column =
      make_column(whole_body(exponent), k_solids_per_m3 * k_depth_m / (exponent + 1.0), cells);
  b.state.temperature.assign(b.column.count, k_start_k);
  b.state.water.assign(b.column.count, 1e-3);
  b.state.water[0] = 0.0;
  b.around = {k_oven_k, k_oven_k, k_oven_k, 0.0};
  return b;
}

double diffusivity() {
  return k_conductivity / (k_solids_per_m3 * (k_heat + k_liquid_heat_j_per_kg_k * 1e-3));
}

/// Runs to `end_s` in so many equal steps, whatever the error estimate says.
void run(Body& b, double end_s, int steps) {
  StepperRoom room = stepper_room(b.column);
  Exchanged exchanged;
  for (int i = 0; i < steps; ++i) {
    try_step(b.column, b.figures, b.around, b.around, 1.0, end_s / steps, 1e30, b.state, exchanged,
             room);
  }
}

/// Runs to `end_s` with steps as long as the error estimate allows.
void run_adaptive(Body& b, double end_s, double tolerance) {
  StepperRoom room = stepper_room(b.column);
  Exchanged exchanged;
  double now_s = 0.0, step_s = 1e-3;
  while (now_s < end_s - 1e-9) {
    const double tried = std::min(step_s, end_s - now_s);
    const double error = try_step(b.column, b.figures, b.around, b.around, 1.0, tried, tolerance,
                                  b.state, exchanged, room)
                             .error;
    now_s += error <= 1.0 ? tried : 0.0;
    step_s = tried * (error < 1e30 ? std::clamp(0.85 / std::cbrt(error), 0.2, 2.5) : 0.1);
    REQUIRE(step_s > 1e-9);
  }
}

double remaining(double temperature_k) {
  return (temperature_k - k_oven_k) / (k_start_k - k_oven_k);
}

/// Remaining share at the centre and at the surface.
std::array<double, 2> shares(const Body& b) {
  const std::size_t tip = b.column.count - 1;
  const std::size_t next = b.column.before(tip - 1);
  const auto& t = b.state.temperature;
  const double centre = t[tip][0] - b.column.core_extrapolation[0] * (t[next][0] - t[tip][0]);
  // Surface by the same flux from air and through half a cell.
  const double outer = b.figures.convection[0];
  const double inner = b.column.open_reach_m[0] * k_conductivity;
  const std::size_t last = b.column.last;
  const double surface = (outer * k_oven_k + inner * t[last][0]) / (outer + inner);
  return {remaining(centre), remaining(surface)};
}

void exact(const std::string& what, double got, const book::Expected& expected) {
  book::against({"bake", what, "", "exact series and Neumann's solution", book::Mark::computed},
                got, expected);
}

}  // namespace

TEST_CASE("Slab, cylinder and sphere warm as their series say, to 0.1 %") {
  // Exact series, 40 terms, computed; eigenvalues checked against an excerpt of Cengel's
  // table 4-2, read. Share of the temperature difference that remains, centre and surface.
  struct Row {
    double biot, fourier;
    double centre[3], surface[3];
  };
  const Row rows[] = {{0.5, 0.5, {0.864114, 0.715749, 0.580044}, {0.686882, 0.566002, 0.457352}},
                      {1, 0.2, {0.950642, 0.870174, 0.772312}, {0.643391, 0.570228, 0.495912}},
                      {1, 0.5, {0.772526, 0.548586, 0.370777}, {0.504522, 0.352786, 0.236050}},
                      {1, 1.0, {0.533859, 0.249380, 0.107977}, {0.348177, 0.160338, 0.068740}},
                      {2, 0.4, {0.739902, 0.480713, 0.285095}, {0.352355, 0.219324, 0.126078}},
                      {5, 0.5, {0.523109, 0.207554, 0.065675}, {0.133032, 0.047695, 0.013813}},
                      {10, 0.3, {0.682465, 0.376541, 0.172207}, {0.097346, 0.045997, 0.018268}}};
  for (const Row& row : rows) {
    for (int shape = 0; shape < 3; ++shape) {
      CAPTURE(row.biot);
      CAPTURE(row.fourier);
      CAPTURE(shape);
      Body b = body_of(shape, row.biot, {4, 20, 800});
      run(b, row.fourier * k_depth_m * k_depth_m / diffusivity(), 200);
      const auto [centre, surface] = shares(b);
      // 0.1 % of the whole difference.
      const char* const name[] = {"slab", "cylinder", "sphere"};
      const std::string what = std::string(name[shape]) + ", Bi " + number_text(row.biot, 1) +
                               ", Fo " + number_text(row.fourier, 1) + ": share left, ";
      exact(what + "centre", centre, book::near(row.centre[shape], 1e-3));
      exact(what + "surface", surface, book::near(row.surface[shape], 1e-3));
    }
  }
}

TEST_CASE("A sphere held at the oven's temperature warms as its series says") {
  // Computed: Fo 0.1 0.707100, Fo 0.2 0.277078.
  const double rows[][2] = {{0.1, 0.707100}, {0.2, 0.277078}};
  for (const auto& [fourier, wanted] : rows) {
    Body b = body_of(2.0, 1e6, {4, 20, 800});
    run(b, fourier * k_depth_m * k_depth_m / diffusivity(), 200);
    exact("sphere held at its surface, Fo " + number_text(fourier, 1) + ": share left",
          shares(b)[0], book::near(wanted, 1e-3));
  }
}

TEST_CASE("A deep body warms at its surface as the error function says") {
  // Carslaw and Jaeger's form (from memory), values computed: h sqrt(a t) / k = 1 gives
  // 0.572416 at the surface, 0.5 gives 0.384310. A slab deep enough not to feel its middle.
  for (const auto& [ratio, wanted] : {std::array{1.0, 0.572416}, std::array{0.5, 0.384310}}) {
    const double reach_m = 0.15 * k_depth_m;  // sqrt(a t)
    Body b = body_of(0.0, ratio * k_depth_m / reach_m, {4, 30, 60});
    run(b, reach_m * reach_m / diffusivity(), 300);
    exact("deep body, h sqrt(a t) / k " + number_text(ratio, 1) + ": surface", 1.0 - shares(b)[1],
          book::near(wanted, 1e-3));
  }
}

TEST_CASE("Errors in space fall with the square of the cell") {
  double last = 0.0;
  for (int cells = 5; cells <= 20; cells *= 2) {
    Body b = body_of(2.0, 5.0, {4, cells, 2 * cells});
    run(b, 0.5 * k_depth_m * k_depth_m / diffusivity(), 400);
    const double error = std::fabs(shares(b)[0] - 0.065675);
    if (last > 0.0) {
      const double order = std::log2(last / error);
      CAPTURE(cells);
      CHECK(order > 1.7);
    }
    last = error;
  }
}

namespace {

/// A moist slab in a hot oven, as a bake has it, to see errors fall in time.
double moist_core_k(int steps) {
  Body b = body_of(1.0, 1.0, {8, 4, 16});
  ColumnFigures f;
  f.mass_transfer = 4e-8;
  f.volume_gain = 0.0;
  settle_figures(f);
  b.figures = f;
  b.column = make_column(whole_body(1.0), 170.0 * k_depth_m / 2.0, {8, 4, 16});
  b.state.temperature.assign(b.column.count, k_start_k);
  b.state.water.assign(b.column.count, 0.75);
  b.state.water[0] = 0.0;
  b.around = {470.0, 470.0, 470.0, 1500.0};
  run(b, 600.0, steps);
  return b.state.temperature[b.column.count - 1][0];
}

}  // namespace

TEST_CASE("Errors in time fall with the cube of the step in a moist bake") {
  const double fine = moist_core_k(6400);
  const double coarse = std::fabs(moist_core_k(100) - fine);
  const double half = std::fabs(moist_core_k(200) - fine);
  const double quarter = std::fabs(moist_core_k(400) - fine);
  CHECK(coarse < 0.01);
  CHECK(std::log2(coarse / half) > 2.4);
  CHECK(std::log2(half / quarter) > 2.4);
}

namespace {

/// Depth that a boiling front has reached, m, with all vapour leaving outward: solids
/// that are dry, seen from the open surface.
double front_m(const Body& b, double first_water) {
  double depth = 0.0;
  for (std::size_t i = b.column.join; i <= b.column.last; ++i) {
    depth += b.column.depth_m[i][0] * (1.0 - std::min(b.state.water[i][0] / first_water, 1.0));
  }
  return depth;
}

/// Front of Neumann's problem with the vapour warming as it leaves through the crust:
/// T'' = -2 (eta + c) T', c = flow heat over crust heat times lambda. Root by halving.
double neumann_root(double crust_k, double crust_heat, double crumb_k, double crumb_heat,
                    double surface_k, double front_k, double start_k, double water_per_m3,
                    double latent) {
  const double a1 = crust_k / crust_heat, a2 = crumb_k / crumb_heat;
  const auto rest = [&](double l) {
    const double c = water_per_m3 * k_vapour_heat_j_per_kg_k / crust_heat * l;
    const double crust_slope = (front_k - surface_k) * 2.0 / std::sqrt(M_PI) *
                               std::exp(-(l + c) * (l + c)) / (std::erf(l + c) - std::erf(c));
    const double l2 = l * std::sqrt(a1 / a2);
    const double crumb_slope =
        (start_k - front_k) * 2.0 / std::sqrt(M_PI) * std::exp(-l2 * l2) / std::erfc(l2);
    // -k1 T' + k2 T' = latent ds/dt, each slope over 2 sqrt(a t).
    return -crust_k * crust_slope / (2.0 * std::sqrt(a1)) +
           crumb_k * crumb_slope / (2.0 * std::sqrt(a2)) -
           water_per_m3 * latent * l * std::sqrt(a1);
  };
  double low = 1e-6, high = 3.0;
  for (int i = 0; i < 200; ++i) {
    const double middle = 0.5 * (low + high);
    (rest(middle) > 0.0 ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

}  // namespace

TEST_CASE("The root that the front test uses is Neumann's where the vapour carries no heat") {
  // The two-phase case of a bake (computed): crust 0.10 W/mK, 3.0e5 J/m3K, crumb 0.50,
  // 9.0e5, 180 to 100 to 25 degrees, 129 kg/m3 of water at 2.257e6 J/kg: lambda 0.128624,
  // front at 20 min 5.145 mm. One phase: Stefan number 1 gives 0.620063, 0.1 0.220016
  // (Crank, Free and moving boundary problems, eq. 3.14, read; values computed).
  const auto plain = [](double crust_heat, double latent_water) {
    return neumann_root(0.10, crust_heat, 0.50, 9.0e5, 180.0, 100.0, 25.0, 1e-9,
                        latent_water / 1e-9);
  };
  exact("Neumann's root of a bake's crust and crumb", plain(3.0e5, 129.0 * 2.257e6),
        book::near_share(0.128624, 1e-4));
  CHECK(2e3 * plain(3.0e5, 129.0 * 2.257e6) * std::sqrt(0.10 / 3.0e5 * 1200.0) ==
        doctest::Approx(5.145).epsilon(1e-3));
  for (const auto& [stefan, root] : {std::array{1.0, 0.620063}, std::array{0.1, 0.220016}}) {
    CHECK(neumann_root(1.0, 1.0, 1.0, 1e-12, stefan, 0.0, 0.0, 1e-9, 1e9) ==
          doctest::Approx(root).epsilon(1e-4));
  }
}

TEST_CASE("A boiling front moves in as Neumann's solution says, to 1 %") {
  constexpr double k_water = 0.75;
  Body b = body_of(0.0, 1.0, {4, 20, 800});
  ColumnFigures f;
  f.solids_heat = 1750.0;
  f.first_water = k_water;
  f.polymer_share = 3e-3;  // water held by next to nothing: a sharp front
  f.conductivity_dry = 0.10;
  f.conductivity_wet = 0.50;
  f.crust_shrink = 0.0;
  f.vapour_passage = 1e-4;  // none inward ...
  f.crust_passage = 2e3;    // ... and no hindrance outward
  f.water_diffusivity = 0.0;
  f.volume_gain = 0.0;
  f.convection = 1e5;
  f.radiation = 0.0;
  f.mass_transfer = 1e-2;
  f.plate_convection = 0.0;
  f.plate_radiation = 0.0;
  f.plate_contact = 1e-9;
  settle_figures(f);
  b.figures = f;
  constexpr double k_solids = 171.0;
  // Deep enough that its middle stays cold.
  constexpr double k_deep_m = 0.15;
  b.column = make_column(whole_body(0.0, k_deep_m), k_solids * k_deep_m, {4, 20, 800});
  b.state.temperature.assign(b.column.count, 298.15);
  b.state.water.assign(b.column.count, k_water);
  b.state.water[0] = 0.0;
  // Air nearly all steam, so that the front boils at one temperature throughout.
  b.around = {453.15, 453.15, 453.15, 0.95 * 101325.0};
  run_adaptive(b, 1200.0, 0.1);
  // Where the front's potential meets the air's.
  double low = 350.0, high = 380.0;
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    const double gap =
        cell_physics(f, middle, k_water).potential[0] + 101325.0 * std::log(1.0 - 0.95);
    (gap < 0.0 ? low : high) = middle;
  }
  const double front_k = low;
  const double t = front_k - 273.15;
  const double latent = k_vapour_at_zero_celsius_j_per_kg + k_vapour_heat_j_per_kg_k * t -
                        k_liquid_heat_j_per_kg_k * t;
  const double crust_heat = k_solids * 1750.0;
  const double root =
      neumann_root(0.10, crust_heat, 0.50, k_solids * (1750.0 + k_liquid_heat_j_per_kg_k * k_water),
                   453.15, front_k, 298.15, k_solids * k_water, latent);
  const double wanted_m = 2.0 * root * std::sqrt(0.10 / crust_heat * 1200.0);
  const double is_m = front_m(b, k_water);
  CAPTURE(1e3 * wanted_m);
  CAPTURE(1e3 * is_m);
  exact("boiling front after 20 min, mm", 1e3 * is_m, book::near_share(1e3 * wanted_m, 0.01));
}
