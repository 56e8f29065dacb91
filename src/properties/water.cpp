#include "properties/water.h"

namespace maslin {

Lanes saturation_pressure_pa(const Lanes& temperature_k) {
  constexpr double k_critical_k = 647.096;
  constexpr double k_critical_pa = 22.064e6;
  const Lanes t = clamp(temperature_k, 150.0, k_critical_k);
  const Lanes s = 1.0 - t / k_critical_k;
  const Lanes root = sqrt(s);
  const Lanes s3 = s * s * s;
  const Lanes s7_5 = s3 * s3 * s * root;
  const Lanes sum = s * -7.85951783 + s * root * 1.84408259 + s3 * -11.7866497 +
                    s3 * root * 22.6807411 + s3 * s * -15.9618719 + s7_5 * 1.80122502;
  return k_critical_pa * exp(sum * k_critical_k / t);
}

Lanes boiling_point_k(const Lanes& pressure_pa) {
  // ln p is nearly straight in 1/T: Newton there from the Clausius-Clapeyron guess.
  const Lanes wanted = log(pressure_pa);
  constexpr double k_slope_k = -4890.0;  // d ln p / d(1/T) near 373 K
  Lanes inverse = (wanted - 11.526088) / k_slope_k + 1.0 / 373.124;
  for (int i = 0; i < 6; ++i) {
    constexpr double k_step = 1e-7;
    const Lanes here = log(saturation_pressure_pa(1.0 / inverse));
    const Lanes there = log(saturation_pressure_pa(1.0 / (inverse + k_step)));
    inverse += (wanted - here) * k_step / (there - here);
  }
  return 1.0 / inverse;
}

Lanes pressure_at_altitude_pa(const Lanes& altitude_m) {
  const Lanes altitude = clamp(altitude_m, -500.0, 11000.0);
  return k_standard_pressure_pa * pow(1.0 - 2.25577e-5 * altitude, 5.25588);
}

Lanes latent_heat_j_per_kg(const Lanes& temperature_k) {
  const Lanes t = temperature_k - k_zero_celsius_k;
  return 1000.0 * (2500.9 - t * (2.3072 + 0.001352 * t));
}

Lanes vapour_diffusivity_m2_per_s(const Lanes& temperature_k, const Lanes& pressure_pa) {
  return 2.56e-5 * pow(temperature_k / 298.15, 1.81) * (k_standard_pressure_pa / pressure_pa);
}

}  // namespace maslin
