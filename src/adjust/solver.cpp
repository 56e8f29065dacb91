#include "adjust/solver.h"

#include <coin/Cbc_C_Interface.h>
#include <coin/Clp_C_Interface.h>

#include <cmath>
#include <memory>

namespace maslin {
namespace {

/// The matrix by columns, as the solvers want it.
struct Matrix {
  std::vector<int> start;
  std::vector<int> row;
  std::vector<double> value;
};

Matrix by_columns(const LinearProgram& program) {
  std::vector<std::vector<std::pair<int, double>>> columns(program.columns.size());
  for (std::size_t r = 0; r < program.rows.size(); ++r) {
    for (const auto& [column, coefficient] : program.rows[r].terms) {
      if (coefficient != 0.0) {
        columns[column].emplace_back(static_cast<int>(r), coefficient);
      }
    }
  }
  Matrix out;
  out.start.push_back(0);
  for (const auto& column : columns) {
    for (const auto& [row, value] : column) {
      out.row.push_back(row);
      out.value.push_back(value);
    }
    out.start.push_back(static_cast<int>(out.row.size()));
  }
  return out;
}

/// The programme as plain arrays.
struct Arrays {
  Matrix matrix;
  std::vector<double> column_low;
  std::vector<double> column_high;
  std::vector<double> cost;
  std::vector<double> row_low;
  std::vector<double> row_high;
};

Arrays arrays_of(const LinearProgram& program) {
  Arrays out;
  out.matrix = by_columns(program);
  for (const LinearProgram::Column& column : program.columns) {
    out.column_low.push_back(column.low);
    out.column_high.push_back(column.high);
    out.cost.push_back(column.cost);
  }
  for (const LinearProgram::Row& row : program.rows) {
    out.row_low.push_back(row.low);
    out.row_high.push_back(row.high);
  }
  return out;
}

LinearSolution solve_continuous(const LinearProgram& program, const Arrays& arrays) {
  const std::unique_ptr<Clp_Simplex, decltype(&Clp_deleteModel)> model(Clp_newModel(),
                                                                       &Clp_deleteModel);
  Clp_setLogLevel(model.get(), 0);
  Clp_loadProblem(model.get(), static_cast<int>(program.columns.size()),
                  static_cast<int>(program.rows.size()), arrays.matrix.start.data(),
                  arrays.matrix.row.data(), arrays.matrix.value.data(), arrays.column_low.data(),
                  arrays.column_high.data(), arrays.cost.data(), arrays.row_low.data(),
                  arrays.row_high.data());
  Clp_dual(model.get(), 0);
  LinearSolution out;
  const int status = Clp_status(model.get());
  if (status == 0) {
    out.status = SolveStatus::optimal;
    const double* x = Clp_getColSolution(model.get());
    out.x.assign(x, x + program.columns.size());
    out.cost = Clp_getObjValue(model.get());
  } else {
    out.status = status == 1 ? SolveStatus::infeasible : SolveStatus::stopped;
  }
  return out;
}

LinearSolution solve_whole(const LinearProgram& program, const Arrays& arrays) {
  const std::unique_ptr<Cbc_Model, decltype(&Cbc_deleteModel)> model(Cbc_newModel(),
                                                                     &Cbc_deleteModel);
  Cbc_setParameter(model.get(), "log", "0");
  Cbc_loadProblem(model.get(), static_cast<int>(program.columns.size()),
                  static_cast<int>(program.rows.size()), arrays.matrix.start.data(),
                  arrays.matrix.row.data(), arrays.matrix.value.data(), arrays.column_low.data(),
                  arrays.column_high.data(), arrays.cost.data(), arrays.row_low.data(),
                  arrays.row_high.data());
  for (std::size_t i = 0; i < program.columns.size(); ++i) {
    if (program.columns[i].whole) {
      Cbc_setInteger(model.get(), static_cast<int>(i));
    }
  }
  // A count of nodes, not of seconds, so that the answer does not depend on the machine.
  Cbc_setParameter(model.get(), "maxNodes", "2000");
  Cbc_solve(model.get());
  LinearSolution out;
  if (Cbc_isProvenOptimal(model.get()) != 0) {
    out.status = SolveStatus::optimal;
    const double* x = Cbc_getColSolution(model.get());
    out.x.assign(x, x + program.columns.size());
    out.cost = Cbc_getObjValue(model.get());
  } else if (Cbc_isProvenInfeasible(model.get()) != 0) {
    out.status = SolveStatus::infeasible;
  }
  return out;
}

bool is_whole(const LinearProgram& program, const std::vector<double>& x) {
  constexpr double k_whole = 1e-7;
  for (std::size_t i = 0; i < x.size(); ++i) {
    if (program.columns[i].whole && std::fabs(x[i] - std::round(x[i])) > k_whole) {
      return false;
    }
  }
  return true;
}

}  // namespace

std::size_t LinearProgram::add_column(const Column& column) {
  columns.push_back(column);
  return columns.size() - 1;
}

LinearSolution solve(const LinearProgram& program) {
  const Arrays arrays = arrays_of(program);
  bool whole = false;
  for (const LinearProgram::Column& column : program.columns) {
    whole = whole || column.whole;
  }
  LinearSolution relaxed = solve_continuous(program, arrays);
  // What cannot be had in parts cannot be had whole; and parts that come out whole are the answer.
  const bool settled = !whole || relaxed.status == SolveStatus::infeasible ||
                       (relaxed.status == SolveStatus::optimal && is_whole(program, relaxed.x));
  return settled ? relaxed : solve_whole(program, arrays);
}

}  // namespace maslin
