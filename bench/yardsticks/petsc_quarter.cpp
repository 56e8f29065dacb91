// The quarter by PETSc: a structured grid (DMDA), time steps and nonlinear solves of its own
// (TS, SNES), its Krylov methods and preconditioners. It is given maslin's own rates of
// cells and faces, eight at a time, and the exact matrix, so that what is compared is the
// stepping and the solving. Options of PETSc (-ts_type, -pc_type ...) are taken as usual.
// Prints one row of the table.
#include <petscdmda.h>
#include <petscts.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdio>
#include <ctime>
#include <vector>

#include "petsc_patch.h"

namespace {

using namespace yardstick;

struct Context {
  DM da;
  Patch* patch;
  Vec local;
};

PetscErrorCode residual(TS, PetscReal now, Vec u, Vec udot, Vec out, void* data) {
  auto& c = *static_cast<Context*>(data);
  PetscFunctionBeginUser;
  PetscCall(DMGlobalToLocal(c.da, u, INSERT_VALUES, c.local));
  const PetscScalar* state = nullptr;
  PetscCall(VecGetArrayRead(c.local, &state));
  c.patch->evaluate(now, state, false);
  const PetscScalar* dot = nullptr;
  PetscScalar* to = nullptr;
  PetscCall(VecGetArrayRead(udot, &dot));
  PetscCall(VecGetArray(out, &to));
  PetscInt at = 0;
  for (std::size_t cell = 0; cell < c.patch->solids_.size(); ++cell) {
    if (c.patch->owned(cell)) {
      const auto speed = c.patch->speed(cell, state);
      to[at] = dot[at] - speed[0];
      to[at + 1] = dot[at + 1] - speed[1];
      at += 2;
    }
  }
  PetscCall(VecRestoreArray(out, &to));
  PetscCall(VecRestoreArrayRead(udot, &dot));
  PetscCall(VecRestoreArrayRead(c.local, &state));
  PetscFunctionReturn(0);
}

PetscErrorCode matrix(TS, PetscReal now, Vec u, Vec, PetscReal shift, Mat, Mat to, void* data) {
  auto& c = *static_cast<Context*>(data);
  PetscFunctionBeginUser;
  PetscCall(DMGlobalToLocal(c.da, u, INSERT_VALUES, c.local));
  const PetscScalar* state = nullptr;
  PetscCall(VecGetArrayRead(c.local, &state));
  Patch& patch = *c.patch;
  patch.evaluate(now, state, true);
  PetscCall(MatZeroEntries(to));
  const auto put = [&](std::size_t row, std::size_t column, const std::array<double, 4>& block) {
    if (!patch.owned(row)) {
      return;
    }
    const PetscInt i = static_cast<PetscInt>(row), j = static_cast<PetscInt>(column);
    MatSetValuesBlockedLocal(to, 1, &i, 1, &j, block.data(), ADD_VALUES);
  };
  for (std::size_t cell = 0; cell < patch.solids_.size(); ++cell) {
    if (!patch.owned(cell)) {
      continue;
    }
    const auto capacity = patch.capacity(cell, state);
    auto block = Patch::over(capacity, &patch.diagonal_[4 * cell], -1.0);
    if (patch.plate_m2_[cell] > 0.0) {
      block[2] = block[3] = 0.0;
    } else {
      // The capacity's own answer to the state.
      const double cw = k_liquid_heat_j_per_kg_k;
      block[0] += cw * patch.rate_[2 * cell + 1] / capacity.heat_t;
      block[1] += patch.speed(cell, state)[0] * patch.solids_[cell] * cw / capacity.heat_t;
    }
    block[0] += shift;
    block[3] += shift;
    put(cell, cell, block);
  }
  for (const bool contact : {false, true}) {
    const auto& faces = contact ? patch.contacts_ : patch.inner_;
    const auto& slopes = contact ? patch.contact_slopes_ : patch.inner_slopes_;
    for (std::size_t f = 0; f < faces.size(); ++f) {
      const auto first = static_cast<std::size_t>(faces[f].first);
      const auto second = static_cast<std::size_t>(faces[f].second);
      auto up = Patch::over(patch.capacity(first, state), &slopes[f][4], 1.0);
      if (contact) {
        up[2] = up[3] = 0.0;
      }
      put(first, second, up);
      put(second, first, Patch::over(patch.capacity(second, state), &slopes[f][0], -1.0));
    }
  }
  PetscCall(VecRestoreArrayRead(c.local, &state));
  PetscCall(MatAssemblyBegin(to, MAT_FINAL_ASSEMBLY));
  PetscCall(MatAssemblyEnd(to, MAT_FINAL_ASSEMBLY));
  PetscFunctionReturn(0);
}

}  // namespace

int main(int argc, char** argv) {
  PetscFunctionBeginUser;
  PetscCall(PetscInitialize(&argc, &argv, nullptr, nullptr));
  PetscInt across = 16, along = 12, up = 15;
  PetscReal tolerance = 4.0;
  PetscCall(PetscOptionsGetInt(nullptr, nullptr, "-across", &across, nullptr));
  PetscCall(PetscOptionsGetInt(nullptr, nullptr, "-along", &along, nullptr));
  PetscCall(PetscOptionsGetInt(nullptr, nullptr, "-up", &up, nullptr));
  PetscCall(PetscOptionsGetReal(nullptr, nullptr, "-tolerance", &tolerance, nullptr));
  const QuarterProblem problem(static_cast<int>(across), static_cast<int>(along),
                               static_cast<int>(up));
  DM da;
  PetscCall(DMDACreate3d(PETSC_COMM_WORLD, DM_BOUNDARY_NONE, DM_BOUNDARY_NONE, DM_BOUNDARY_NONE,
                         DMDA_STENCIL_STAR, across, along, up + 1, PETSC_DECIDE, PETSC_DECIDE,
                         PETSC_DECIDE, 2, 1, nullptr, nullptr, nullptr, &da));
  PetscCall(DMSetMatType(da, MATBAIJ));
  PetscCall(DMSetFromOptions(da));
  PetscCall(DMSetUp(da));
  Patch patch(problem, da);
  Context context{da, &patch, nullptr};
  PetscCall(DMCreateLocalVector(da, &context.local));
  Vec u;
  PetscCall(DMCreateGlobalVector(da, &u));
  PetscScalar* start = nullptr;
  PetscCall(VecGetArray(u, &start));
  PetscInt at = 0;
  for (std::size_t cell = 0; cell < patch.solids_.size(); ++cell) {
    if (patch.owned(cell)) {
      const bool plate = patch.plate_m2_[cell] > 0.0;
      start[at] = plate ? problem.setup.start.temperature[0][0] : quarter_piece().start_k[0];
      start[at + 1] = plate ? 0.0 : problem.setup.figures.first_water[0];
      at += 2;
    }
  }
  PetscCall(VecRestoreArray(u, &start));
  Mat m;
  PetscCall(DMCreateMatrix(da, &m));
  TS ts;
  PetscCall(TSCreate(PETSC_COMM_WORLD, &ts));
  PetscCall(TSSetDM(ts, da));
  PetscCall(TSSetType(ts, TSBDF));
  PetscCall(TSSetIFunction(ts, nullptr, residual, &context));
  PetscCall(TSSetIJacobian(ts, m, m, matrix, &context));
  Vec allowed;
  PetscCall(VecDuplicate(u, &allowed));
  PetscCall(VecGetArray(allowed, &start));
  for (PetscInt i = 0; i < at; i += 2) {
    start[i] = tolerance;
    start[i + 1] = 0.01 * tolerance;
  }
  PetscCall(VecRestoreArray(allowed, &start));
  PetscCall(TSSetTolerances(ts, 0.0, allowed, 0.0, nullptr));
  PetscCall(TSSetTimeStep(ts, 1.0));
  PetscCall(TSSetMaxTime(ts, 60.0 * k_minutes));
  PetscCall(TSSetExactFinalTime(ts, TS_EXACTFINALTIME_MATCHSTEP));
  PetscCall(TSSetMaxSNESFailures(ts, -1));
  PetscCall(TSSetMaxStepRejections(ts, -1));
  PetscCall(TSSetFromOptions(ts));
  const std::clock_t processor = std::clock();
  const auto from = std::chrono::steady_clock::now();
  PetscCall(TSSolve(ts, u));
  const double seconds =
      std::chrono::duration<double>(std::chrono::steady_clock::now() - from).count();
  double worked = static_cast<double>(std::clock() - processor) / CLOCKS_PER_SEC;
  MPI_Allreduce(MPI_IN_PLACE, &worked, 1, MPI_DOUBLE, MPI_SUM, PETSC_COMM_WORLD);
  // Coldest cell and water left.
  const PetscScalar* end = nullptr;
  PetscCall(VecGetArrayRead(u, &end));
  double core = 1e9, water = 0.0;
  at = 0;
  for (std::size_t cell = 0; cell < patch.solids_.size(); ++cell) {
    if (patch.owned(cell)) {
      if (!(patch.plate_m2_[cell] > 0.0)) {
        core = std::min(core, end[at]);
        water += patch.solids_[cell] * end[at + 1];
      }
      at += 2;
    }
  }
  PetscCall(VecRestoreArrayRead(u, &end));
  MPI_Allreduce(MPI_IN_PLACE, &core, 1, MPI_DOUBLE, MPI_MIN, PETSC_COMM_WORLD);
  MPI_Allreduce(MPI_IN_PLACE, &water, 1, MPI_DOUBLE, MPI_SUM, PETSC_COMM_WORLD);
  PetscInt steps = 0, iterations = 0, rejected = 0;
  PetscCall(TSGetStepNumber(ts, &steps));
  PetscCall(TSGetKSPIterations(ts, &iterations));
  PetscCall(TSGetStepRejections(ts, &rejected));
  TSType type = nullptr;
  PetscCall(TSGetType(ts, &type));
  PetscMPIInt ranks = 1;
  MPI_Comm_size(PETSC_COMM_WORLD, &ranks);
  PetscCall(PetscPrintf(PETSC_COMM_WORLD, "petsc %s\t%d\t%d\t%g\t%d\t%d\t%.6f\t%.6f\t%.4f\t%.4f\n",
                        type, static_cast<int>(across * along * up), static_cast<int>(ranks),
                        static_cast<double>(tolerance), static_cast<int>(steps),
                        static_cast<int>(iterations), core - 273.15,
                        100.0 * (problem.water_kg - water) / problem.mass_kg, seconds, worked));
  PetscCall(VecDestroy(&u));
  PetscCall(VecDestroy(&allowed));
  PetscCall(VecDestroy(&context.local));
  PetscCall(MatDestroy(&m));
  PetscCall(TSDestroy(&ts));
  PetscCall(DMDestroy(&da));
  PetscCall(PetscFinalize());
  return 0;
}
