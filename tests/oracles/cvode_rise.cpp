#include "cvode_rise.h"

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

namespace maslin {
namespace {

using namespace rise_model;

constexpr std::size_t k_size = k_species + k_dough_shells;

struct Problem {
  Setting<double> setting;
  Air air;
  RiseConstants constants;
};

Medium<double> lane_of(const Medium<Lanes>& m, std::size_t i) {
  Medium<double> out{};
  out.solvent_kg = m.solvent_kg[i];
  out.inert_osmol = m.inert_osmol[i];
  out.salt_stress_osmol = m.salt_stress_osmol[i];
  out.steady_factor = m.steady_factor[i];
  out.tolerant_share = m.tolerant_share[i];
  out.tolerance = m.tolerance[i];
  out.wake_h = m.wake_h[i];
  out.inversion = m.inversion[i];
  out.yeast_start = m.yeast_start[i];
  out.ethanol_start = m.ethanol_start[i];
  out.ph_start = m.ph_start[i];
  out.buffer_mmol = m.buffer_mmol[i];
  out.salt_g = m.salt_g[i];
  out.air_mol = m.air_mol[i];
  out.carbon_dioxide_start = m.carbon_dioxide_start[i];
  out.dense_ml = m.dense_ml[i];
  out.critical_volume_ml = m.critical_volume_ml[i];
  out.pressure_pa = m.pressure_pa;
  out.sour = m.sour;
  return out;
}

Setting<double> lane_of(const Setting<Lanes>& s, std::size_t i) {
  Setting<double> out{};
  out.medium = lane_of(s.medium, i);
  for (std::size_t k = 0; k < k_dough_shells; ++k) {
    out.shells.conduct[k] = s.shells.conduct[k][i];
  }
  out.shells.skin_m2 = s.shells.skin_m2[i];
  out.shells.capacity_j_per_k = s.shells.capacity_j_per_k[i];
  out.heat_transfer_w_per_m2k = s.heat_transfer_w_per_m2k[i];
  out.pieces_per_100g_flour = s.pieces_per_100g_flour[i];
  return out;
}

void unpack(const double* y, Chemistry<double>& chemistry,
            std::array<double, k_dough_shells>& temperature_k) {
  for (std::size_t i = 0; i < k_species; ++i) {
    chemistry[i] = y[i];
  }
  for (std::size_t i = 0; i < k_dough_shells; ++i) {
    temperature_k[i] = y[k_species + i];
  }
}

double volume_of(const Problem& p, const Chemistry<double>& chemistry, const Warmth<double>& w) {
  const Medium<double>& m = p.setting.medium;
  return m.dense_ml + bubbles_of(carbon_dioxide_of(chemistry, m, p.constants), m, w).volume_ml;
}

/// dy/dt per second, everything at one moment: no splitting, no lag.
int right_hand_side(realtype seconds, N_Vector y, N_Vector dy, void* data) {
  const Problem& p = *static_cast<const Problem*>(data);
  Chemistry<double> chemistry;
  std::array<double, k_dough_shells> temperature_k;
  unpack(N_VGetArrayPointer(y), chemistry, temperature_k);
  const Medium<double>& m = p.setting.medium;
  const Warmth<double> w = warmth_of(temperature_k, m.sour, m.pressure_pa, p.constants);
  const Rates<double> rates = rates_of(chemistry, m, w, p.constants);
  const double fermented_g_per_h = rates.change[k_spent_hexose] + rates.change[k_spent_maltose];
  const double heat_w = fermented_g_per_h * mol_per_g_hexose<double>(p.constants) *
                        p.constants.heat_j_per_mol_co2 / 3600.0 / p.setting.pieces_per_100g_flour;
  const auto g = conductances(p.setting.shells, volume_of(p, chemistry, w) / m.dense_ml,
                              p.setting.heat_transfer_w_per_m2k);
  const auto warm =
      warming(temperature_k, g, p.air(seconds), heat_w, p.setting.shells.capacity_j_per_k);
  double* out = N_VGetArrayPointer(dy);
  for (std::size_t i = 0; i < k_species; ++i) {
    out[i] = rates.change[i] / 3600.0;
  }
  for (std::size_t i = 0; i < k_dough_shells; ++i) {
    out[k_species + i] = warm[i];
  }
  return 0;
}

}  // namespace

CvodeRise cvode_rise(const ProveStart& start, std::size_t lane, const Air& air, double sample_s,
                     std::size_t samples, double relative_tolerance,
                     const RiseConstants& constants) {
  Problem problem{lane_of(start.setting, lane), air, constants};
  SUNContext context = nullptr;
  SUNContext_Create(nullptr, &context);
  N_Vector y = N_VNew_Serial(static_cast<sunindextype>(k_size), context);
  double* values = N_VGetArrayPointer(y);
  for (std::size_t i = 0; i < k_species; ++i) {
    values[i] = start.moment.chemistry[i][lane];
  }
  for (std::size_t i = 0; i < k_dough_shells; ++i) {
    values[k_species + i] = start.moment.temperature_k[i][lane];
  }
  void* solver = CVodeCreate(CV_BDF, context);
  CVodeInit(solver, right_hand_side, 0.0, y);
  CVodeSStolerances(solver, relative_tolerance, 1e-3 * relative_tolerance);
  SUNMatrix matrix =
      SUNDenseMatrix(static_cast<sunindextype>(k_size), static_cast<sunindextype>(k_size), context);
  SUNLinearSolver linear = SUNLinSol_Dense(y, matrix, context);
  CVodeSetLinearSolver(solver, linear, matrix);
  CVodeSetUserData(solver, &problem);
  CVodeSetMaxNumSteps(solver, 200000);

  CvodeRise out;
  double first = 0.0;
  for (std::size_t k = 0; k <= samples; ++k) {
    realtype reached = 0.0;
    if (k > 0) {
      CVode(solver, static_cast<double>(k) * sample_s, y, &reached, CV_NORMAL);
    }
    Chemistry<double> chemistry;
    std::array<double, k_dough_shells> temperature_k;
    unpack(N_VGetArrayPointer(y), chemistry, temperature_k);
    const Medium<double>& m = problem.setting.medium;
    const Warmth<double> w = warmth_of(temperature_k, m.sour, m.pressure_pa, constants);
    const double volume = volume_of(problem, chemistry, w);
    first = k == 0 ? volume : first;
    out.volume_ratio.push_back(volume / first);
    out.mean_temperature_k = mean_of(temperature_k);
    out.co2_made_mol = (chemistry[k_spent_hexose] + chemistry[k_spent_maltose]) *
                       mol_per_g_hexose<double>(constants);
  }
  CVodeGetNumSteps(solver, &out.steps);
  SUNLinSolFree(linear);
  SUNMatDestroy(matrix);
  CVodeFree(&solver);
  N_VDestroy(y);
  SUNContext_Free(&context);
  return out;
}

}  // namespace maslin
