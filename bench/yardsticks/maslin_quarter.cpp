// The quarter by maslin's own solver, and what the machine's memory gives in the same run.
// Usage: maslin_quarter ACROSS ALONG UP TOLERANCE THREADS | maslin_quarter triad THREADS
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <string>
#include <thread>
#include <vector>

#include "app/thread_team.h"
#include "quarter_problem.h"

namespace {

double now_s() {
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

/// a = b + s c over arrays far larger than the caches, the best of ten; GB/s (McCalpin's
/// STREAM counts the same bytes).
double triad(unsigned threads) {
  constexpr std::size_t k_count = std::size_t{1} << 24;
  std::vector<double> a(k_count, 0.0), b(k_count, 1.0), c(k_count, 2.0);
  double best = 1e9;
  for (int round = 0; round < 10; ++round) {
    const double from = now_s();
    std::vector<std::thread> all;
    for (unsigned t = 0; t < threads; ++t) {
      all.emplace_back([&, t] {
        const std::size_t low = k_count * t / threads, high = k_count * (t + 1) / threads;
        const double scale = 3.0 + 1e-3 * round;
        for (std::size_t i = low; i < high; ++i) {
          a[i] = b[i] + scale * c[i];
        }
      });
    }
    for (std::thread& one : all) {
      one.join();
    }
    best = std::min(best, now_s() - from);
  }
  return a[k_count / 2] > 0.0 ? 3.0 * sizeof(double) * k_count / best * 1e-9 : 0.0;
}

}  // namespace

int main(int argc, char** argv) {
  using namespace yardstick;
  if (argc == 3 && std::string(argv[1]) == "triad") {
    std::printf("triad\t%s\t%.2f\n", argv[2], triad(static_cast<unsigned>(std::atoi(argv[2]))));
    return 0;
  }
  if (argc != 6) {
    std::fprintf(stderr, "usage: maslin_quarter ACROSS ALONG UP TOLERANCE THREADS\n");
    return 2;
  }
  SectionOptions options;
  options.across = std::atoi(argv[1]);
  options.along = std::atoi(argv[2]);
  options.up = std::atoi(argv[3]);
  options.tolerance = std::atof(argv[4]);
  options.minutes = {k_minutes};
  ThreadTeam team(static_cast<unsigned>(std::atoi(argv[5])));
  options.team = &team;
  const std::clock_t processor = std::clock();  // of all threads
  const double from = now_s();
  const SectionRun run = bake_section(quarter_piece(), quarter_oven(), quarter_unknowns(), options);
  const double seconds = now_s() - from;
  const double worked = static_cast<double>(std::clock() - processor) / CLOCKS_PER_SEC;
  if (!run.problem.empty()) {
    std::fprintf(stderr, "%s\n", run.problem.c_str());
    return 1;
  }
  const SectionFrame& end = run.frames.back();
  std::printf("maslin\t%d\t%s\t%g\t%d\t%d\t%.6f\t%.6f\t%.4f\t%.4f\n",
              options.across * options.along * options.up, argv[5], options.tolerance, run.steps,
              run.iterations, end.core_k - 273.15, end.weight_loss_pct, seconds, worked);
  return 0;
}
