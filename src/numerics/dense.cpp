#include "numerics/dense.h"

#include <algorithm>
#include <cmath>

namespace maslin {

SquareMatrix::SquareMatrix(std::size_t n, double diagonal) : size(n), values(n * n, 0.0) {
  for (std::size_t i = 0; i < n; ++i) {
    at(i, i) = diagonal;
  }
}

SquareMatrix lower_factor(const SquareMatrix& matrix) {
  const std::size_t n = matrix.size;
  double largest = 0.0;
  for (std::size_t i = 0; i < n; ++i) {
    largest = std::max(largest, matrix.at(i, i));
  }
  const double least = std::max(1e-12 * largest, 1e-300);
  SquareMatrix lower(n);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      double sum = matrix.at(i, j);
      for (std::size_t k = 0; k < j; ++k) {
        sum -= lower.at(i, k) * lower.at(j, k);
      }
      lower.at(i, j) = i == j ? std::sqrt(std::max(sum, least)) : sum / lower.at(j, j);
    }
  }
  return lower;
}

SquareMatrix from_factor(const SquareMatrix& lower) {
  SquareMatrix out(lower.size);
  for (std::size_t i = 0; i < lower.size; ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      double sum = 0.0;
      for (std::size_t k = 0; k <= j; ++k) {
        sum += lower.at(i, k) * lower.at(j, k);
      }
      out.at(i, j) = sum;
      out.at(j, i) = sum;
    }
  }
  return out;
}

std::vector<double> solve_lower(const SquareMatrix& lower, std::vector<double> b) {
  for (std::size_t i = 0; i < b.size(); ++i) {
    for (std::size_t k = 0; k < i; ++k) {
      b[i] -= lower.at(i, k) * b[k];
    }
    b[i] /= lower.at(i, i);
  }
  return b;
}

std::vector<double> solve_factored(const SquareMatrix& lower, std::vector<double> b) {
  b = solve_lower(lower, std::move(b));
  for (std::size_t i = b.size(); i-- > 0;) {
    for (std::size_t k = i + 1; k < b.size(); ++k) {
      b[i] -= lower.at(k, i) * b[k];
    }
    b[i] /= lower.at(i, i);
  }
  return b;
}

std::vector<double> times(const SquareMatrix& matrix, const std::vector<double>& x) {
  std::vector<double> out(x.size(), 0.0);
  for (std::size_t i = 0; i < x.size(); ++i) {
    for (std::size_t j = 0; j < x.size(); ++j) {
      out[i] += matrix.at(i, j) * x[j];
    }
  }
  return out;
}

double dot(const std::vector<double>& x, const std::vector<double>& y) {
  double sum = 0.0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    sum += x[i] * y[i];
  }
  return sum;
}

}  // namespace maslin
