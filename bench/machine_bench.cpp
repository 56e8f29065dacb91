// What this machine can do at most, to be read beside the other figures of the same run:
// bytes between memory and core, and additions and multiplications of doubles.
#include <benchmark/benchmark.h>

#include <cstddef>
#include <thread>
#include <vector>

#include "numerics/clones.h"

namespace maslin {

/// a = b + s c. Source of the measure: McCalpin's STREAM, triad (bytes counted as there).
MASLIN_ALL_WIDTHS
void triad(double* a, const double* b, const double* c, double s, std::size_t count) {
  for (std::size_t i = 0; i < count; ++i) {
    a[i] = b[i] + s * c[i];
  }
}

inline constexpr std::size_t k_chains = 48;

/// Chains of one multiplication and one addition each, enough of them to hide how long either
/// takes; not contracted, as in the models. Returns the operations done.
MASLIN_ALL_WIDTHS
double chains(double* x, double m, double a, std::size_t rounds) {
  double local[k_chains];
  for (std::size_t i = 0; i < k_chains; ++i) {
    local[i] = x[i];
  }
  for (std::size_t r = 0; r < rounds; ++r) {
#pragma GCC unroll 48
    for (std::size_t i = 0; i < k_chains; ++i) {
      local[i] = local[i] * m + a;
    }
  }
  for (std::size_t i = 0; i < k_chains; ++i) {
    x[i] = local[i];
  }
  return 2.0 * static_cast<double>(k_chains) * static_cast<double>(rounds);
}

}  // namespace maslin

namespace {

using namespace maslin;

template <typename Work>
void on_threads(std::size_t count, const Work& work) {
  std::vector<std::thread> crew;
  for (std::size_t t = 1; t < count; ++t) {
    crew.emplace_back(work, t);
  }
  work(0);
  for (std::thread& one : crew) {
    one.join();
  }
}

void memory_triad(benchmark::State& state) {
  constexpr std::size_t k_count = std::size_t{1} << 24;  // far beyond the caches
  const auto threads = static_cast<std::size_t>(state.range(0));
  std::vector<double> a(k_count, 0.0), b(k_count, 1.0), c(k_count, 2.0);
  for (auto _ : state) {
    on_threads(threads, [&](std::size_t t) {
      const std::size_t from = k_count * t / threads;
      triad(&a[from], &b[from], &c[from], 3.0, k_count * (t + 1) / threads - from);
    });
    benchmark::DoNotOptimize(a.data());
  }
  state.counters["gb_per_s"] = benchmark::Counter(3.0 * sizeof(double) * k_count * 1e-9,
                                                  benchmark::Counter::kIsIterationInvariantRate);
}
// One thread is reckoned by its processor time, as the models are; two by the clock.
BENCHMARK(memory_triad)->Arg(1)->Unit(benchmark::kMillisecond);
BENCHMARK(memory_triad)->Arg(2)->UseRealTime()->Unit(benchmark::kMillisecond);

void arithmetic(benchmark::State& state) {
  const auto threads = static_cast<std::size_t>(state.range(0));
  double done = 0.0;
  for (auto _ : state) {
    std::vector<double> of_each(threads);
    on_threads(threads, [&](std::size_t t) {
      std::vector<double> x(k_chains, 1.0);
      of_each[t] = chains(x.data(), 0.999, 0.001, 200'000);
      benchmark::DoNotOptimize(x.data());
    });
    for (const double one : of_each) {
      done += one;
    }
  }
  state.counters["gflop_per_s"] = benchmark::Counter(done * 1e-9, benchmark::Counter::kIsRate);
}
BENCHMARK(arithmetic)->Arg(1)->Unit(benchmark::kMillisecond);
BENCHMARK(arithmetic)->Arg(2)->UseRealTime()->Unit(benchmark::kMillisecond);

}  // namespace
