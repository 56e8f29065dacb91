// Small dense matrices, row by row in one vector: what an analysis of a thousand draws in
// some tens of directions needs. Plain loops, so that every machine gives the same bits.
#pragma once

#include <cstddef>
#include <vector>

namespace maslin {

/// Square, `size` rows of `size` numbers.
struct SquareMatrix {
  std::size_t size = 0;
  std::vector<double> values;

  SquareMatrix() = default;
  explicit SquareMatrix(std::size_t n, double diagonal = 0.0);
  double& at(std::size_t row, std::size_t column) { return values[row * size + column]; }
  double at(std::size_t row, std::size_t column) const { return values[row * size + column]; }
};

/// The lower triangle L with L L^T = `matrix` (symmetric; the lower half is read). A pivot
/// that is not positive is lifted to a trillionth of the largest diagonal, so that a matrix
/// that is only just singular still gives a factor.
SquareMatrix lower_factor(const SquareMatrix& matrix);
/// L L^T.
SquareMatrix from_factor(const SquareMatrix& lower);
/// x with L x = b.
std::vector<double> solve_lower(const SquareMatrix& lower, std::vector<double> b);
/// x with L L^T x = b.
std::vector<double> solve_factored(const SquareMatrix& lower, std::vector<double> b);
std::vector<double> times(const SquareMatrix& matrix, const std::vector<double>& x);
double dot(const std::vector<double>& x, const std::vector<double>& y);

}  // namespace maslin
