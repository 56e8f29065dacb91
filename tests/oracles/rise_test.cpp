// Our fixed-step scheme against SUNDIALS CVODE (variable order and step, everything
// coupled) on 500 random doughs, rooms and pieces.
#include <doctest/doctest.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <string>
#include <vector>

#include "../published/rise_kit.h"
#include "cvode_rise.h"
#include "numerics/draws.h"

using namespace maslin;
using namespace rise_kit;

namespace {

struct RandomRise {
  RiseDough dough;
  RiseState start;
  Prove prove;
  double ambient_k = 0.0;
};

RandomRise random_rise(const Shelf& shelf, std::uint32_t index) {
  const auto between = [&](const char* name, double low, double high) {
    return low + (high - low) * draw(name_key(name), 7, index);
  };
  Row row;
  row.grams["flour_g"] = 100.0;
  row.grams["whole_g"] =
      between("whole", 0.0, 1.0) < 0.3 ? between("whole share", 10.0, 100.0) : 0.0;
  row.grams["water_g"] = between("water", 45.0, 90.0);
  row.grams["sugar_g"] = between("sweet", 0.0, 1.0) < 0.6 ? between("sugar", 0.0, 35.0) : 0.0;
  row.grams["salt_g"] = between("salt", 0.0, 3.0);
  row.grams["egg_g"] = between("egg", 0.0, 25.0);
  row.grams["butter_g"] = between("butter", 0.0, 30.0);
  row.grams["yeast_g"] = std::exp(between("yeast", std::log(0.05), std::log(6.0)));
  row.yeast = between("kind", 0.0, 1.0) < 0.25 ? "osmotolerant" : "instant";
  RandomRise out;
  out.dough = rise_dough(portions_of(shelf, row));
  if (between("sour", 0.0, 1.0) < 0.25) {
    out.dough.wild_yeast_g = between("wild", 0.02, 0.4);
    out.dough.ripe_flour_g = between("ripe", 5.0, 40.0);
  }
  const double start_c = between("start", 4.0, 36.0);
  out.ambient_k = between("ambient", 3.0, 40.0) + 273.15;
  out.start = start_of_rise(out.dough, start_c + 273.15);
  out.prove.target = ProveTarget::minutes;
  out.prove.value = 300.0;
  out.prove.ambient = {{0.0, out.ambient_k}};
  out.prove.piece_g = std::exp(between("piece", std::log(30.0), std::log(260.0)));
  return out;
}

}  // namespace

TEST_CASE("the scheme agrees with CVODE within 0.2 per cent of the volume") {
  const Shelf shelf;
  const RiseConstants constants;
  RiseSettings settings;
  double worst = 0.0;
  double worst_k = 0.0;
  double ours_s = 0.0;
  double cvode_s = 0.0;
  double loose_s = 0.0;
  for (std::uint32_t i = 0; i < 500; ++i) {
    const RandomRise r = random_rise(shelf, i);
    const auto t0 = std::chrono::steady_clock::now();
    const std::vector<Prove> proves = {r.prove};
    const RiseRun run = run_proves(r.dough, r.start, proves, {}, settings, constants);
    const auto t1 = std::chrono::steady_clock::now();
    const auto begin = rise_model::begin_prove(r.dough, r.start, r.prove, {}, settings, constants);
    const CvodeRise reference =
        cvode_rise(begin, 0, r.ambient_k, settings.sample_s, 60, 1e-9, constants);
    const auto t2 = std::chrono::steady_clock::now();
    cvode_rise(begin, 0, r.ambient_k, settings.sample_s, 60, 1e-5, constants);
    const auto t3 = std::chrono::steady_clock::now();
    ours_s += std::chrono::duration<double>(t1 - t0).count();
    cvode_s += std::chrono::duration<double>(t2 - t1).count();
    loose_s += std::chrono::duration<double>(t3 - t2).count();
    double apart = 0.0;
    const std::vector<Lanes>& trace = run.proves[0].volume_ratio;
    REQUIRE(trace.size() == reference.volume_ratio.size());
    for (std::size_t k = 0; k < trace.size(); ++k) {
      apart = std::max(apart, std::fabs(trace[k][0] / reference.volume_ratio[k] - 1.0));
    }
    worst = std::max(worst, apart);
    worst_k = std::max(worst_k,
                       std::fabs(run.end.mean_temperature_k()[0] - reference.mean_temperature_k));
    CHECK_MESSAGE(apart < 0.002, "dough ", i);
    CHECK(run.balance.sugar[0] < 1e-6);
    CHECK(run.balance.carbon_dioxide[0] < 1e-6);
    CHECK(run.balance.ethanol[0] < 1e-6);
  }
  MESSAGE("worst volume error " << worst << ", worst temperature error " << worst_k << " K");
  MESSAGE("per draw: ours " << ours_s / 500.0 / 8.0 * 1e6 << " us, CVODE at 1e-9 "
                            << cvode_s / 500.0 * 1e6 << " us, at 1e-5 " << loose_s / 500.0 * 1e6
                            << " us");
  CHECK(worst_k < 0.05);
}

TEST_CASE("a dough on the table through a cold night agrees with CVODE in the same air") {
  // Fourteen hours from nine in the evening; the room falls by 4 to 12 K until two, stays so until
  // six and is warm again at eight, as a kitchen with a night temperature is taken to do.
  const Shelf shelf;
  const RiseConstants constants;
  const RiseSettings settings;
  constexpr std::size_t k_samples = 168;
  double worst = 0.0;
  double worst_k = 0.0;
  for (std::uint32_t i = 0; i < 60; ++i) {
    RandomRise r = random_rise(shelf, i);
    const double day_k = 289.15 + 10.0 * draw(name_key("day"), 7, i);
    const double night_k = day_k - 4.0 - 8.0 * draw(name_key("night"), 7, i);
    r.prove.value = 840.0;
    r.prove.ambient = {
        {0.0, day_k}, {60.0, day_k}, {300.0, night_k}, {540.0, night_k}, {660.0, day_k}};
    const Air air = [&](double seconds) {
      const double minutes = seconds / 60.0;
      double out = r.prove.ambient.front().temperature_k[0];
      for (std::size_t k = 1; k < r.prove.ambient.size(); ++k) {
        const AmbientPoint& from = r.prove.ambient[k - 1];
        const AmbientPoint& to = r.prove.ambient[k];
        const double share =
            std::clamp((minutes - from.minutes) / (to.minutes - from.minutes), 0.0, 1.0);
        out += share * (to.temperature_k[0] - from.temperature_k[0]);
      }
      return out;
    };
    const std::vector<Prove> proves = {r.prove};
    const RiseRun run = run_proves(r.dough, r.start, proves, {}, settings, constants);
    const auto begin = rise_model::begin_prove(r.dough, r.start, r.prove, {}, settings, constants);
    const CvodeRise reference =
        cvode_rise(begin, 0, air, settings.sample_s, k_samples, 1e-9, constants);
    const std::vector<Lanes>& trace = run.proves[0].volume_ratio;
    REQUIRE(trace.size() == reference.volume_ratio.size());
    for (std::size_t k = 0; k < trace.size(); ++k) {
      worst = std::max(worst, std::fabs(trace[k][0] / reference.volume_ratio[k] - 1.0));
    }
    worst_k = std::max(worst_k,
                       std::fabs(run.end.mean_temperature_k()[0] - reference.mean_temperature_k));
  }
  MESSAGE("worst volume error " << worst << ", worst temperature error " << worst_k << " K");
  CHECK(worst < 0.002);
  CHECK(worst_k < 0.05);
}
