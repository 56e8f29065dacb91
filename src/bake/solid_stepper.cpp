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
constexpr double k_linear_share = 5e-4;  // of the step's tolerance that a solve may leave

/// y += (what the sweep of solve_lines leaves out of the matrix) x: ties from each cell to
/// its neighbours further in, and both ways over the seams of the lanes.
inline void add_left_out(const SolidGrid& g, const SolidRoom& room, const Pair* x, Pair* y) {
  const auto gather = [](Pair& to, const Block& block, const Pair& from) {
    const Pair part = block * from;
    to.a += part.a;
    to.b += part.b;
  };
  for (std::size_t column = 0; column < g.columns(); ++column) {
    const bool seam = column % g.groups == g.groups - 1;
    const std::size_t at = g.node(column, 0);
    const std::size_t across = g.node(seam ? column + 1 - g.groups : column + 1, 0);
    for (std::size_t k = 1; k <= g.up; ++k) {
      const Pair over = room.x_low[at + k] * x[at + k];
      const Pair moved = seam ? lane_before(over) : over;
      y[across + k].a += moved.a;
      y[across + k].b += moved.b;
    }
    for (std::size_t k = 1; seam && k <= g.up; ++k) {
      gather(y[at + k], room.x_up[at + k], next_lane(x[across + k]));
    }
    if (column + g.groups < g.columns()) {
      const std::size_t along = g.node(column + g.groups, 0);
      for (std::size_t k = 1; k <= g.up; ++k) {
        gather(y[along + k], room.y_low[at + k], x[at + k]);
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

/// One sweep from the surface inward over the lines, each given what its neighbours on the
/// outside have come to (block Gauss-Seidel). Lanes are not waited for: at their seams the
/// neighbour's part is left out.
inline void solve_lines(const SolidGrid& g, const SolidRoom& room, Pair* x) {
  const auto less = [](Pair& to, const Block& block, const Pair& from) {
    const Pair part = block * from;
    to.a -= part.a;
    to.b -= part.b;
  };
  for (std::size_t column = g.columns(); column-- > 0;) {
    const std::size_t at = g.node(column, 0);
    if (column % g.groups != g.groups - 1) {
      const std::size_t across = g.node(column + 1, 0);
      for (std::size_t k = 1; k <= g.up; ++k) {
        less(x[at + k], room.x_up[at + k], x[across + k]);
      }
    }
    if (column + g.groups < g.columns()) {
      const std::size_t along = g.node(column + g.groups, 0);
      for (std::size_t k = 1; k <= g.up; ++k) {
        less(x[at + k], room.y_up[at + k], x[along + k]);
      }
    }
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

/// image = A P^-1 from, half = P^-1 from, P being the sweep: as A = P + what it leaves out,
/// a product with A costs only that part.
inline void precondition(const SolidGrid& g, const SolidRoom& room, const Pair* from, Pair* half,
                         Pair* image) {
  const std::size_t count = g.nodes();
  for (std::size_t at = 0; at < count; ++at) {
    half[at] = from[at];
    image[at] = from[at];
  }
  solve_lines(g, room, half);
  add_left_out(g, room, half, image);
}

/// Solves A x = b by BiCGStab (van der Vorst 1992) with the sweep as preconditioner; b holds
/// the answer, room.residual what is left. Returns the iterations, or k_most_iterations
/// where it does not come down.
inline int solve(const SolidGrid& g, SolidRoom& room, Pair* x, double allowed) {
  const std::size_t count = g.nodes();
  Pair* r = room.residual.data();
  Pair* shadow = room.shadow.data();
  Pair* p = room.direction.data();
  Pair* v = room.image.data();
  Pair* half = room.half.data();
  Pair* second = room.guess.data();
  Pair* t = room.half_image.data();
  const double enough = allowed * allowed * static_cast<double>(count * k_lane_count);
  solve_lines(g, room, x);
  for (std::size_t at = 0; at < count; ++at) {
    v[at] = {0.0, 0.0};
  }
  add_left_out(g, room, x, v);
  for (std::size_t at = 0; at < count; ++at) {
    r[at] = {-v[at].a, -v[at].b};
    shadow[at] = r[at];
    p[at] = r[at];
  }
  double rho = dot(room, r, r, count);
  double left = rho;
  int iterations = 0;
  while (left > enough && iterations < k_most_iterations) {
    precondition(g, room, p, half, v);
    const double alpha = rho / dot(room, shadow, v, count);
    combine(r, r, -alpha, v, count);
    precondition(g, room, r, second, t);
    const double omega = dot(room, t, r, count) / dot(room, t, t, count);
    Lanes next = 0.0, square = 0.0;
    for (std::size_t at = 0; at < count; ++at) {
      x[at].a += alpha * half[at].a + omega * second[at].a;
      x[at].b += alpha * half[at].b + omega * second[at].b;
      r[at].a -= omega * t[at].a;
      r[at].b -= omega * t[at].b;
      const Pair& w = room.weight[at];
      const Pair scaled{w.a * w.a * r[at].a, w.b * w.b * r[at].b};
      next += scaled.a * shadow[at].a + scaled.b * shadow[at].b;
      square += scaled.a * r[at].a + scaled.b * r[at].b;
    }
    const double beta = (sum(next) / rho) * (alpha / omega);
    rho = sum(next);
    left = sum(square);
    for (std::size_t at = 0; at < count; ++at) {
      p[at].a = r[at].a + beta * (p[at].a - omega * v[at].a);
      p[at].b = r[at].b + beta * (p[at].b - omega * v[at].b);
    }
    ++iterations;
  }
  return iterations;
}

/// Hands what the linear solver left over to the cells that lack it: v grows by the residual
/// over the capacity. Then the capacities times v are the rates at the v before, which was
/// taken for the exchange with the oven, so that heat and water close whatever was left.
inline void settle_residual(const SolidGrid& g, const SolidRoom& room, Pair* v) {
  for (std::size_t at = 0; at < g.nodes(); ++at) {
    const Pair& r = room.residual[at];
    const Pair& mass = room.mass[at];
    // The plate holds no water: its second row is the identity and leaves nothing.
    const Lanes solids = max(g.solids_kg[at], 1e-300);
    const Lanes water = select(g.solids_kg[at] > Lanes(0.0), r.b / solids, 0.0);
    v[at].a += (r.a - mass.b * water) / mass.a;
    v[at].b += water;
  }
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
    settle_residual(grid, room, v);
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
