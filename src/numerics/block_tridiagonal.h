// Two unknowns a cell in a row of cells, every cell tied to its two neighbours.
#pragma once

#include <cstddef>

#include "numerics/lanes.h"

namespace maslin {

struct Pair {
  Lanes a, b;
};

/// A 2 by 2 block, row-major.
struct Block {
  Lanes aa, ab, ba, bb;
};

inline Pair operator*(const Block& m, const Pair& x) {
  return {m.aa * x.a + m.ab * x.b, m.ba * x.a + m.bb * x.b};
}
inline Block operator*(const Block& m, const Block& n) {
  return {m.aa * n.aa + m.ab * n.ba, m.aa * n.ab + m.ab * n.bb, m.ba * n.aa + m.bb * n.ba,
          m.ba * n.ab + m.bb * n.bb};
}
inline Block inverse(const Block& m) {
  const Lanes scale = 1.0 / (m.aa * m.bb - m.ab * m.ba);
  return {m.bb * scale, -m.ab * scale, -m.ba * scale, m.aa * scale};
}

/// Factors in place the matrix with rows  lower[i] x[i-1] + diagonal[i] x[i] + upper[i] x[i+1]
/// by block elimination without exchanges (enough for diffusion, where the diagonal
/// rules). Afterwards `diagonal` holds inverses and `lower` the multipliers; lower[0]
/// and upper[count-1] are not read.
inline void factor_block_tridiagonal(Block* lower, Block* diagonal, const Block* upper,
                                     std::size_t count) {
  diagonal[0] = inverse(diagonal[0]);
  for (std::size_t i = 1; i < count; ++i) {
    lower[i] = lower[i] * diagonal[i - 1];
    const Block fill = lower[i] * upper[i - 1];
    diagonal[i].aa -= fill.aa;
    diagonal[i].ab -= fill.ab;
    diagonal[i].ba -= fill.ba;
    diagonal[i].bb -= fill.bb;
    diagonal[i] = inverse(diagonal[i]);
  }
}

/// Solves in place with the factors from above: `x` holds the right side, then the answer.
inline void solve_block_tridiagonal(const Block* lower, const Block* diagonal, const Block* upper,
                                    Pair* x, std::size_t count) {
  for (std::size_t i = 1; i < count; ++i) {
    const Pair below = lower[i] * x[i - 1];
    x[i].a -= below.a;
    x[i].b -= below.b;
  }
  x[count - 1] = diagonal[count - 1] * x[count - 1];
  for (std::size_t i = count - 1; i-- > 0;) {
    const Pair above = upper[i] * x[i + 1];
    x[i].a -= above.a;
    x[i].b -= above.b;
    x[i] = diagonal[i] * x[i];
  }
}

}  // namespace maslin
