// What a forecast of a bake costs: 1 024 draws of twelve touching buns, on one thread and
// on two, and a single bake. Counts of steps are exact; seconds are for this machine.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <thread>
#include <vector>

#include "app/thread_team.h"
#include "bake/bake.h"
#include "bake/section.h"
#include "numerics/draws.h"

using namespace maslin;

namespace {

constexpr std::uint32_t k_draws = 1024;
constexpr std::uint32_t k_batches = k_draws / k_lane_count;

Piece touching_bun() {
  Piece p;
  p.shape = PieceShape::cluster;
  p.mass_g = 80.0;
  p.neighbours = 3.0;
  p.dough.water_share = 0.36;
  p.dough.solids_share = 0.64;
  p.dough.sugar_pct_solids = 11.0;
  return p;
}

BakeUnknowns drawn(std::uint32_t batch) {
  const auto normal = [batch](const char* name) {
    return standard_normal_quantile(draw_lanes(name_key(name), 1, k_lane_count * batch));
  };
  BakeUnknowns u;
  u.oven_offset_k = 10.0 * normal("offset");
  u.convection_factor = exp(0.25 * normal("convection"));
  u.radiation_factor = exp(0.10 * normal("radiation"));
  u.conductivity_factor = exp(0.12 * normal("conductivity"));
  u.evaporation_factor = exp(0.20 * normal("evaporation"));
  u.browning_factor = exp(0.30 * normal("browning"));
  u.mass_factor = 1.0 + 0.05 * normal("mass");
  u.spring_factor = exp(0.30 * normal("spring"));
  return u;
}

void a_thousand_draws(benchmark::State& state) {
  const auto threads = static_cast<std::uint32_t>(state.range(0));
  const Piece piece = touching_bun();
  const Oven oven = oven_of(OvenKind::conventional, 463.15);
  std::vector<BakeRun> runs(k_batches);
  for (auto _ : state) {
    const auto work = [&](std::uint32_t first) {
      for (std::uint32_t batch = first; batch < k_batches; batch += threads) {
        runs[batch] = bake_piece(piece, oven, {}, drawn(batch));
      }
    };
    std::vector<std::thread> others;
    for (std::uint32_t t = 1; t < threads; ++t) {
      others.emplace_back(work, t);
    }
    work(0);
    for (std::thread& other : others) {
      other.join();
    }
  }
  double steps = 0.0, rejected = 0.0;
  for (const BakeRun& run : runs) {
    steps += run.steps;
    rejected += run.rejected;
  }
  state.counters["steps"] = steps;
  state.counters["rejected"] = rejected;
}
BENCHMARK(a_thousand_draws)
    ->Arg(1)
    ->Arg(2)
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();

void one_bake(benchmark::State& state) {
  const Piece piece = touching_bun();
  const Oven oven = oven_of(OvenKind::conventional, 463.15);
  int steps = 0;
  for (auto _ : state) {
    const BakeRun run = bake_piece(piece, oven, {}, {});
    steps = run.steps;
    benchmark::DoNotOptimize(steps);
  }
  state.counters["steps"] = steps;
}
BENCHMARK(one_bake)->Unit(benchmark::kMicrosecond);

void one_section(benchmark::State& state) {
  const Piece piece = touching_bun();
  const Oven oven = oven_of(OvenKind::conventional, 463.15);
  SectionOptions options;
  options.minutes = {0.0, 5.0, 10.0, 15.0, 20.0, 25.0};
  int steps = 0;
  for (auto _ : state) {
    const SectionRun run = bake_section(piece, oven, {}, options);
    steps = run.steps;
    benchmark::DoNotOptimize(steps);
  }
  state.counters["steps"] = steps;
}
BENCHMARK(one_section)->Unit(benchmark::kMillisecond);

/// A quarter of a free block of 92 g in three dimensions for 14 minutes, on so many threads:
/// the reference.
void one_quarter(benchmark::State& state) {
  Piece piece = touching_bun();
  piece.mass_g = 92.0;
  piece.neighbours = 0.0;
  piece.length_mm = 80.0;
  piece.width_mm = 80.0;
  const Oven oven = oven_of(OvenKind::conventional, 473.15);
  SectionOptions options;
  options.minutes = {0.0, 14.0};
  options.across = static_cast<int>(state.range(0));
  options.along = static_cast<int>(state.range(1));
  options.up = static_cast<int>(state.range(2));
  ThreadTeam team(static_cast<unsigned>(state.range(3)));
  options.team = &team;
  SectionRun run;
  for (auto _ : state) {
    run = bake_section(piece, oven, {}, options);
    benchmark::DoNotOptimize(run.steps);
  }
  state.counters["steps"] = run.steps;
  state.counters["iterations"] = run.iterations;
}
BENCHMARK(one_quarter)
    ->Args({16, 12, 15, 1})
    ->Args({32, 32, 32, 1})
    ->Args({32, 32, 32, 2})
    ->Args({64, 64, 64, 2})
    ->Iterations(1)
    ->MeasureProcessCPUTime()
    ->UseRealTime()
    ->Unit(benchmark::kMillisecond);

}  // namespace
