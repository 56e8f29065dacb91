// What a person waits for: reading a recipe, and a forecast of 1 024 draws.
#include <benchmark/benchmark.h>

#include <string>

#include "app/app.h"

namespace {

using namespace maslin;

const Tools& tools() {
  static const Tools k_tools;
  return k_tools;
}

std::string demo() {
  // The pamphlet as the page gets it, without going through a file.
  static const std::string k_text = [] {
    const std::string document = demo_to_json();
    const std::size_t from = document.find("\"text\":\"") + 8;
    std::string out;
    for (std::size_t i = from; i + 1 < document.size() && document[i] != '"'; ++i) {
      if (document[i] == '\\') {
        out += document[++i] == 'n' ? '\n' : document[i];
      } else {
        out += document[i];
      }
    }
    return out;
  }();
  return k_text;
}

void tables(benchmark::State& state) {
  for (auto _ : state) {
    benchmark::DoNotOptimize(Tools());
  }
}
BENCHMARK(tables)->Unit(benchmark::kMillisecond);

void read(benchmark::State& state) {
  (void)tools();
  for (auto _ : state) {
    benchmark::DoNotOptimize(read_recipe(tools(), {demo(), "", ""}));
  }
}
BENCHMARK(read)->Unit(benchmark::kMillisecond);

void forecast(benchmark::State& state) {
  const Recipe recipe = read_recipe(tools(), {demo(), "", ""}).value.value();
  ForecastRequest request;
  request.options.draws = static_cast<std::uint32_t>(state.range(0));
  request.threads = static_cast<unsigned>(state.range(1));
  for (auto _ : state) {
    benchmark::DoNotOptimize(forecast_recipe(tools(), recipe, request));
  }
}

/** The page's first picture after an edit: few draws, without what to measure first. */
void first_picture(benchmark::State& state) {
  const Recipe recipe = read_recipe(tools(), {demo(), "", ""}).value.value();
  ForecastRequest request;
  request.options.draws = 256;
  request.options.worth_measuring = false;
  request.threads = 2;
  for (auto _ : state) {
    benchmark::DoNotOptimize(forecast_recipe(tools(), recipe, request));
  }
}
BENCHMARK(first_picture)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(forecast)
    ->Args({256, 2})
    ->Args({1024, 1})
    ->Args({1024, 2})
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();

}  // namespace
