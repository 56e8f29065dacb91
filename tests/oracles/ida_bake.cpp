#include "ida_bake.h"

#include <ida/ida.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#include "bake/progress.h"
#include "bake/stepper.h"
#include "column_equations.h"

namespace maslin {
namespace {

constexpr double k_look_s = 1.0;  // between looks that colour and setting are summed from

struct Bake {
  const BakeSetup& setup;
  ColumnEquations equations;
};

Surroundings oven_at(const BakeSetup& setup, double now_s) {
  return surroundings(setup.course,
                      oven_after(setup.course, oven_at_start(setup.course), 0.0, now_s));
}

/// Volume over that at loading, by the gas of every cell at its temperature. A bake only warms,
/// so this is also the largest so far.
double volume_ratio(const BakeSetup& setup, const ColumnState& state) {
  double swelling = 0.0, solids = 0.0;
  for (std::size_t i = 1; i < setup.column.count; ++i) {
    const double own = setup.column.solids_kg[i][0];
    swelling += own * gas_swelling(setup.figures, state.temperature[i])[0];
    solids += own;
  }
  return 1.0 + setup.figures.volume_gain[0] * swelling / solids;
}

/// Heat and water that a node stores less what it gains.
int residual(realtype now_s, N_Vector y, N_Vector dy, N_Vector out, void* data) {
  Bake& bake = *static_cast<Bake*>(data);
  const double* in = N_VGetArrayPointer(y);
  const double* speed = N_VGetArrayPointer(dy);
  double* left = N_VGetArrayPointer(out);
  bake.equations.surround(oven_at(bake.setup, now_s),
                          volume_ratio(bake.setup, bake.equations.state_of(in)));
  const std::vector<Pair>& rate = bake.equations.rates(in);
  for (std::size_t i = 0; i < rate.size(); ++i) {
    const ColumnEquations::Capacity c = bake.equations.capacity(in, i);
    left[2 * i] = c.heat * speed[2 * i] + c.heat_of_water * speed[2 * i + 1] - rate[i].a[0];
    left[2 * i + 1] = c.water * speed[2 * i + 1] - (i == 0 ? 0.0 : rate[i].b[0]);
  }
  return 0;
}

/// Speeds that go with the state at loading.
void start_speeds(Bake& bake, const double* nodes, double* speed) {
  bake.equations.surround(oven_at(bake.setup, 0.0), 1.0);
  const std::vector<Pair>& rate = bake.equations.rates(nodes);
  for (std::size_t i = 0; i < rate.size(); ++i) {
    const ColumnEquations::Capacity c = bake.equations.capacity(nodes, i);
    speed[2 * i + 1] = i == 0 ? 0.0 : rate[i].b[0] / c.water;
    speed[2 * i] = (rate[i].a[0] - c.heat_of_water * speed[2 * i + 1]) / c.heat;
  }
}

}  // namespace

IdaBake ida_bake(const BakeSetup& setup, double end_minutes, double sample_minutes,
                 double relative_tolerance) {
  Bake bake{setup, ColumnEquations(setup.column, setup.figures)};
  SUNContext context = nullptr;
  SUNContext_Create(nullptr, &context);
  const auto size = static_cast<sunindextype>(bake.equations.size());
  N_Vector y = N_VNew_Serial(size, context);
  N_Vector dy = N_VNew_Serial(size, context);
  bake.equations.start_from(setup.start, N_VGetArrayPointer(y));
  start_speeds(bake, N_VGetArrayPointer(y), N_VGetArrayPointer(dy));
  void* memory = IDACreate(context);
  IDAInit(memory, residual, 0.0, y, dy);
  IDASStolerances(memory, relative_tolerance, relative_tolerance);
  IDASetUserData(memory, &bake);
  IDASetMaxNumSteps(memory, 1000000);
  SUNMatrix matrix = SUNDenseMatrix(size, size, context);
  SUNLinearSolver solver = SUNLinSol_Dense(y, matrix, context);
  IDASetLinearSolver(memory, solver, matrix);

  IdaBake out;
  Progress progress = progress_at_start(setup.column);
  const Lanes first_water = column_totals(setup.column, setup.figures, setup.start).water_kg;
  double now_s = 0.0;
  const auto look = [&](double step_s) {
    const ColumnState& state = bake.equations.state_of(N_VGetArrayPointer(y));
    BakeMoment moment;
    follow(setup.column, setup.figures, oven_at(setup, now_s), state, step_s, BakeDetail::outcome,
           progress, moment);
    moment.minutes = now_s / 60.0;
    moment.weight_loss_pct =
        100.0 * (first_water - column_totals(setup.column, setup.figures, state).water_kg) /
        setup.mass_kg;
    if (now_s >= 60.0 * sample_minutes * static_cast<double>(out.trace.size()) - 1e-6) {
      out.trace.push_back(moment);
    }
  };
  look(0.0);
  while (now_s < 60.0 * end_minutes - 1e-6 && !out.failed) {
    out.failed = IDASolve(memory, now_s + k_look_s, &now_s, y, dy, IDA_NORMAL) < 0;
    look(k_look_s);
  }
  IDAGetNumSteps(memory, &out.steps);
  IDAFree(&memory);
  SUNLinSolFree(solver);
  SUNMatDestroy(matrix);
  N_VDestroy(y);
  N_VDestroy(dy);
  SUNContext_Free(&context);
  return out;
}

}  // namespace maslin
