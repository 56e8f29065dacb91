#include "cvode_bake.h"

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#include "column_equations.h"

namespace maslin {
namespace {

/// d(temperature, water)/dt of every node.
int right_hand_side(realtype, N_Vector y, N_Vector dy, void* data) {
  ColumnEquations& equations = *static_cast<ColumnEquations*>(data);
  const double* in = N_VGetArrayPointer(y);
  double* out = N_VGetArrayPointer(dy);
  const std::vector<Pair>& rate = equations.rates(in);
  for (std::size_t i = 0; i < rate.size(); ++i) {
    const ColumnEquations::Capacity c = equations.capacity(in, i);
    out[2 * i + 1] = i == 0 ? 0.0 : rate[i].b[0] / c.water;
    out[2 * i] = (rate[i].a[0] - c.heat_of_water * out[2 * i + 1]) / c.heat;
  }
  return 0;
}

}  // namespace

CvodeBake cvode_bake(const CellColumn& column, const ColumnFigures& figures,
                     const Surroundings& around, const ColumnState& start, double end_s,
                     double relative_tolerance) {
  ColumnEquations equations(column, figures);
  equations.surround(around, 1.0);
  SUNContext context = nullptr;
  SUNContext_Create(nullptr, &context);
  const auto size = static_cast<sunindextype>(equations.size());
  N_Vector y = N_VNew_Serial(size, context);
  equations.start_from(start, N_VGetArrayPointer(y));
  void* memory = CVodeCreate(CV_BDF, context);
  CVodeInit(memory, right_hand_side, 0.0, y);
  CVodeSStolerances(memory, relative_tolerance, relative_tolerance);
  CVodeSetUserData(memory, &equations);
  CVodeSetMaxNumSteps(memory, 1000000);
  SUNMatrix matrix = SUNDenseMatrix(size, size, context);
  SUNLinearSolver solver = SUNLinSol_Dense(y, matrix, context);
  CVodeSetLinearSolver(memory, solver, matrix);
  realtype reached = 0.0;
  CVode(memory, end_s, y, &reached, CV_NORMAL);
  CvodeBake out;
  CVodeGetNumSteps(memory, &out.steps);
  for (std::size_t i = 0; i < column.count; ++i) {
    out.temperature_k.push_back(N_VGetArrayPointer(y)[2 * i]);
    out.water.push_back(N_VGetArrayPointer(y)[2 * i + 1]);
  }
  CVodeFree(&memory);
  SUNLinSolFree(solver);
  SUNMatDestroy(matrix);
  N_VDestroy(y);
  SUNContext_Free(&context);
  return out;
}

}  // namespace maslin
