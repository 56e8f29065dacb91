#include "finish/cooling.h"

#include <limits>

#include "numerics/clones.h"
#include "numerics/roots.h"
#include "numerics/trigonometry.h"

namespace maslin {
namespace {

constexpr double k_pi = 3.14159265358979323846;

/// The n-th root (0 first) of the shape's equation for this Biot number, by Newton kept
/// between the ends of its branch.
Lanes mode_root(CoolingShape shape, std::size_t n, const Lanes& biot) {
  const double start = k_pi * static_cast<double>(n);
  const double end = start + (shape == CoolingShape::ball ? k_pi : 0.5 * k_pi);
  // Sign so that the function rises through the root on every branch.
  const double sign = (n % 2 == 0) ? 1.0 : -1.0;
  Lanes low = start;
  Lanes high = end;
  Lanes z = 0.5 * (start + end);
  for (int step = 0; step < 16; ++step) {
    const SineCosine at = sine_cosine(z);
    Lanes f;
    Lanes slope;
    if (shape == CoolingShape::ball) {
      f = -sign * (z * at.cosine + (biot - 1.0) * at.sine);
      slope = -sign * (biot * at.cosine - z * at.sine);
    } else {
      f = sign * (z * at.sine - biot * at.cosine);
      slope = sign * ((1.0 + biot) * at.sine + z * at.cosine);
    }
    const Mask under = f < 0.0;
    low = select(under, z, low);
    high = select(under, high, z);
    const Lanes next = z - f / select(abs(slope) > 1e-300, slope, 1e-300);
    // Ends count as inside: at the root itself the next step is the end just set.
    const Mask inside = (next >= low) & (next <= high);
    const Lanes moved = select(inside, next, 0.5 * (low + high));
    // Newton squares the error: the next one is at rounding.
    if (all(abs(moved - z) < 1e-9)) {
      return moved;
    }
    z = moved;
  }
  return z;
}

struct LogSeries {
  Lanes value;
  Lanes slope_per_s;
};

LogSeries log_series(const CoolingCurve& curve,
                     const std::array<Lanes, k_cooling_modes>& amplitudes, const Lanes& seconds) {
  Lanes total = 0.0;
  Lanes falling = 0.0;
  for (std::size_t n = 0; n < k_cooling_modes; ++n) {
    const Lanes term = amplitudes[n] * exp(-curve.rate_per_s[n] * seconds);
    total += term;
    falling -= curve.rate_per_s[n] * term;
  }
  const Lanes safe = max(total, 1e-12);
  return {log(safe), falling / safe};
}

}  // namespace

MASLIN_ALL_WIDTHS
CoolingCurve cooling_curve(const CoolingBody& body) {
  const Lanes biot = body.film_w_m2_k * body.half_thickness_m / body.w_m_k;
  const Lanes diffusivity = body.w_m_k / (body.kg_m3 * body.j_kg_k);
  const Lanes per_s = diffusivity / (body.half_thickness_m * body.half_thickness_m);
  CoolingCurve curve;
  for (std::size_t n = 0; n < k_cooling_modes; ++n) {
    const Lanes z = mode_root(body.shape, n, biot);
    const SineCosine at = sine_cosine(z);
    curve.rate_per_s[n] = z * z * per_s;
    if (body.shape == CoolingShape::ball) {
      const Lanes hollow = at.sine - z * at.cosine;
      const Lanes c = 2.0 * hollow / (z - at.sine * at.cosine);
      curve.centre[n] = c;
      curve.surface[n] = c * at.sine / z;
      curve.mean[n] = 3.0 * c * hollow / (z * z * z);
    } else {
      const Lanes c = 2.0 * at.sine / (z + at.sine * at.cosine);
      curve.centre[n] = c;
      curve.surface[n] = c * at.cosine;
      curve.mean[n] = c * at.sine / z;
    }
  }
  return curve;
}

MASLIN_ALL_WIDTHS
Lanes series_at(const CoolingCurve& curve, const std::array<Lanes, k_cooling_modes>& amplitudes,
                const Lanes& seconds) {
  Lanes total = 0.0;
  for (std::size_t n = 0; n < k_cooling_modes; ++n) {
    total += amplitudes[n] * exp(-curve.rate_per_s[n] * seconds);
  }
  return total;
}

Lanes minutes_until(const CoolingCurve& curve, const std::array<Lanes, k_cooling_modes>& amplitudes,
                    const Lanes& share) {
  const Lanes wanted = log(clamp(share, 1e-9, 1.0));
  // Surface and mean are log-convex in time: Newton from the first term's answer, which
  // lies to the left, climbs without overshooting. The centre starts flat, but its first
  // term alone is right there within a percent.
  Lanes seconds = max((log(max(amplitudes[0], 1e-12)) - wanted) / curve.rate_per_s[0], 0.0);
  for (int step = 0; step < 8; ++step) {
    const LogSeries at = log_series(curve, amplitudes, seconds);
    const Lanes next = max(seconds - (at.value - wanted) / min(at.slope_per_s, -1e-12), 0.0);
    const Mask still = abs(next - seconds) < 1e-4 * (1.0 + seconds);
    seconds = next;
    if (all(still)) {
      break;
    }
  }
  const Lanes never = std::numeric_limits<double>::infinity();
  return select(share >= 1.0, 0.0, select(share <= 0.0, never, seconds / 60.0));
}

Lanes ball_radius_m(const Lanes& grams, const Lanes& kg_m3) {
  return pow(max(3.0 * 1e-3 * grams / (4.0 * k_pi * kg_m3), 1e-12), 1.0 / 3.0);
}

Lanes freezing_hours(const CoolingBody& body, const Lanes& water_fraction,
                     const Lanes& start_celsius, const Lanes& freezing_celsius,
                     const Lanes& freezer_celsius) {
  constexpr double k_fusion_j_kg = 333.6e3;
  // From memory: two thirds of a bread's water is ice at freezer temperature.
  constexpr double k_ice_share = 0.67;
  const CoolingCurve curve = cooling_curve(body);
  const Lanes share = (freezing_celsius - freezer_celsius) / (start_celsius - freezer_celsius);
  const Lanes cooling_h = minutes_until(curve, curve.centre, share) / 60.0;
  const Lanes d = 2.0 * body.half_thickness_m;
  const Lanes latent = body.kg_m3 * water_fraction * (k_ice_share * k_fusion_j_kg);
  const Lanes plank_s = latent / max(freezing_celsius - freezer_celsius, 0.5) *
                        (d / (6.0 * body.film_w_m2_k) + d * d / (24.0 * body.w_m_k));
  return cooling_h + plank_s / 3600.0;
}

Lanes thawing_hours(const CoolingBody& body, const Lanes& water_fraction,
                    const Lanes& frozen_celsius, const Lanes& freezing_celsius,
                    const Lanes& room_celsius) {
  constexpr double k_fusion_j_kg = 333.6e3;
  constexpr double k_ice_spares_j_kg_k = 2100.0;  // water 4.2, ice 2.1 kJ/kgK: from memory
  // What the crumb outside the ice has taken up by the end, as a share of c (room - freezing):
  // settled here, against heat in a ball by finite volumes (docs/models/keeping.md).
  constexpr double k_warmed_share = 0.25;
  const Lanes ice = water_fraction * (1.0 - freezing_celsius / frozen_celsius);
  const Lanes span = freezing_celsius - frozen_celsius;
  const Lanes warming_j_kg = (body.j_kg_k - k_ice_spares_j_kg_k * ice) * span;
  const Lanes melting_j_kg = ice * k_fusion_j_kg;
  // Ice melts all the way up: integral of T d(ice) over the span.
  const Lanes melting_at = water_fraction * k_fusion_j_kg * freezing_celsius *
                           log(max(frozen_celsius / freezing_celsius, 1.0));
  const Lanes heat_j_kg = melting_j_kg + warming_j_kg;
  const Lanes mean_celsius =
      (melting_at + warming_j_kg * 0.5 * (freezing_celsius + frozen_celsius)) / max(heat_j_kg, 1.0);
  const Lanes above = room_celsius - freezing_celsius;
  const Lanes radius = body.half_thickness_m;
  const Lanes seconds = body.kg_m3 * (heat_j_kg + k_warmed_share * body.j_kg_k * max(above, 0.0)) /
                        max(room_celsius - mean_celsius, 0.5) *
                        (radius / (3.0 * body.film_w_m2_k) + radius * radius / (6.0 * body.w_m_k));
  const Lanes never = std::numeric_limits<double>::infinity();
  return select(above > 0.0, seconds / 3600.0, never);
}

}  // namespace maslin
