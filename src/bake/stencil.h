// A matrix of two unknowns a cell on the grid of a solid, each cell tied to its six
// neighbours; and the sweep over lines that nearly solves it. For lanes of doubles (the
// matrix itself) and of floats (what the solver works with). In a header because the
// kernels must see it whole.
#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

#include "numerics/block_tridiagonal.h"
#include "numerics/float_lanes.h"

namespace maslin {

template <typename Real>
PairOf<Real> next_lane(const PairOf<Real>& p) {
  return {next_lane(p.a), next_lane(p.b)};
}
template <typename Real>
PairOf<Real> lane_before(const PairOf<Real>& p) {
  return {lane_before(p.a), lane_before(p.b)};
}
template <typename Real>
BlockOf<Real> next_lane(const BlockOf<Real>& b) {
  return {next_lane(b.aa), next_lane(b.ab), next_lane(b.ba), next_lane(b.bb)};
}
template <typename Real>
BlockOf<Real> lane_before(const BlockOf<Real>& b) {
  return {lane_before(b.aa), lane_before(b.ab), lane_before(b.ba), lane_before(b.bb)};
}
template <typename Real>
void gather(PairOf<Real>& to, const BlockOf<Real>& block, const PairOf<Real>& from) {
  const PairOf<Real> part = block * from;
  to.a += part.a;
  to.b += part.b;
}
template <typename Real>
void less(PairOf<Real>& to, const BlockOf<Real>& block, const PairOf<Real>& from) {
  const PairOf<Real> part = block * from;
  to.a -= part.a;
  to.b -= part.b;
}

/// Columns of cells stand as in SolidGrid. The rows of columns along the piece are cut into
/// slabs that hands can work on at once: always the same, so that the answer is too.
struct StencilShape {
  std::size_t groups = 0, along = 1, up = 0;

  std::size_t columns() const { return groups * along; }
  std::size_t nodes() const { return columns() * (up + 1); }
  std::size_t node(std::size_t column, std::size_t k) const { return column * (up + 1) + k; }
  std::size_t slabs() const { return std::clamp<std::size_t>(along / 16, 1, 4); }
  std::size_t slab_from(std::size_t slab) const { return along * slab / slabs(); }
};

template <typename Real>
struct StencilOf : StencilShape {
  std::vector<BlockOf<Real>> diagonal;
  // z_low and z_up stand in the row that they belong to. x_up[at] ties row `at` to the next
  // cell across, x_low[at] the row of that cell to `at`; likewise along.
  std::vector<BlockOf<Real>> z_low, z_up, x_low, x_up, y_low, y_up;

  void resize() {
    for (auto* blocks : {&diagonal, &z_low, &z_up, &x_low, &x_up, &y_low, &y_up}) {
      blocks->resize(nodes());
    }
  }
};

/// y += (ties across and along, all of them or only what the sweep leaves out) x, for the
/// column `g` of row `row`: ties from each cell to its neighbours further in, and both ways
/// over the seams of the lanes and of the slabs.
template <bool all, typename Real>
inline void gather_sideways(const StencilOf<Real>& m, std::size_t row, std::size_t row_end,
                            std::size_t g, const PairOf<Real>* x, PairOf<Real>* y) {
  const std::size_t column = row * m.groups + g;
  const std::size_t at = m.node(column, 0);
  const bool seam = g + 1 == m.groups;
  if (g > 0) {
    const std::size_t inward = m.node(column - 1, 0);
    for (std::size_t k = 1; k <= m.up; ++k) {
      gather(y[k], m.x_low[inward + k], x[inward + k]);
    }
  } else {
    const std::size_t inward = m.node(column + m.groups - 1, 0);
    for (std::size_t k = 1; k <= m.up; ++k) {
      const PairOf<Real> part = lane_before(m.x_low[inward + k] * x[inward + k]);
      y[k].a += part.a;
      y[k].b += part.b;
    }
  }
  if (seam) {
    const std::size_t outward = m.node(row * m.groups, 0);
    for (std::size_t k = 1; k <= m.up; ++k) {
      gather(y[k], m.x_up[at + k], next_lane(x[outward + k]));
    }
  } else if (all) {
    const std::size_t outward = m.node(column + 1, 0);
    for (std::size_t k = 1; k <= m.up; ++k) {
      gather(y[k], m.x_up[at + k], x[outward + k]);
    }
  }
  if (row > 0) {
    const std::size_t inward = m.node(column - m.groups, 0);
    for (std::size_t k = 1; k <= m.up; ++k) {
      gather(y[k], m.y_low[inward + k], x[inward + k]);
    }
  }
  if (row + 1 < m.along && (all || row + 1 == row_end)) {
    const std::size_t outward = m.node(column + m.groups, 0);
    for (std::size_t k = 1; k <= m.up; ++k) {
      gather(y[k], m.y_up[at + k], x[outward + k]);
    }
  }
}

/// y = start + (what the sweep leaves out of the matrix) x, in one slab.
template <typename Real>
inline void add_left_out(const StencilOf<Real>& m, std::size_t slab, const PairOf<Real>* start,
                         const PairOf<Real>* x, PairOf<Real>* y) {
  const std::size_t end = m.slab_from(slab + 1);
  for (std::size_t row = m.slab_from(slab); row < end; ++row) {
    for (std::size_t g = 0; g < m.groups; ++g) {
      const std::size_t at = m.node(row * m.groups + g, 0);
      std::copy(start + at, start + at + m.up + 1, y + at);
      gather_sideways<false>(m, row, end, g, x, y + at);
    }
  }
}

/// y = b - A x in one slab; `room` holds a column.
template <typename Real>
inline void take_product(const StencilOf<Real>& m, std::size_t slab, const PairOf<Real>* b,
                         const PairOf<Real>* x, PairOf<Real>* y, PairOf<Real>* room) {
  const std::size_t end = m.slab_from(slab + 1);
  for (std::size_t row = m.slab_from(slab); row < end; ++row) {
    for (std::size_t g = 0; g < m.groups; ++g) {
      const std::size_t at = m.node(row * m.groups + g, 0);
      for (std::size_t k = 0; k <= m.up; ++k) {
        room[k] = m.diagonal[at + k] * x[at + k];
        if (k > 0) {
          gather(room[k], m.z_low[at + k], x[at + k - 1]);
        }
        if (k < m.up) {
          gather(room[k], m.z_up[at + k], x[at + k + 1]);
        }
      }
      gather_sideways<true>(m, row, end, g, x, room);
      for (std::size_t k = 0; k <= m.up; ++k) {
        y[at + k] = {b[at + k].a - room[k].a, b[at + k].b - room[k].b};
      }
    }
  }
}

/// One sweep over a slab from the surface inward over the lines up, each given what its
/// neighbours on the outside have come to (block Gauss-Seidel). Lanes and slabs are not
/// waited for: at their seams the neighbour's part is left out.
template <typename Real>
inline void solve_lines(const StencilOf<Real>& m, const BlockOf<Real>* line_low,
                        const BlockOf<Real>* line_diagonal, std::size_t slab, PairOf<Real>* x) {
  const std::size_t end = m.slab_from(slab + 1);
  for (std::size_t row = end; row-- > m.slab_from(slab);) {
    for (std::size_t g = m.groups; g-- > 0;) {
      const std::size_t column = row * m.groups + g;
      const std::size_t at = m.node(column, 0);
      if (g + 1 < m.groups) {
        const std::size_t across = m.node(column + 1, 0);
        for (std::size_t k = 1; k <= m.up; ++k) {
          less(x[at + k], m.x_up[at + k], x[across + k]);
        }
      }
      if (row + 1 < end) {
        const std::size_t along = m.node(column + m.groups, 0);
        for (std::size_t k = 1; k <= m.up; ++k) {
          less(x[at + k], m.y_up[at + k], x[along + k]);
        }
      }
      solve_block_tridiagonal(line_low + at, line_diagonal + at, m.z_up.data() + at, x + at,
                              m.up + 1);
    }
  }
}

}  // namespace maslin
