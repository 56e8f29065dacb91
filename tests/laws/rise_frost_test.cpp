// Law: five shells over their heat content freeze and thaw a piece as the equation of heat does.
#include <doctest/doctest.h>

#include <cmath>
#include <vector>

#include "../published/rise_kit.h"
#include "rise/prove_start.h"

using namespace maslin;
using namespace rise_kit;

namespace {

constexpr double k_zero = 273.15;

RiseDough roll_dough() {
  return rise_dough(portions_of(
      k_shelf, formula({{"flour_g", 500}, {"water_g", 300}, {"salt_g", 9}, {"yeast_g", 5}},
                       "instant", 24.0)));
}

Prove standing(double celsius, double minutes, double piece_g) {
  Prove p;
  p.target = ProveTarget::minutes;
  p.value = minutes;
  p.piece_g = piece_g;
  p.ambient = {{0.0, celsius + k_zero}};
  p.heat_transfer_w_per_m2k = 9.0;
  return p;
}

/// Minutes until the innermost of sixty shells of one piece has no ice left, or, in air that
/// freezes, until it has some: finite volumes, explicit in time, over the heat content of the
/// model. What differs is the number of shells and the way through time.
double minutes_by_shells(const RiseDough& dough, const RiseState& from, const Prove& prove) {
  const auto start = rise_model::begin_prove(dough, from, prove, {}, {}, {});
  const double air = prove.ambient[0].temperature_k[0] - k_zero;
  const bool freezes = air < 0.0;
  constexpr int k_shells = 60;
  const double times = static_cast<double>(k_shells) / k_dough_shells;
  const auto& ice = *start.setting.ice;
  const rise_model::Ice<double> each{ice.freezing_celsius[0], ice.latent_j[0] / times,
                                     ice.frozen_j_per_k[0] / times};
  const double capacity = start.setting.shells.capacity_j_per_k[0] / times;
  // Conductances of shells of equal mass in a ball of the same radius.
  const double piece = prove.piece_g[0] / dough.mass_g[0];
  const double volume = dough.dense_ml[0] * piece * 1e-6;
  const double swelling = start.moment.volume_ml[0] / start.setting.medium.dense_ml[0];
  const double radius = std::cbrt(3.0 * volume * swelling / (4.0 * M_PI));
  const double w_m_k = 0.45 * (1.0 - 0.85 * (1.0 - 1.0 / swelling));
  const auto middle = [&](int i) { return radius * std::cbrt((i + 0.5) / k_shells); };
  std::vector<double> celsius(k_shells, from.temperature_k[0][0] - k_zero);
  std::vector<double> heat(k_shells);
  for (int i = 0; i < k_shells; ++i) {
    heat[i] = rise_model::heat_of(celsius[i], each, capacity);
  }
  const double step_s = 0.05;
  double seconds = 0.0;
  const auto over = [&] {
    return freezes ? celsius[0] < each.freezing_celsius : celsius[0] >= each.freezing_celsius;
  };
  while (!over() && seconds < 2e5) {
    std::vector<double> watts(k_shells + 1, 0.0);
    for (int i = 0; i < k_shells; ++i) {
      const double here = 1.0 + rise_model::ice_share(celsius[i], each);
      double k = w_m_k * here;
      if (i + 1 < k_shells) {
        const double there = 1.0 + rise_model::ice_share(celsius[i + 1], each);
        k = w_m_k * 2.0 * here * there / (here + there);
        const double g = 4.0 * M_PI * k / (1.0 / middle(i) - 1.0 / middle(i + 1));
        watts[i + 1] = g * (celsius[i] - celsius[i + 1]);
      } else {
        const double within = 4.0 * M_PI * k / (1.0 / middle(i) - 1.0 / radius);
        const double skin = 9.0 * 4.0 * M_PI * radius * radius;
        watts[i + 1] = (celsius[i] - air) * within * skin / (within + skin);
      }
    }
    for (int i = 0; i < k_shells; ++i) {
      heat[i] += step_s * (watts[i] - watts[i + 1]);
      celsius[i] = rise_model::celsius_of(heat[i], each, capacity);
    }
    seconds += step_s;
  }
  return seconds / 60.0;
}

RiseState frozen(const RiseDough& dough) {
  return start_of_rise(dough, -18.0 + k_zero);
}

}  // namespace

TEST_CASE("a piece thaws as fast as sixty shells do") {
  const RiseDough dough = roll_dough();
  for (const double piece_g : {60.0, 250.0, 800.0}) {
    for (const double air : {5.0, 21.0, 30.0}) {
      Prove thaw = standing(air, 0.0, piece_g);
      thaw.target = ProveTarget::thawed;
      const std::vector<Prove> proves = {thaw};
      const RiseRun run = run_proves(dough, frozen(dough), proves);
      const double fine = minutes_by_shells(dough, frozen(dough), thaw);
      INFO(piece_g, " g in ", air, " C: ", run.proves[0].minutes_to_target[0], " against ", fine);
      CHECK(run.proves[0].status == RiseStatus::reached);
      CHECK(std::fabs(run.proves[0].minutes_to_target[0] / fine - 1.0) < 0.06);
      CHECK((*run.proves[0].thawed_minutes)[0] ==
            doctest::Approx(run.proves[0].minutes_to_target[0]));
    }
  }
}

TEST_CASE("frozen and thawed again, a piece has taken up the heat it gave off") {
  const RiseDough dough = roll_dough();
  const std::vector<Prove> proves = {standing(-18.0, 2000.0, 70.0), standing(20.0, 2000.0, 70.0)};
  RiseSettings settings;
  settings.limit_minutes = 4000.0;
  const RiseRun run = run_proves(dough, start_of_rise(dough, 20.0 + k_zero), proves, {}, settings);
  for (std::size_t i = 0; i < k_dough_shells; ++i) {
    CHECK(run.proves[0].end.temperature_k[i][0] == doctest::Approx(255.15).epsilon(1e-5));
    CHECK(run.end.temperature_k[i][0] == doctest::Approx(293.15).epsilon(1e-4));
  }
}

TEST_CASE("heat content and temperature are each the other's inverse") {
  const rise_model::Ice<double> ice{-4.4, 5600.0, 30.0};
  for (double celsius = -40.0; celsius < 30.0; celsius += 0.7) {
    const double heat = rise_model::heat_of(celsius, ice, 45.0);
    CHECK(rise_model::celsius_of(heat, ice, 45.0) == doctest::Approx(celsius).epsilon(1e-9));
    const double slope = (rise_model::heat_of(celsius + 1e-6, ice, 45.0) -
                          rise_model::heat_of(celsius - 1e-6, ice, 45.0)) /
                         2e-6;
    if (std::fabs(celsius - ice.freezing_celsius) > 1e-3) {
      CHECK(rise_model::apparent_capacity(celsius, ice, 45.0) ==
            doctest::Approx(slope).epsilon(1e-4));
    }
  }
}

TEST_CASE("after the freezer a dough rises slower, the more so the longer it lay there") {
  const RiseDough dough = roll_dough();
  const RiseState fresh = start_of_rise(dough, 24.0 + k_zero);
  double before = 0.0;
  for (const double days : {0.0, 0.5, 14.0, 60.0}) {
    Prove freezer = standing(-18.0, days * 1440.0, 70.0);
    freezer.freezes = true;
    Prove thaw = standing(21.0, 0.0, 70.0);
    thaw.target = ProveTarget::thawed;
    Prove rise = standing(24.0, 0.0, 70.0);
    rise.target = ProveTarget::volume_ratio;
    rise.value = 1.8;
    std::vector<Prove> proves = {rise};
    if (days > 0.0) {
      proves = {freezer, thaw, rise};
    }
    const RiseRun run = run_proves(dough, fresh, proves);
    const double minutes = run.proves.back().minutes_to_target[0];
    CAPTURE(days);
    CHECK(minutes > 1.02 * before);
    CHECK(run.balance.sugar[0] < 1e-6);
    before = minutes;
    if (days == 14.0) {
      const double thawing = run.proves[1].minutes_to_target[0];
      CHECK(run.end.minutes[0] == doctest::Approx(14.0 * 1440.0 + thawing + minutes).epsilon(1e-9));
    }
  }
}
