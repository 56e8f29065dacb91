#include <cmath>
#include <limits>

#include "bake/solid_rates.h"
#include "numerics/rosenbrock.h"

namespace maslin {

using namespace rodas3;

namespace {

constexpr double k_absolute_k = 1.0;
constexpr double k_absolute_water = 0.01;
constexpr int k_most_iterations = 200;
constexpr double k_linear_share = 2e-5;  // of the step's tolerance that a solve may leave

/// y = A x, the matrix by its faces.
inline void multiply(const SolidGrid& g, const SolidRoom& room, const Pair* x, Pair* y) {
  for (std::size_t at = 0; at < g.nodes(); ++at) {
    y[at] = room.diagonal[at] * x[at];
  }
  const auto gather = [](Pair& to, const Block& block, const Pair& from) {
    const Pair add = block * from;
    to.a += add.a;
    to.b += add.b;
  };
  for (std::size_t column = 0; column < g.columns(); ++column) {
    const bool seam = column % g.groups == g.groups - 1;
    const std::size_t across = seam ? column + 1 - g.groups : column + 1;
    const std::size_t along = column + g.groups;
    for (std::size_t k = 0; k <= g.up; ++k) {
      const std::size_t at = g.node(column, k);
      if (k < g.up) {
        gather(y[at], room.z_up[at], x[at + 1]);
        gather(y[at + 1], room.z_low[at + 1], x[at]);
      }
      if (k == 0) {
        continue;
      }
      const std::size_t to = g.node(across, k);
      gather(y[at], room.x_up[at], seam ? next_lane(x[to]) : x[to]);
      const Pair over = room.x_low[at] * x[at];
      const Pair moved = seam ? lane_before(over) : over;
      y[to].a += moved.a;
      y[to].b += moved.b;
      if (along < g.columns()) {
        const std::size_t next = g.node(along, k);
        gather(y[at], room.y_up[at], x[next]);
        gather(y[next], room.y_low[at], x[at]);
      }
    }
  }
}

/// Factors every line of cells from plate to top, the other ties left out.
inline void factor_lines(const SolidGrid& g, SolidRoom& room) {
  for (std::size_t at = 0; at < g.nodes(); ++at) {
    room.line_low[at] = room.z_low[at];
    room.line_diagonal[at] = room.diagonal[at];
  }
  for (std::size_t column = 0; column < g.columns(); ++column) {
    const std::size_t at = g.node(column, 0);
    factor_block_tridiagonal(&room.line_low[at], &room.line_diagonal[at], &room.z_up[at], g.up + 1);
  }
}

inline void solve_lines(const SolidGrid& g, const SolidRoom& room, Pair* x) {
  for (std::size_t column = 0; column < g.columns(); ++column) {
    const std::size_t at = g.node(column, 0);
    solve_block_tridiagonal(&room.line_low[at], &room.line_diagonal[at], &room.z_up[at], &x[at],
                            g.up + 1);
  }
}

inline double dot(const SolidRoom& room, const Pair* x, const Pair* y, std::size_t count) {
  Lanes total = 0.0;
  for (std::size_t at = 0; at < count; ++at) {
    const Pair& w = room.weight[at];
    total += (w.a * w.a) * (x[at].a * y[at].a) + (w.b * w.b) * (x[at].b * y[at].b);
  }
  return sum(total);
}

inline void combine(Pair* out, const Pair* x, double scale, const Pair* y, std::size_t count) {
  for (std::size_t at = 0; at < count; ++at) {
    out[at] = {x[at].a + scale * y[at].a, x[at].b + scale * y[at].b};
  }
}

/// Solves A x = b by BiCGStab (van der Vorst 1992), lines as preconditioner; b holds the
/// answer. Returns the iterations, or k_most_iterations where it does not come down.
inline int solve(const SolidGrid& g, SolidRoom& room, Pair* b, double allowed) {
  const std::size_t count = g.nodes();
  Pair* x = room.guess.data();
  Pair* r = room.residual.data();
  Pair* shadow = room.shadow.data();
  Pair* p = room.direction.data();
  Pair* v = room.image.data();
  Pair* half = room.half.data();
  Pair* t = room.half_image.data();
  const double enough = allowed * allowed * static_cast<double>(count * k_lane_count);
  for (std::size_t at = 0; at < count; ++at) {
    x[at] = b[at];
  }
  solve_lines(g, room, x);
  multiply(g, room, x, v);
  combine(r, b, -1.0, v, count);
  for (std::size_t at = 0; at < count; ++at) {
    shadow[at] = r[at];
    p[at] = r[at];
  }
  double rho = dot(room, shadow, r, count);
  int iterations = 0;
  while (dot(room, r, r, count) > enough && iterations < k_most_iterations) {
    for (std::size_t at = 0; at < count; ++at) {
      half[at] = p[at];
    }
    solve_lines(g, room, half);
    multiply(g, room, half, v);
    const double alpha = rho / dot(room, shadow, v, count);
    combine(x, x, alpha, half, count);
    combine(r, r, -alpha, v, count);
    for (std::size_t at = 0; at < count; ++at) {
      half[at] = r[at];
    }
    solve_lines(g, room, half);
    multiply(g, room, half, t);
    const double omega = dot(room, t, r, count) / dot(room, t, t, count);
    combine(x, x, omega, half, count);
    combine(r, r, -omega, t, count);
    const double next = dot(room, shadow, r, count);
    const double beta = (next / rho) * (alpha / omega);
    rho = next;
    combine(p, p, -omega, v, count);
    combine(p, r, beta, p, count);
    ++iterations;
  }
  for (std::size_t at = 0; at < count; ++at) {
    b[at] = x[at];
  }
  return iterations;
}

/// The state with `weights` of the stages added.
inline void advanced(const SolidGrid& g, const ColumnFigures& f, const SolidState& from,
                     const SolidRoom& room, const double* weights, std::size_t stages,
                     SolidState& to) {
  for (std::size_t at = 0; at < g.nodes(); ++at) {
    Pair v{0.0, 0.0};
    for (std::size_t j = 0; j < stages; ++j) {
      v.a += weights[j] * room.stage[j][at].a;
      v.b += weights[j] * room.stage[j][at].b;
    }
    const Lanes capacity = f.solids_heat + k_liquid_heat_j_per_kg_k * from.water[at];
    const Lanes grown = capacity + k_liquid_heat_j_per_kg_k * v.b;
    to.temperature[at] = from.temperature[at] + capacity * v.a / max(grown, 0.25 * capacity);
    to.water[at] = from.water[at] + v.b;
  }
  for (std::size_t column = 0; column < g.columns(); ++column) {
    to.water[g.node(column, 0)] = 0.0;
  }
}

inline double error_of(const SolidRoom& room, std::size_t count) {
  Lanes worst = 0.0;
  for (std::size_t at = 0; at < count; ++at) {
    const Pair& v = room.stage[k_stages - 1][at];
    const Lanes by_heat = abs(v.a) * (1.0 / k_absolute_k);
    const Lanes by_water = abs(v.b) * (1.0 / k_absolute_water);
    worst = select(worst >= by_heat, worst, by_heat);
    worst = select(worst >= by_water, worst, by_water);
  }
  double out = 0.0;
  for (std::size_t lane = 0; lane < k_lane_count; ++lane) {
    if (!(worst[lane] < 1e300)) {
      return std::numeric_limits<double>::infinity();
    }
    out = worst[lane] > out ? worst[lane] : out;
  }
  return out;
}

/// gamma h times what enters from outside in this stage, its answer to v included.
inline SolidGain exchange(const SolidGrid& g, const SolidRoom& room, double gamma_h,
                          const Pair* v) {
  Lanes heat = 0.0, water = 0.0;
  for (std::size_t at = 0; at < g.nodes(); ++at) {
    const FaceFlux& now = room.surface[at];
    const FaceFlux& slope = room.first_surface[at];
    heat += now.heat + slope.heat_t0 * v[at].a + slope.heat_x0 * v[at].b;
    water += now.water + slope.water_t0 * v[at].a + slope.water_x0 * v[at].b;
  }
  return {gamma_h * sum(heat), gamma_h * sum(water)};
}

}  // namespace

// Compiled for several widths of vector where the loader can choose; contraction is off,
// so all give the same bits.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && defined(__OPTIMIZE__) && \
    !defined(__SANITIZE_ADDRESS__)
[[gnu::target_clones("avx512f", "avx2", "default"), gnu::flatten]]
#endif
SolidStep try_solid_step(const SolidGrid& grid, const ColumnFigures& figures,
                         const Surroundings& before, const Surroundings& after,
                         const SolidScale& scale, double step_s, double tolerance,
                         SolidState& state, SolidGain& gained, SolidRoom& room) {
  const double gamma_h = k_gamma * step_s;
  const std::size_t count = grid.nodes();
  SolidGain by_stage[k_stages];
  SolidStep result;
  for (std::size_t k = 0; k < k_stages; ++k) {
    const Surroundings around = blend(before, after, k_when[k]);
    const SolidStage stage{grid, {figures, around}, scale};
    if (k == 0) {
      solid_rates<Want::rates_and_matrix>(stage, state, gamma_h, room);
      room.first_surface = room.surface;
      factor_lines(grid, room);
    } else if (k == 1) {
      solid_surfaces(stage, state, room);
    } else {
      advanced(grid, figures, state, room, k_a[k], k, room.trial);
      solid_rates<Want::rates>(stage, room.trial, gamma_h, room);
    }
    Pair* v = room.stage[k].data();
    for (std::size_t at = 0; at < count; ++at) {
      Pair earlier{0.0, 0.0};
      for (std::size_t j = 0; j < k; ++j) {
        earlier.a += k_c[k][j] * room.stage[j][at].a;
        earlier.b += k_c[k][j] * room.stage[j][at].b;
      }
      const Lanes held_heat = room.mass[at].a * earlier.a + room.mass[at].b * earlier.b;
      const Lanes held_water = grid.solids_kg[at] * earlier.b;
      v[at] = {gamma_h * (room.inner[at].a + room.surface[at].heat) + k_gamma * held_heat,
               gamma_h * (room.inner[at].b + room.surface[at].water) + k_gamma * held_water};
    }
    const int iterations = solve(grid, room, v, k_linear_share * tolerance);
    result.iterations += iterations;
    by_stage[k] = exchange(grid, room, gamma_h, v);
    for (std::size_t j = 0; j < k; ++j) {
      by_stage[k].heat_j += k_gamma * k_c[k][j] * by_stage[j].heat_j;
      by_stage[k].water_kg += k_gamma * k_c[k][j] * by_stage[j].water_kg;
    }
    if (iterations >= k_most_iterations) {
      result.error = std::numeric_limits<double>::infinity();
      return result;
    }
  }
  result.error = error_of(room, count) / tolerance;
  if (!(result.error <= 1.0)) {
    return result;
  }
  for (std::size_t k = 0; k < k_stages; ++k) {
    gained.heat_j += k_m[k] * by_stage[k].heat_j;
    gained.water_kg += k_m[k] * by_stage[k].water_kg;
  }
  advanced(grid, figures, state, room, k_m, k_stages, room.trial);
  state.temperature = room.trial.temperature;
  state.water = room.trial.water;
  return result;
}

}  // namespace maslin
