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

/// Three legs that meet at `join`: 0 .. join-1 from one end and trunk-1 .. join+1 from the other
/// of a row, and a branch trunk .. count-1 that hangs on it. Tie f binds node f+1 to the node
/// before it (`join` for f = trunk-1, else f): lower[f+1] stands in the row of node f+1, upper[f]
/// in that of the node before.
struct BlockFork {
  std::size_t count = 0;
  std::size_t trunk = 0;
  std::size_t join = 0;

  std::size_t before(std::size_t f) const { return f + 1 == trunk ? join : f; }
};

template <typename Real>
inline void subtract(BlockOf<Real>& from, const BlockOf<Real>& what) {
  from.aa -= what.aa;
  from.ab -= what.ab;
  from.ba -= what.ba;
  from.bb -= what.bb;
}
template <typename Real>
inline PairOf<Real> operator-(const PairOf<Real>& x, const PairOf<Real>& y) {
  return {x.a - y.a, x.b - y.b};
}

/// Takes a node out of the row of the next one toward the join. Its diagonal becomes the inverse,
/// `into` (its tie in the next one's row) what it passes on of its right side, and `out_of` (the
/// next one in its row) what of the next one's answer is in its own.
template <typename Real>
inline void eliminate(BlockOf<Real>& diagonal, BlockOf<Real>& out_of, BlockOf<Real>& into,
                      BlockOf<Real>& next) {
  diagonal = inverse(diagonal);
  into = into * diagonal;
  subtract(next, into * out_of);
  out_of = diagonal * out_of;
}

/// Factors in place by block elimination without exchanges, from the tips of all legs to the
/// join. The legs of the row go side by side: each is one long chain of operations that wait for
/// one another.
template <typename Real>
inline void factor_block_fork(const BlockFork& fork, BlockOf<Real>* lower, BlockOf<Real>* diagonal,
                              BlockOf<Real>* upper) {
  for (std::size_t i = fork.count - 1; i >= fork.trunk; --i) {
    eliminate(diagonal[i], lower[i], upper[i - 1], diagonal[fork.before(i - 1)]);
  }
  for (std::size_t k = 0, i = fork.trunk - 1; k < fork.join || i > fork.join; ++k) {
    if (k < fork.join) {
      eliminate(diagonal[k], upper[k], lower[k + 1], diagonal[k + 1]);
    }
    if (i > fork.join) {
      eliminate(diagonal[i], lower[i], upper[i - 1], diagonal[i - 1]);
      --i;
    }
  }
  diagonal[fork.join] = inverse(diagonal[fork.join]);
}

/// Solves in place with these factors: `x` holds the right side, then the answer.
template <typename Real>
inline void solve_block_fork(const BlockFork& fork, const BlockOf<Real>* lower,
                             const BlockOf<Real>* diagonal, const BlockOf<Real>* upper,
                             PairOf<Real>* x) {
  for (std::size_t i = fork.count - 1; i >= fork.trunk; --i) {
    PairOf<Real>& next = x[fork.before(i - 1)];
    next = next - upper[i - 1] * x[i];
    x[i] = diagonal[i] * x[i];
  }
  PairOf<Real> one = x[0], other = x[fork.trunk - 1];
  for (std::size_t k = 0, i = fork.trunk - 1; k < fork.join || i > fork.join + 1;) {
    if (k < fork.join) {
      const PairOf<Real> next = x[k + 1] - lower[k + 1] * one;
      x[k] = diagonal[k] * one;
      one = next;
      ++k;
    }
    if (i > fork.join + 1) {
      const PairOf<Real> next = x[i - 1] - upper[i - 1] * other;
      x[i] = diagonal[i] * other;
      other = next;
      --i;
    }
  }
  if (fork.trunk - 1 > fork.join) {
    one = one - upper[fork.join] * other;
    x[fork.join + 1] = diagonal[fork.join + 1] * other;
  }
  one = diagonal[fork.join] * one;
  x[fork.join] = one;
  other = one;
  for (std::size_t k = fork.join, i = fork.join + 1; k > 0 || i < fork.trunk;) {
    if (k > 0) {
      --k;
      one = x[k] - upper[k] * one;
      x[k] = one;
    }
    if (i < fork.trunk) {
      other = x[i] - lower[i] * other;
      x[i] = other;
      ++i;
    }
  }
  for (std::size_t i = fork.trunk; i < fork.count; ++i) {
    x[i] = x[i] - lower[i] * x[fork.before(i - 1)];
  }
}

}  // namespace maslin
