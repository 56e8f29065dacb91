#include "bake/solid_solver.h"

#include <array>

#include "bake/solid_kernels.h"

namespace maslin {

namespace kernels = solid_kernels;

namespace {

/// The sums over all slabs, in their order.
template <typename Kernel>
kernels::Sums summed(Team* team, std::size_t slabs, const Kernel& kernel) {
  std::array<kernels::Sums, 4> by_slab{};
  run_parts(team, slabs, [&](std::size_t slab) { by_slab[slab] = kernel(slab); });
  kernels::Sums out;
  for (std::size_t slab = 0; slab < slabs; ++slab) {
    out.first += by_slab[slab].first;
    out.second += by_slab[slab].second;
  }
  return out;
}

}  // namespace

SolidSolver::SolidSolver(const StencilShape& shape) {
  static_cast<StencilShape&>(swept_.matrix) = shape;
  swept_.matrix.resize();
  swept_.line_low.resize(shape.nodes());
  swept_.line_diagonal.resize(shape.nodes());
  for (std::vector<FloatPair>* one : {&room_.r, &room_.shadow, &room_.p, &room_.v, &room_.half,
                                      &room_.second, &room_.t, &room_.x}) {
    one->resize(shape.nodes());
  }
  line_.assign(shape.slabs(), std::vector<Pair>(shape.up + 1));
}

void SolidSolver::set_up(const StencilOf<Lanes>& matrix, const std::vector<Pair>& weight,
                         Team* team) {
  run_parts(team, matrix.slabs(),
            [&](std::size_t slab) { kernels::weigh(matrix, weight, slab, swept_); });
}

// With P the sweep and R what it leaves out, the matrix is P + R: a product with it costs
// only R.
void SolidSolver::lead(const std::vector<FloatPair>& from, std::vector<FloatPair>& half,
                       std::vector<FloatPair>& image, Team* team) {
  const std::size_t slabs = swept_.matrix.slabs();
  run_parts(team, slabs,
            [&](std::size_t slab) { kernels::sweep(swept_, slab, from.data(), half.data()); });
  run_parts(team, slabs, [&](std::size_t slab) {
    kernels::left_out(swept_, slab, from.data(), half.data(), image.data());
  });
}

int SolidSolver::iterate(double square, double enough, int most, Team* team) {
  const StencilShape& shape = swept_.matrix;
  const std::size_t slabs = shape.slabs();
  Room& of = room_;
  of.shadow = of.r;
  of.p = of.r;
  std::fill(of.x.begin(), of.x.end(), FloatPair{0.0F, 0.0F});
  double rho = square;
  double left = square;
  int iterations = 0;
  while (left > enough && iterations < most) {
    ++iterations;
    lead(of.p, of.half, of.v, team);
    const double along = summed(team, slabs, [&](std::size_t slab) {
                           return kernels::dots(shape, slab, of.shadow.data(), of.v.data());
                         }).first;
    const double alpha = rho / along;
    left = summed(team, slabs, [&](std::size_t slab) {
             return kernels::take(shape, slab, static_cast<float>(alpha), of.v.data(), of.r.data());
           }).first;
    const bool there = left <= enough;
    double omega = 0.0;
    if (!there) {
      lead(of.r, of.second, of.t, team);
      const kernels::Sums by_t = summed(team, slabs, [&](std::size_t slab) {
        return kernels::dots(shape, slab, of.r.data(), of.t.data());
      });
      omega = by_t.first / by_t.second;
    }
    const kernels::Sums next = summed(team, slabs, [&](std::size_t slab) {
      return kernels::advance(
          shape, slab, static_cast<float>(alpha), static_cast<float>(omega),
          {of.x.data(), of.r.data(), of.half.data(), there ? of.half.data() : of.second.data(),
           there ? of.v.data() : of.t.data(), of.shadow.data()});
    });
    if (there) {
      break;
    }
    const double beta = (next.first / rho) * (alpha / omega);
    rho = next.first;
    left = next.second;
    run_parts(team, slabs, [&](std::size_t slab) {
      kernels::turn(shape, slab, static_cast<float>(beta), static_cast<float>(omega), of.r.data(),
                    of.v.data(), of.p.data());
    });
  }
  return iterations;
}

int SolidSolver::solve(const StencilOf<Lanes>& matrix, const std::vector<Pair>& weight,
                       double allowed, const Pair* b, Pair* x, Pair* residual, Team* team) {
  constexpr int k_most_rounds = 6;
  const std::size_t slabs = matrix.slabs();
  const double enough = allowed * allowed * static_cast<double>(matrix.nodes() * k_lane_count);
  int iterations = 0;
  for (int round = 0; round < k_most_rounds; ++round) {
    run_parts(team, slabs, [&](std::size_t slab) {
      kernels::residual_of(matrix, slab, b, x, residual, line_[slab].data());
    });
    const double left =
        summed(team, slabs, [&](std::size_t slab) {
          return kernels::narrow(matrix, slab, residual, weight.data(), room_.r.data());
        }).first;
    if (left <= enough) {
      return iterations;
    }
    // A little less than is allowed, for the answer is rounded to floats.
    iterations += iterate(left, 0.8 * enough, k_most_iterations - iterations, team);
    if (iterations >= k_most_iterations) {
      break;
    }
    run_parts(team, slabs,
              [&](std::size_t slab) { kernels::widen(matrix, slab, room_.x.data(), x); });
  }
  return k_most_iterations;
}

}  // namespace maslin
