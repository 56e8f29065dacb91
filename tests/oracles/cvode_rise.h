// One prove of one draw by SUNDIALS CVODE at tight tolerance.
#pragma once

#include <cstddef>
#include <vector>

#include "rise/prove_start.h"

namespace maslin {

struct CvodeRise {
  std::vector<double> volume_ratio;  // at 0, sample_s, ...
  double mean_temperature_k = 0.0;
  double co2_made_mol = 0.0;  // per 100 g flour
  long steps = 0;
};

/// Lane `lane` of a prove that began so, in air of one temperature, for `samples`
/// samples.
CvodeRise cvode_rise(const rise_model::ProveStart& start, std::size_t lane, double ambient_k,
                     double sample_s, std::size_t samples, double relative_tolerance,
                     const RiseConstants& constants);

}  // namespace maslin
