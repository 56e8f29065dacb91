// A bulk prove to double and a final prove to double, 1 024 draws, one thread and two; and five
// hours of one prove beside SUNDIALS CVODE, the same draws on the same core.
#include <benchmark/benchmark.h>

#include <cmath>
#include <thread>
#include <vector>

#include "counted.h"
#include "numerics/draws.h"
#include "rise/prove_start.h"
#include "rise/prove_step.h"
#include "rise/rise.h"
#ifdef MASLIN_HAS_SUNDIALS
#include <ctime>

#include "oracles/cvode_rise.h"
#endif

using namespace maslin;

namespace {

Ingredient food(IngredientKind kind, std::vector<std::pair<Component, double>> parts) {
  Ingredient i;
  i.kind = kind;
  for (const auto& [component, share] : parts) {
    i.composition[component] = share;
  }
  return i;
}

struct Scene {
  Ingredient flour = food(IngredientKind::flour, {{Component::water, 0.14},
                                                  {Component::protein, 0.115},
                                                  {Component::fat, 0.012},
                                                  {Component::starch, 0.70},
                                                  {Component::fibre, 0.03}});
  Ingredient water = food(IngredientKind::water, {{Component::water, 1.0}});
  Ingredient sugar = food(IngredientKind::sugar, {{Component::sucrose, 1.0}});
  Ingredient salt =
      food(IngredientKind::salt, {{Component::minerals, 1.0}, {Component::salt, 1.0}});
  Ingredient yeast =
      food(IngredientKind::yeast, {{Component::water, 0.06}, {Component::protein, 0.4}});
  RiseDough dough;
  std::vector<Prove> proves;

  Scene() {
    yeast.yeast = {YeastKind::instant, 2.86, 0.01};
    Portions p;
    p.items = {{&flour, 500.0}, {&water, 300.0}, {&sugar, 60.0}, {&salt, 8.0}, {&yeast, 7.0}};
    dough = rise_dough(p);
    proves.resize(2);
    proves[0].ambient = {{0.0, 300.15}};
    proves[1].ambient = {{0.0, 303.15}};
    proves[1].piece_g = 60.0;
    proves[1].gas_kept_before = 0.25;
  }
};

RiseUnknowns draw_unknowns(std::uint32_t index) {
  const auto one = [&](const char* name, double sigma) {
    return exp(sigma * standard_normal_quantile(draw_lanes(name_key(name), 1, index)));
  };
  RiseUnknowns u;
  u.yeast_vigour = one("yeast vigour", 0.2);
  u.flour_sugar = one("flour sugar", 0.25);
  u.tolerance = one("tolerance", 0.08);
  u.waking = one("waking", 0.3);
  u.mixed_air = one("mixed air", 0.25);
  u.heat_transfer = one("heat transfer", 0.25);
  return u;
}

double run_draws(const Scene& scene, std::uint32_t from, std::uint32_t to) {
  double sum_minutes = 0.0;
  for (std::uint32_t i = from; i < to; i += k_lane_count) {
    const RiseUnknowns u = draw_unknowns(i);
    const RiseRun run =
        run_proves(scene.dough, start_of_rise(scene.dough, 299.15, u), scene.proves, u);
    sum_minutes += sum(run.proves[1].minutes_to_target);
  }
  return sum_minutes;
}

void rise_1024_draws(benchmark::State& state) {
  const Scene scene;
  const auto threads = static_cast<std::uint32_t>(state.range(0));
  for (auto _ : state) {
    std::vector<std::thread> crew;
    std::vector<double> sums(threads);
    for (std::uint32_t t = 1; t < threads; ++t) {
      crew.emplace_back(
          [&, t] { sums[t] = run_draws(scene, t * 1024 / threads, (t + 1) * 1024 / threads); });
    }
    sums[0] = run_draws(scene, 0, 1024 / threads);
    for (std::thread& worker : crew) {
      worker.join();
    }
    benchmark::DoNotOptimize(sums);
  }
}

/// Additions, multiplications, divisions and roots of one step of one draw, as written.
double operations_of_a_step(const Scene& scene) {
  using namespace rise_model;
  const RiseConstants constants;
  const auto begin = begin_prove(scene.dough, start_of_rise(scene.dough, 299.15), scene.proves[0],
                                 {}, {}, constants);
  const auto counted = [](const Lanes& lanes) { return Counted(lanes[0]); };
  const auto all_counted = [&](const auto& from, auto& to) {
    for (std::size_t i = 0; i < from.size(); ++i) {
      to[i] = counted(from[i]);
    }
  };
  const Medium<Lanes>& m = begin.setting.medium;
  const Shells<Lanes>& shells = begin.setting.shells;
  const Warmth<Lanes>& w = begin.moment.warmth;
  Setting<Counted> setting;
  setting.medium = {counted(m.solvent_kg),
                    counted(m.inert_osmol),
                    counted(m.salt_stress_osmol),
                    counted(m.steady_factor),
                    counted(m.tolerant_share),
                    counted(m.tolerance),
                    counted(m.wake_h),
                    counted(m.inversion),
                    counted(m.yeast_start),
                    counted(m.ethanol_start),
                    counted(m.ph_start),
                    counted(m.buffer_mmol),
                    counted(m.salt_g),
                    counted(m.air_mol),
                    counted(m.carbon_dioxide_start),
                    counted(m.dense_ml),
                    counted(m.critical_volume_ml),
                    m.pressure_pa,
                    m.sour};
  all_counted(shells.conduct, setting.shells.conduct);
  setting.shells.skin_m2 = counted(shells.skin_m2);
  setting.shells.capacity_j_per_k = counted(shells.capacity_j_per_k);
  setting.heat_transfer_w_per_m2k = counted(begin.setting.heat_transfer_w_per_m2k);
  setting.pieces_per_100g_flour = counted(begin.setting.pieces_per_100g_flour);
  Moment<Counted> now;
  all_counted(begin.moment.chemistry, now.chemistry);
  all_counted(begin.moment.temperature_k, now.temperature_k);
  now.warmth = {counted(w.gas),
                counted(w.growth),
                counted(w.enzyme),
                counted(w.death_per_h),
                counted(w.wild_per_h),
                counted(w.bacteria_per_h),
                counted(w.henry_mol_per_kg_pa),
                counted(w.molar_ml)};
  now.volume_ml = counted(begin.moment.volume_ml);
  now.next_volume_ml = counted(begin.moment.next_volume_ml);
  now.heat_w = counted(begin.moment.heat_w);
  now.next_heat_w = counted(begin.moment.next_heat_w);
  Counted::done() = 0;
  benchmark::DoNotOptimize(stepped(now, setting, Counted(300.15), 60.0, constants).volume_ml.x);
  return static_cast<double>(Counted::done());
}

void rise_steps(benchmark::State& state) {
  const Scene scene;
  std::size_t steps = 0;
  for (auto _ : state) {
    steps += run_proves(scene.dough, start_of_rise(scene.dough, 299.15), scene.proves).steps;
  }
  state.counters["ns_per_step_of_8"] = benchmark::Counter(
      static_cast<double>(steps), benchmark::Counter::kIsRate | benchmark::Counter::kInvert);
  const double operations = operations_of_a_step(scene);
  state.counters["operations_a_step"] = operations;
  state.counters["gflop_per_s"] = benchmark::Counter(
      1e-9 * operations * k_lane_count * static_cast<double>(steps), benchmark::Counter::kIsRate);
}

#ifdef MASLIN_HAS_SUNDIALS
/// Processor time of this thread: who else is at work must not weigh on the longer of the two.
double processor_s() {
  timespec now{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

/// Tolerance 10^-range(0). Counters: microseconds a draw by either, and the one over the other.
void rise_beside_cvode(benchmark::State& state) {
  const Scene scene;
  const RiseConstants constants;
  const RiseSettings settings;
  const double tolerance = std::pow(10.0, -static_cast<double>(state.range(0)));
  std::vector<Prove> proves = {scene.proves[0]};
  proves[0].target = ProveTarget::minutes;
  proves[0].value = 300.0;
  const auto samples = static_cast<std::size_t>(proves[0].value * 60.0 / settings.sample_s);
  const auto seconds_since = [](double from) { return processor_s() - from; };
  double ours_s = 0.0;
  double cvode_s = 0.0;
  double draws = 0.0;
  for (auto _ : state) {
    for (std::uint32_t first = 0; first < 32; first += k_lane_count) {
      const RiseUnknowns u = draw_unknowns(first);
      const RiseState start = start_of_rise(scene.dough, 299.15, u);
      double from = processor_s();
      benchmark::DoNotOptimize(run_proves(scene.dough, start, proves, u, settings, constants));
      ours_s += seconds_since(from);
      from = processor_s();
      const auto begin =
          rise_model::begin_prove(scene.dough, start, proves[0], u, settings, constants);
      for (std::size_t lane = 0; lane < k_lane_count; ++lane) {
        benchmark::DoNotOptimize(
            cvode_rise(begin, lane, 300.15, settings.sample_s, samples, tolerance, constants));
      }
      cvode_s += seconds_since(from);
      draws += k_lane_count;
    }
  }
  state.counters["ours_us_a_draw"] = 1e6 * ours_s / draws;
  state.counters["cvode_us_a_draw"] = 1e6 * cvode_s / draws;
  state.counters["times_as_fast"] = cvode_s / ours_s;
}
#endif

}  // namespace

#ifdef MASLIN_HAS_SUNDIALS
BENCHMARK(rise_beside_cvode)->Arg(5)->Arg(9)->Unit(benchmark::kMillisecond);
#endif
BENCHMARK(rise_1024_draws)->Arg(1)->Arg(2)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(rise_steps)->Unit(benchmark::kMicrosecond);
