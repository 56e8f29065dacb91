#include "bake/solid_kernels.h"

#include "numerics/clones.h"

namespace maslin::solid_kernels {
namespace {

struct Range {
  std::size_t from, to;
};
inline Range nodes_of(const StencilShape& shape, std::size_t slab) {
  return {shape.node(shape.slab_from(slab) * shape.groups, 0),
          shape.node(shape.slab_from(slab + 1) * shape.groups, 0)};
}

inline FloatBlock weighed(const Block& b, const Pair& w) {
  return {FloatLanes(w.a * b.aa), FloatLanes(w.a * b.ab), FloatLanes(w.b * b.ba),
          FloatLanes(w.b * b.bb)};
}
/// Adds up by runs, so that a float never holds the sum of many.
class Adding {
 public:
  void add(const FloatLanes& x) {
    run_ += x;
    if (++count_ == k_run) {
      settle();
    }
  }
  double total() {
    settle();
    return total_;
  }

 private:
  static constexpr int k_run = 64;
  void settle() {
    total_ += sum(run_);
    run_ = 0.0F;
    count_ = 0;
  }
  FloatLanes run_ = 0.0F;
  int count_ = 0;
  double total_ = 0.0;
};

inline FloatLanes inner(const FloatPair& x, const FloatPair& y) {
  return x.a * y.a + x.b * y.b;
}

}  // namespace

MASLIN_ALL_WIDTHS
void weigh(const StencilOf<Lanes>& from, const std::vector<Pair>& weight, std::size_t slab,
           SweptMatrix& to) {
  StencilOf<FloatLanes>& m = to.matrix;
  for (std::size_t row = m.slab_from(slab); row < m.slab_from(slab + 1); ++row) {
    for (std::size_t g = 0; g < m.groups; ++g) {
      const std::size_t column = row * m.groups + g;
      const bool seam = g + 1 == m.groups;
      const std::size_t across = seam ? row * m.groups : column + 1;
      const std::size_t along = row + 1 < m.along ? column + m.groups : column;
      for (std::size_t k = 0; k <= m.up; ++k) {
        const std::size_t at = m.node(column, k);
        const Pair& w = weight[at];
        m.diagonal[at] = weighed(from.diagonal[at], w);
        m.z_low[at] = weighed(from.z_low[at], w);
        m.z_up[at] = weighed(from.z_up[at], w);
        m.x_up[at] = weighed(from.x_up[at], w);
        m.y_up[at] = weighed(from.y_up[at], w);
        const Pair& next = weight[m.node(across, k)];
        m.x_low[at] = weighed(from.x_low[at], seam ? next_lane(next) : next);
        m.y_low[at] = weighed(from.y_low[at], weight[m.node(along, k)]);
      }
    }
  }
  const Range range = nodes_of(m, slab);
  for (std::size_t at = range.from; at < range.to; ++at) {
    to.line_low[at] = m.z_low[at];
    to.line_diagonal[at] = m.diagonal[at];
  }
  for (std::size_t at = range.from; at < range.to; at += m.up + 1) {
    factor_block_tridiagonal(&to.line_low[at], &to.line_diagonal[at], &m.z_up[at], m.up + 1);
  }
}

MASLIN_ALL_WIDTHS
void sweep(const SweptMatrix& swept, std::size_t slab, const FloatPair* from, FloatPair* x) {
  const Range range = nodes_of(swept.matrix, slab);
  std::copy(from + range.from, from + range.to, x + range.from);
  solve_lines(swept.matrix, swept.line_low.data(), swept.line_diagonal.data(), slab, x);
}

MASLIN_ALL_WIDTHS
void left_out(const SweptMatrix& swept, std::size_t slab, const FloatPair* start,
              const FloatPair* x, FloatPair* y) {
  add_left_out(swept.matrix, slab, start, x, y);
}

MASLIN_ALL_WIDTHS
Sums dots(const StencilShape& shape, std::size_t slab, const FloatPair* x, const FloatPair* y) {
  const Range range = nodes_of(shape, slab);
  Adding both, own;
  for (std::size_t at = range.from; at < range.to; ++at) {
    both.add(inner(x[at], y[at]));
    own.add(inner(y[at], y[at]));
  }
  return {both.total(), own.total()};
}

MASLIN_ALL_WIDTHS
Sums take(const StencilShape& shape, std::size_t slab, float scale, const FloatPair* x,
          FloatPair* y) {
  const Range range = nodes_of(shape, slab);
  Adding own;
  for (std::size_t at = range.from; at < range.to; ++at) {
    y[at].a -= scale * x[at].a;
    y[at].b -= scale * x[at].b;
    own.add(inner(y[at], y[at]));
  }
  return {own.total(), 0.0};
}

MASLIN_ALL_WIDTHS
Sums advance(const StencilShape& shape, std::size_t slab, float alpha, float omega,
             const Vectors& of) {
  const Range range = nodes_of(shape, slab);
  Adding next, own;
  for (std::size_t at = range.from; at < range.to; ++at) {
    of.x[at].a += alpha * of.half[at].a + omega * of.second[at].a;
    of.x[at].b += alpha * of.half[at].b + omega * of.second[at].b;
    of.r[at].a -= omega * of.t[at].a;
    of.r[at].b -= omega * of.t[at].b;
    next.add(inner(of.r[at], of.shadow[at]));
    own.add(inner(of.r[at], of.r[at]));
  }
  return {next.total(), own.total()};
}

MASLIN_ALL_WIDTHS
void turn(const StencilShape& shape, std::size_t slab, float beta, float omega, const FloatPair* r,
          const FloatPair* v, FloatPair* p) {
  const Range range = nodes_of(shape, slab);
  for (std::size_t at = range.from; at < range.to; ++at) {
    p[at].a = r[at].a + beta * (p[at].a - omega * v[at].a);
    p[at].b = r[at].b + beta * (p[at].b - omega * v[at].b);
  }
}

MASLIN_ALL_WIDTHS
Sums narrow(const StencilShape& shape, std::size_t slab, const Pair* residual, const Pair* weight,
            FloatPair* r) {
  const Range range = nodes_of(shape, slab);
  Lanes total = 0.0;
  for (std::size_t at = range.from; at < range.to; ++at) {
    const Pair scaled{weight[at].a * residual[at].a, weight[at].b * residual[at].b};
    total += scaled.a * scaled.a + scaled.b * scaled.b;
    r[at] = {FloatLanes(scaled.a), FloatLanes(scaled.b)};
  }
  return {sum(total), 0.0};
}

MASLIN_ALL_WIDTHS
void widen(const StencilShape& shape, std::size_t slab, const FloatPair* found, Pair* x) {
  const Range range = nodes_of(shape, slab);
  for (std::size_t at = range.from; at < range.to; ++at) {
    x[at].a += widened(found[at].a);
    x[at].b += widened(found[at].b);
  }
}

MASLIN_ALL_WIDTHS
void residual_of(const StencilOf<Lanes>& matrix, std::size_t slab, const Pair* b, const Pair* x,
                 Pair* residual, Pair* line) {
  take_product(matrix, slab, b, x, residual, line);
}

}  // namespace maslin::solid_kernels
