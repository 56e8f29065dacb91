// What height and dry air do, from physics.
#pragma once

namespace maslin::handon {

/// Where water boils, degrees Celsius; -400 m to 11 000 m of the standard atmosphere.
double boiling_celsius(double altitude_m);

/// How much larger the same gas is than at the other height, as a ratio of volumes: the dough
/// needs so much less of it to double. Isothermal: p1 V1 = p2 V2.
double gas_swells_by(double from_m, double to_m);

/// Air against sea level: convection carries heat with it, and water vapour leaves faster by the
/// inverse.
double air_density_ratio(double altitude_m);

/// Water in flour that has stood long in air of this humidity, % of its mass; 10 % to 90 %, 0 to
/// 45 degrees Celsius.
/// 1 - RH = exp(-K (t + C) (100 M)^N), M on dry mass, K 2.3008e-5, N 2.2857, C 55.815.
/// Source: modified Henderson equation for hard wheat, ASAE D245 (constants from memory).
double flour_water_pct(double humidity_pct, double room_celsius);

}  // namespace maslin::handon
