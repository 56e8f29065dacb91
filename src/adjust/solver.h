// Linear programmes with whole numbers: the one place that knows the solver.
#pragma once

#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

namespace maslin {

inline constexpr double k_unbounded = 1e30;

/// Minimise cost . x with every row between its bounds and every column between its own.
struct LinearProgram {
  struct Column {
    double cost = 0.0;
    double low = 0.0;
    double high = k_unbounded;
    bool whole = false;
  };
  struct Row {
    std::vector<std::pair<std::size_t, double>> terms;  // column, coefficient
    double low = -k_unbounded;
    double high = k_unbounded;
  };
  std::vector<Column> columns;
  std::vector<Row> rows;

  std::size_t add_column(const Column& column);
};

enum class SolveStatus : std::uint8_t { optimal, infeasible, stopped };

struct LinearSolution {
  SolveStatus status = SolveStatus::stopped;
  std::vector<double> x;
  double cost = 0.0;
};

/// Solves with branch and bound (COIN CBC), on the calling thread, without output. The
/// same programme gives the same answer.
LinearSolution solve(const LinearProgram& program);

}  // namespace maslin
