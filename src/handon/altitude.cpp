#include "handon/altitude.h"

#include <algorithm>

#include "numerics/real.h"
#include "properties/water.h"

namespace maslin::handon {

double boiling_celsius(double altitude_m) {
  return boiling_point_k(pressure_at_altitude_pa(altitude_m))[0] - k_zero_celsius_k;
}

double gas_swells_by(double from_m, double to_m) {
  return pressure_at_altitude_pa(from_m)[0] / pressure_at_altitude_pa(to_m)[0];
}

double air_density_ratio(double altitude_m) {
  return pressure_at_altitude_pa(altitude_m)[0] / k_standard_pressure_pa;
}

double flour_water_pct(double humidity_pct, double room_celsius) {
  constexpr double k_k = 2.3008e-5;
  constexpr double k_n = 2.2857;
  constexpr double k_c = 55.815;
  const double humidity = std::clamp(humidity_pct, 10.0, 90.0) / 100.0;
  const double celsius = std::clamp(room_celsius, 0.0, 45.0);
  const double to_power = -log_same(1.0 - humidity) / (k_k * (celsius + k_c));
  const double dry_pct = exp_same(log_same(to_power) / k_n);
  return 100.0 * dry_pct / (100.0 + dry_pct);
}

}  // namespace maslin::handon
