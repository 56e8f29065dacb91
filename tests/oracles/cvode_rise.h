// One prove of one draw by SUNDIALS CVODE at tight tolerance.
#pragma once

#include <cstddef>
#include <functional>
#include <vector>

#include "rise/prove_start.h"

namespace maslin {

struct CvodeRise {
  std::vector<double> volume_ratio;  // at 0, sample_s, ...
  double mean_temperature_k = 0.0;
  double co2_made_mol = 0.0;  // per 100 g flour
  long steps = 0;
};

/// K of the air at a time, s since the prove began.
using Air = std::function<double(double)>;

/// Lane `lane` of a prove that began so, in that air, for `samples` samples.
CvodeRise cvode_rise(const rise_model::ProveStart& start, std::size_t lane, const Air& air,
                     double sample_s, std::size_t samples, double relative_tolerance,
                     const RiseConstants& constants);
/// In air of one temperature.
inline CvodeRise cvode_rise(const rise_model::ProveStart& start, std::size_t lane, double ambient_k,
                            double sample_s, std::size_t samples, double relative_tolerance,
                            const RiseConstants& constants) {
  return cvode_rise(
      start, lane, [ambient_k](double) { return ambient_k; }, sample_s, samples, relative_tolerance,
      constants);
}

}  // namespace maslin
