#include "cvode_bake.h"

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#include "bake/column_rates.h"

namespace maslin {
namespace {

struct Problem {
  const Column& column;
  const ColumnFigures& figures;
  const Surroundings& around;
  ColumnState state;
  std::vector<CellLogs<Lanes>> logs;
  std::vector<CellPhysics> physics;
  std::vector<Pair> rate;
};

/// d(temperature, water)/dt of every node, one lane of eight equal ones.
int right_hand_side(realtype, N_Vector y, N_Vector dy, void* data) {
  Problem& p = *static_cast<Problem*>(data);
  const double* in = N_VGetArrayPointer(y);
  double* out = N_VGetArrayPointer(dy);
  const std::size_t count = p.column.count;
  for (std::size_t i = 0; i < count; ++i) {
    p.state.temperature[i] = in[2 * i];
    p.state.water[i] = in[2 * i + 1];
  }
  const Stage stage{p.column, {p.figures, p.around}, 1.0, 1.0};
  const NodesOf<Lanes> nodes{p.state.temperature.data(), p.state.water.data()};
  inner_rates(stage, nodes, {p.logs.data(), p.physics.data()}, p.rate.data());
  add_surfaces(surface_fluxes(stage, nodes, p.physics.data()), p.column.last, p.rate.data());
  out[0] = p.rate[0].a[0] / (p.column.base_area_m2[0] * p.figures.plate_heat[0]);
  out[1] = 0.0;
  for (std::size_t i = 1; i < count; ++i) {
    const double solids = p.column.solids_kg[i][0];
    const double wetting = p.rate[i].b[0] / solids;
    const double capacity =
        solids * (p.figures.solids_heat[0] + k_liquid_heat_j_per_kg_k * in[2 * i + 1]);
    const double carried =
        solids * k_liquid_heat_j_per_kg_k * (in[2 * i] - k_zero_celsius_k) * wetting;
    out[2 * i] = (p.rate[i].a[0] - carried) / capacity;
    out[2 * i + 1] = wetting;
  }
  return 0;
}

}  // namespace

CvodeBake cvode_bake(const Column& column, const ColumnFigures& figures, const Surroundings& around,
                     const ColumnState& start, double end_s, double relative_tolerance) {
  Problem problem{column,
                  figures,
                  around,
                  start,
                  std::vector<CellLogs<Lanes>>(column.count),
                  std::vector<CellPhysics>(column.count),
                  std::vector<Pair>(column.count)};
  SUNContext context = nullptr;
  SUNContext_Create(nullptr, &context);
  const auto size = static_cast<sunindextype>(2 * column.count);
  N_Vector y = N_VNew_Serial(size, context);
  for (std::size_t i = 0; i < column.count; ++i) {
    N_VGetArrayPointer(y)[2 * i] = start.temperature[i][0];
    N_VGetArrayPointer(y)[2 * i + 1] = start.water[i][0];
  }
  void* memory = CVodeCreate(CV_BDF, context);
  CVodeInit(memory, right_hand_side, 0.0, y);
  CVodeSStolerances(memory, relative_tolerance, relative_tolerance);
  CVodeSetUserData(memory, &problem);
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
