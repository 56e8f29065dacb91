// Law: the closed form for thawing stays near the equation of heat that it stands for.
#include <doctest/doctest.h>

#include <array>
#include <cmath>

#include "finish/cooling.h"

using namespace maslin;

namespace {

constexpr double k_fusion_j_kg = 333.6e3;
constexpr double k_frozen = -18.0;
constexpr double k_last_ice = -6.0;
constexpr double k_water = 0.38;

struct Ball {
  double radius_m, w_m_k, kg_m3, j_kg_k, film_w_m2_k;
};

/// J/kg over thawed crumb at the last ice; of the water, 1 - Tf/T is ice at T.
double enthalpy(const Ball& ball, double celsius) {
  const double above = celsius - k_last_ice;
  if (above >= 0.0) {
    return ball.j_kg_k * above;
  }
  const double ice = k_water * (1.0 - k_last_ice / celsius);
  const double spared = 2100.0 * k_water * (above - k_last_ice * std::log(celsius / k_last_ice));
  return -ice * k_fusion_j_kg + ball.j_kg_k * above - spared;
}

double celsius_of(const Ball& ball, double j_kg, double guess) {
  if (j_kg >= 0.0) {
    return k_last_ice + j_kg / ball.j_kg_k;
  }
  double celsius = std::fmin(guess, k_last_ice - 1e-6);
  for (int step = 0; step < 4; ++step) {  // Newton; the last instant's is next to it
    const double slope = (enthalpy(ball, celsius) - enthalpy(ball, celsius - 1e-3)) / 1e-3;
    celsius = std::fmin(celsius - (enthalpy(ball, celsius) - j_kg) / slope, k_last_ice - 1e-9);
  }
  return celsius;
}

/// Hours until the innermost of forty shells holds no ice: finite volumes, explicit in time.
double hours_by_shells(const Ball& ball, double air_celsius) {
  constexpr int k_shells = 40;
  const double step_m = ball.radius_m / k_shells;
  std::array<double, k_shells> celsius;
  std::array<double, k_shells> j_kg;
  celsius.fill(k_frozen);
  j_kg.fill(enthalpy(ball, k_frozen));
  const double step_s = 0.2 * step_m * step_m * ball.kg_m3 * 1500.0 / ball.w_m_k;
  double seconds = 0.0;
  while (j_kg[0] < 0.0 && seconds < 1e6) {
    std::array<double, k_shells + 1> watts{};
    for (int i = 1; i < k_shells; ++i) {
      const double at = i * step_m;
      watts[i] = at * at * ball.w_m_k * (celsius[i] - celsius[i - 1]) / step_m;
    }
    watts[k_shells] = ball.radius_m * ball.radius_m * (air_celsius - celsius[k_shells - 1]) /
                      (1.0 / ball.film_w_m2_k + 0.5 * step_m / ball.w_m_k);
    for (int i = 0; i < k_shells; ++i) {
      const double volume = (std::pow(i + 1, 3) - std::pow(i, 3)) * std::pow(step_m, 3) / 3.0;
      j_kg[i] += step_s * (watts[i + 1] - watts[i]) / (volume * ball.kg_m3);
      celsius[i] = celsius_of(ball, j_kg[i], celsius[i]);
    }
    seconds += step_s;
  }
  return seconds / 3600.0;
}

}  // namespace

TEST_CASE("thawing is within 8 % of the equation of heat in a ball") {
  // Buns of 40 g to loaves of 500, a cold larder to a warm room, a bag's air to a draught.
  for (const double radius_m : {0.033, 0.0414, 0.076}) {
    for (const double film : {6.0, 9.0, 12.0}) {
      for (const double air : {5.0, 14.0, 21.0, 28.0}) {
        const Ball ball{radius_m, 0.24, 270.0, 2750.0, film};
        if (film * radius_m / ball.w_m_k > 3.0) {
          continue;
        }
        const CoolingBody body{CoolingShape::ball, radius_m,    ball.w_m_k,
                               ball.kg_m3,         ball.j_kg_k, film};
        const double closed = thawing_hours(body, k_water, k_frozen, k_last_ice, air)[0];
        const double shells = hours_by_shells(ball, air);
        CHECK_MESSAGE(std::fabs(closed / shells - 1.0) < 0.08, "radius ", radius_m, " film ", film,
                      " air ", air, ": ", closed, " against ", shells);
      }
    }
  }
}
