// Cooling of a baked piece: when it may be glazed, wrapped, cut; how long it takes to
// freeze and to thaw.
//
// A lone bun cools as a ball, buns that touch and loaves in rows as a slab; both by the
// exact series for a body that starts at one temperature and loses heat to still air.
#pragma once

#include <array>
#include <cstddef>

#include "numerics/lanes.h"

namespace maslin {

enum class CoolingShape { ball, slab };

inline constexpr std::size_t k_cooling_modes = 6;

struct CoolingBody {
  CoolingShape shape = CoolingShape::ball;
  Lanes half_thickness_m;  // radius of the ball, half thickness of the slab
  Lanes w_m_k;             // conductivity
  Lanes kg_m3;
  Lanes j_kg_k;
  Lanes film_w_m2_k;  // heat lost to the room per K
};

/// theta(t) = sum of amplitude exp(-rate t) with theta = (T - room)/(start - room).
struct CoolingCurve {
  std::array<Lanes, k_cooling_modes> rate_per_s;
  std::array<Lanes, k_cooling_modes> surface;
  std::array<Lanes, k_cooling_modes> mean;
  std::array<Lanes, k_cooling_modes> centre;
};

/// The series: ball 1 - z cot z = Bi, slab z tan z = Bi, Bi = film half_thickness / w_m_k.
/// Six terms: exact to 0.1 % from a Fourier number of 0.01 at the surface and in the mean,
/// of 0.02 at the centre (a minute and two minutes for a bun). Source: Carslaw and Jaeger,
/// Conduction of Heat in Solids (from memory).
CoolingCurve cooling_curve(const CoolingBody& body);

/// Value of a series after so many seconds.
Lanes series_at(const CoolingCurve& curve, const std::array<Lanes, k_cooling_modes>& amplitudes,
                const Lanes& seconds);

/// Minutes until a series falls to `share` of its start; 0 when share >= 1, infinite when
/// share <= 0 (the room is no cooler than what is asked).
Lanes minutes_until(const CoolingCurve& curve, const std::array<Lanes, k_cooling_modes>& amplitudes,
                    const Lanes& share);

/// Radius of a ball of that mass, m.
Lanes ball_radius_m(const Lanes& grams, const Lanes& kg_m3);

/// Hours in a freezer until the centre is frozen: cooling to the freezing point, then
/// Plank's equation for a ball, D/6h + D^2/24k. Source: from memory.
Lanes freezing_hours(const CoolingBody& body, const Lanes& water_fraction,
                     const Lanes& start_celsius, const Lanes& freezing_celsius,
                     const Lanes& freezer_celsius);

/// Hours in air of `room_celsius` until a ball frozen through at `frozen_celsius` has no ice
/// left, `freezing_celsius` being where its last ice melts, below 0 C:
///   t = rho (H + 0.25 c (room - freezing)) / (room - mean) (R/3h + R^2/6k),
/// Plank's ball with H, J/kg, the whole enthalpy from frozen to thawed (ice w (1 - Tf/T) of it,
/// melting all the way) and `mean` the temperature at which that heat is taken up. Infinite
/// in air that is no warmer than `freezing_celsius`. Within 8 % of the equations of heat for
/// R/k h of 0.5 to 3 and air of 5 to 28 C.
Lanes thawing_hours(const CoolingBody& body, const Lanes& water_fraction,
                    const Lanes& frozen_celsius, const Lanes& freezing_celsius,
                    const Lanes& room_celsius);

}  // namespace maslin
