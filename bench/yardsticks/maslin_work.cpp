// What share of the machine maslin's bakes reach on one core, by processor time: operations and
// bytes counted from the loops as they are written, over the time they took, beside what this
// core gives in the same run.
// Usage: maslin_work
#include <algorithm>
#include <cstdio>
#include <ctime>
#include <vector>

#include "bake/column_rates.h"
#include "bench/counted.h"
#include "quarter_problem.h"

namespace maslin {

// The bake's own short exponential and logarithm, by their terms.
inline Counted exp_short(const Counted& x) {
  constexpr std::size_t k_operations = 2 * 8 + 6;
  return Counted::of(exp_same(x.x), k_operations);
}
inline Scaled<Counted> scaled(const Counted& x) {
  return {Counted(0.0), Counted::of(x.x, 1)};
}
inline Counted select(bool mask, const Counted& a, const Counted& b) {
  return mask ? a : b;
}

}  // namespace maslin

namespace {

using namespace yardstick;

double processor_s() {
  return static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
}

// Counted by hand from solid_kernels.cpp and stencil.h, for one cell: a product of a block with a
// pair and its sum into another is 8 operations, on 16 bytes of floats. An iteration sweeps twice
// (two ties, forward and back along the line) and twice adds what the sweep leaves out (two ties).
constexpr double k_operations_of_iteration = 2 * (8 + 8 + 8 + 14) + 2 * 16 + 2 * 8 + 8 + 20 + 8;
constexpr double k_bytes_of_iteration = 2 * (5 * 16 + 24 + 2 * 16 + 24) + 2 * 16 + 24 + 64 + 32;
// A solve, four to a step, takes the residual in doubles about twice: seven ties and their
// weighing.
constexpr double k_operations_of_solve = 2 * (7 * 8 + 10);
constexpr double k_bytes_of_solve = 2 * (7 * 32 + 5 * 16);
// Lines factored, and what the four stages add up.
constexpr double k_operations_of_step = 38 + 4 * 14;
// Of a column's node: factored, four times solved, stages added up.
constexpr double k_operations_of_column_step = 38 + 4 * 22 + 4 * 14;

/// Operations of one cell's physics and of one face with all its derivatives.
double physics_operations() {
  const CellFigures<Counted> figures;
  Counted::done() = 0;
  cell_physics(figures, Counted(350.0), Counted(0.5));
  return static_cast<double>(Counted::done());
}
double face_operations() {
  CellPhysicsOf<Counted> p{};
  p.conductivity = 0.3;
  p.vapour = 1e-6;
  Counted::done() = 0;
  inner_flux(Counted(1e-9), Counted(1.0), p, Counted(350.0), Counted(0.5), p, Counted(340.0),
             Counted(0.6));
  return static_cast<double>(Counted::done());
}

/// Additions and multiplications of doubles in vectors, thousand millions a second: chains enough
/// to hide how long either takes, not contracted, as in the models.
double peak_gflop() {
  constexpr std::size_t k_chains = 96;
  constexpr std::size_t k_rounds = 20'000'000;
  double x[k_chains];
  for (double& one : x) {
    one = 1.0 + processor_s();  // no two alike, nor known beforehand
  }
  const double from = processor_s();
  for (std::size_t r = 0; r < k_rounds; ++r) {
#pragma GCC unroll 96
    for (std::size_t i = 0; i < k_chains; ++i) {
      x[i] = x[i] * 0.999 + 0.001;
    }
  }
  const double took = processor_s() - from;
  double all = 0.0;  // each chain's end is asked for
  for (const double one : x) {
    all += one;
  }
  return all > 0.0 ? 2.0 * k_chains * k_rounds / took * 1e-9 : 0.0;
}

/// Bytes between memory and core: McCalpin's STREAM triad, the best of ten, GB/s.
double triad_gb() {
  constexpr std::size_t k_count = std::size_t{1} << 24;
  std::vector<double> a(k_count, 0.0), b(k_count, 1.0), c(k_count, 2.0);
  double best = 1e9;
  for (int round = 0; round < 10; ++round) {
    const double from = processor_s();
    const double scale = 3.0 + 1e-3 * round;
    for (std::size_t i = 0; i < k_count; ++i) {
      a[i] = b[i] + scale * c[i];
    }
    best = std::min(best, processor_s() - from);
  }
  return a[k_count / 2] > 0.0 ? 3.0 * sizeof(double) * k_count / best * 1e-9 : 0.0;
}

struct Machine {
  double gflop, gb;
};

void solid(const Machine& machine, int across, int along, int up, double tolerance) {
  SectionOptions options;
  options.across = across;
  options.along = along;
  options.up = up;
  options.tolerance = tolerance;
  options.minutes = {k_minutes};
  const double from = processor_s();
  const SectionRun run = bake_section(quarter_piece(), quarter_oven(), quarter_unknowns(), options);
  const double took = processor_s() - from;
  const double cells = static_cast<double>(across) * along * up;
  const double steps = run.steps + run.rejected;
  const double iterations = cells * run.iterations;
  // Three looks at the physics and at three faces of every cell.
  const double doubles = cells * steps *
                         (3.0 * physics_operations() + 9.0 * face_operations() +
                          4.0 * k_operations_of_solve + k_operations_of_step);
  const double floats = iterations * k_operations_of_iteration;
  const double bytes = iterations * k_bytes_of_iteration + cells * steps * 4.0 * k_bytes_of_solve;
  // A float takes half a double's room in a register.
  const double share = (doubles + 0.5 * floats) / took * 1e-9 / machine.gflop;
  std::printf(
      "quarter of %.0f cells: %.3f s, %.1f thousand million operations a second, %.0f %% of "
      "the peak; %.1f GB/s if all came from memory (%.0f MB), %.0f %% of the triad\n",
      cells, took, (doubles + floats) / took * 1e-9, 100.0 * share, bytes / took * 1e-9,
      cells * (18 * 16 + 7 * 32 + 40 * 8) * 1e-6, 100.0 * bytes / took * 1e-9 / machine.gb);
}

void columns(const Machine& machine) {
  Piece piece;
  piece.shape = PieceShape::cluster;
  piece.mass_g = 80.0;
  const Oven oven = oven_of(OvenKind::conventional, 463.15);
  double steps = 0.0, nodes = 0.0;
  const double from = processor_s();
  for (int i = 0; i < 256; ++i) {
    const BakeRun run = bake_piece(piece, oven, {}, {});
    steps += run.steps + run.rejected;
  }
  const double took = processor_s() - from;
  nodes = static_cast<double>(bake_setup(piece, oven, {}, {}, {}).column.count);
  const double operations =
      steps * nodes * static_cast<double>(k_lane_count) *
      (3.0 * physics_operations() + 3.0 * face_operations() + k_operations_of_column_step);
  std::printf(
      "%.0f draws of a column: %.3f s, %.1f thousand million operations a second, %.0f %% of "
      "the peak; its %.0f kB stay in the nearest caches\n",
      256.0 * k_lane_count, took, operations / took * 1e-9,
      100.0 * operations / took * 1e-9 / machine.gflop, nodes * 64.0 * 60.0 * 1e-3);
}

}  // namespace

int main() {
  const Machine machine{peak_gflop(), triad_gb()};
  std::printf(
      "this core: %.1f thousand million additions and multiplications of doubles a second, "
      "triad %.1f GB/s; a cell's physics %.0f operations, a face %.0f\n",
      machine.gflop, machine.gb, physics_operations(), face_operations());
  columns(machine);
  solid(machine, 16, 12, 15, 4.0);
  solid(machine, 32, 24, 30, 4.0);
  solid(machine, 64, 64, 64, 4.0);
  return 0;
}
