#include "properties/sucrose.h"

namespace maslin {

Lanes sucrose_saturation(const Lanes& celsius) {
  const Lanes& t = celsius;
  return 0.01 * (64.186 + t * (0.13330 + t * (5.813e-4 - t * 4.19e-7)));
}

Lanes sucrose_saturation_per_water(const Lanes& celsius) {
  const Lanes s = sucrose_saturation(celsius);
  return s / (1.0 - s);
}

Lanes sugar_solution_kg_m3(const Lanes& fraction, const Lanes& celsius) {
  const Lanes& w = fraction;
  const Lanes sugar_cm3_per_g = 0.6155 + w * (0.013 + w * 0.013);
  const Lanes at_20 = 1000.0 / ((1.0 - w) / 0.9982 + w * sugar_cm3_per_g);
  return at_20 - (0.25 + 0.35 * w) * (celsius - 20.0);
}

Lanes log_sucrose_solution_pa_s(const Lanes& fraction, const Lanes& celsius) {
  constexpr double k_ln10 = 2.302585092994045684;
  constexpr double k_ln1000 = 6.907755278982137052;
  const Lanes moles_sucrose = fraction * (1.0 / k_sucrose_g_per_mol);
  const Lanes x = moles_sucrose / (moles_sucrose + (1.0 - fraction) * (1.0 / k_water_g_per_mol));
  const Lanes warm = (30.0 - celsius) / (91.0 + celsius);
  const Lanes x_125 = x * sqrt(sqrt(max(x, 0.0)));
  return k_ln10 * (22.46 * x - 0.114 + warm * (1.1 + 43.1 * x_125)) - k_ln1000;
}

Lanes sucrose_solution_pa_s(const Lanes& fraction, const Lanes& celsius) {
  return exp(log_sucrose_solution_pa_s(fraction, celsius));
}

Lanes sucrose_equal_in_viscosity(const Lanes& sucrose, const Lanes& simple_sugars) {
  const Lanes crowding = clamp(sucrose + simple_sugars - 0.6, 0.0, 0.2);
  return sucrose + (0.89 + 0.315 * crowding) * simple_sugars;
}

}  // namespace maslin
