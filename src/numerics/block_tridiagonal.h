// Two unknowns a cell in a row of cells, every cell tied to its two neighbours, and
// such a row with one branch.
#pragma once

#include <cstddef>

#include "numerics/lanes.h"

namespace maslin {

template <typename Real>
struct PairOf {
  Real a, b;
};
using Pair = PairOf<Lanes>;

/// A 2 by 2 block, row-major.
template <typename Real>
struct BlockOf {
  Real aa, ab, ba, bb;
};
using Block = BlockOf<Lanes>;

template <typename Real>
inline PairOf<Real> operator*(const BlockOf<Real>& m, const PairOf<Real>& x) {
  return {m.aa * x.a + m.ab * x.b, m.ba * x.a + m.bb * x.b};
}
template <typename Real>
inline BlockOf<Real> operator*(const BlockOf<Real>& m, const BlockOf<Real>& n) {
  return {m.aa * n.aa + m.ab * n.ba, m.aa * n.ab + m.ab * n.bb, m.ba * n.aa + m.bb * n.ba,
          m.ba * n.ab + m.bb * n.bb};
}
template <typename Real>
inline BlockOf<Real> inverse(const BlockOf<Real>& m) {
  const Real scale = Real(1.0) / (m.aa * m.bb - m.ab * m.ba);
  return {m.bb * scale, -m.ab * scale, -m.ba * scale, m.aa * scale};
}

/// Factors in place the matrix with rows  lower[i] x[i-1] + diagonal[i] x[i] + upper[i] x[i+1]
/// by block elimination without exchanges (enough for diffusion, where the diagonal
/// rules). Afterwards `diagonal` holds inverses and `lower` the multipliers; lower[0]
/// and upper[count-1] are not read.
template <typename Real>
inline void factor_block_tridiagonal(BlockOf<Real>* lower, BlockOf<Real>* diagonal,
                                     const BlockOf<Real>* upper, std::size_t count) {
  diagonal[0] = inverse(diagonal[0]);
  for (std::size_t i = 1; i < count; ++i) {
    lower[i] = lower[i] * diagonal[i - 1];
    const BlockOf<Real> fill = lower[i] * upper[i - 1];
    diagonal[i].aa -= fill.aa;
    diagonal[i].ab -= fill.ab;
    diagonal[i].ba -= fill.ba;
    diagonal[i].bb -= fill.bb;
    diagonal[i] = inverse(diagonal[i]);
  }
}

/// Solves in place with the factors from above: `x` holds the right side, then the answer.
template <typename Real>
inline void solve_block_tridiagonal(const BlockOf<Real>* lower, const BlockOf<Real>* diagonal,
                                    const BlockOf<Real>* upper, PairOf<Real>* x,
                                    std::size_t count) {
  for (std::size_t i = 1; i < count; ++i) {
    const PairOf<Real> below = lower[i] * x[i - 1];
    x[i].a -= below.a;
    x[i].b -= below.b;
  }
  x[count - 1] = diagonal[count - 1] * x[count - 1];
  for (std::size_t i = count - 1; i-- > 0;) {
    const PairOf<Real> above = upper[i] * x[i + 1];
    x[i].a -= above.a;
    x[i].b -= above.b;
    x[i] = diagonal[i] * x[i];
  }
}

/// A row 0 .. trunk-1 with a branch trunk .. count-1 that hangs on node `join`. Tie f
/// binds node f+1 to the node before it (`join` for f = trunk-1, else f):
/// lower[f+1] stands in the row of node f+1, upper[f] in that of the node before.
struct BlockFork {
  std::size_t count = 0;
  std::size_t trunk = 0;
  std::size_t join = 0;

  std::size_t before(std::size_t f) const { return f + 1 == trunk ? join : f; }
};

/// Factors in place as above, the branch first, from its tip to the join.
template <typename Real>
inline void factor_block_fork(const BlockFork& fork, BlockOf<Real>* lower, BlockOf<Real>* diagonal,
                              BlockOf<Real>* upper) {
  for (std::size_t i = fork.count - 1; i >= fork.trunk; --i) {
    diagonal[i] = inverse(diagonal[i]);
    upper[i - 1] = upper[i - 1] * diagonal[i];
    const BlockOf<Real> fill = upper[i - 1] * lower[i];
    BlockOf<Real>& parent = diagonal[fork.before(i - 1)];
    parent.aa -= fill.aa;
    parent.ab -= fill.ab;
    parent.ba -= fill.ba;
    parent.bb -= fill.bb;
  }
  factor_block_tridiagonal(lower, diagonal, upper, fork.trunk);
}

/// Solves in place with these factors.
template <typename Real>
inline void solve_block_fork(const BlockFork& fork, const BlockOf<Real>* lower,
                             const BlockOf<Real>* diagonal, const BlockOf<Real>* upper,
                             PairOf<Real>* x) {
  for (std::size_t i = fork.count - 1; i >= fork.trunk; --i) {
    const PairOf<Real> tip = upper[i - 1] * x[i];
    PairOf<Real>& parent = x[fork.before(i - 1)];
    parent.a -= tip.a;
    parent.b -= tip.b;
  }
  solve_block_tridiagonal(lower, diagonal, upper, x, fork.trunk);
  for (std::size_t i = fork.trunk; i < fork.count; ++i) {
    const PairOf<Real> root = lower[i] * x[fork.before(i - 1)];
    x[i].a -= root.a;
    x[i].b -= root.b;
    x[i] = diagonal[i] * x[i];
  }
}

}  // namespace maslin
