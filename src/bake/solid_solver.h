// The linear systems of a solid's steps: BiCGStab (van der Vorst 1992) in floats, led by a
// sweep over lines, and mended in doubles until what is left is small. The solver waits for
// memory, so that half the bytes are half the time.
#pragma once

#include <cstddef>
#include <vector>

#include "bake/stencil.h"
#include "numerics/team.h"

namespace maslin {

using FloatPair = PairOf<FloatLanes>;
using FloatBlock = BlockOf<FloatLanes>;

/// The matrix as the solver works with it, and its lines up factored.
struct SweptMatrix {
  StencilOf<FloatLanes> matrix;  // rows scaled: a residual counts 1 per K and per 0.01 kg/kg
  std::vector<FloatBlock> line_low, line_diagonal;
};

class SolidSolver {
 public:
  explicit SolidSolver(const StencilShape& shape);

  /// Takes the matrix and the weights of its rows, and factors its lines.
  void set_up(const StencilOf<Lanes>& matrix, const std::vector<Pair>& weight, Team* team);

  /// Solves matrix x = b to `allowed` in the mean square of the weighted residual; `x` holds a
  /// guess at first, then the answer, `residual` what is left, to rounding. Returns the
  /// iterations, k_most_iterations where it does not come down.
  int solve(const StencilOf<Lanes>& matrix, const std::vector<Pair>& weight, double allowed,
            const Pair* b, Pair* x, Pair* residual, Team* team);

  static constexpr int k_most_iterations = 200;

 private:
  /// half = sweep of from, image = matrix half.
  void lead(const std::vector<FloatPair>& from, std::vector<FloatPair>& half,
            std::vector<FloatPair>& image, Team* team);
  /// About matrix^-1 r, into room_.x. `square` is |r|^2.
  int iterate(double square, double enough, int most, Team* team);

  SweptMatrix swept_;
  struct Room {
    std::vector<FloatPair> r, shadow, p, v, half, second, t, x;
  } room_;
  std::vector<std::vector<Pair>> line_;
};

}  // namespace maslin
