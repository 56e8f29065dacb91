// How many found recipes a second are read on one core, and what one whole `read` costs
// with the tables built anew.
#include <benchmark/benchmark.h>

#include <cstdint>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "pantry/pantry.h"
#include "reading/reading.h"

using namespace maslin;

namespace {

const std::string k_recipe =
    "Harvest knots\n\nMakes 12 knots\n\nFor the dough:\n4 cups strong white flour, plus extra for "
    "dusting\n1 cup roast pumpkin, mashed smooth\n1/2 cup whole milk, warmed\n1 large egg\n"
    "1/4 cup brown sugar, packed\n2 1/4 tsp instant yeast\n1 1/2 tsp salt\n1/4 cup (57 g) soft "
    "butter\n\nFor the filling:\n1 cup chopped dates\n1/4 cup water\n1 tbsp butter\n\nFor the "
    "glaze:\n1 cup icing sugar\n2 tbsp strong coffee\n\n1. Simmer the dates in the water until "
    "they make a paste, about 10 minutes. Leave to cool.\n2. Mix the pumpkin, milk and egg with "
    "the sugar and yeast. Add the flour and salt.\n3. Knead for 10 minutes until smooth.\n4. "
    "Cover and leave to rise in a warm place until doubled, about 1 hour.\n5. Divide into 12 and "
    "shape. Leave to rise for 40 minutes.\n6. Bake at 375F for 20 to 25 minutes until golden.\n";

void read_one_recipe(benchmark::State& state) {
  const Pantry pantry(embedded_pantry_tables());
  const Words words(pantry);
  for (auto _ : state) {
    benchmark::DoNotOptimize(read_text(k_recipe, pantry, words, {}));
  }
  state.SetItemsProcessed(state.iterations());
}
BENCHMARK(read_one_recipe);

/// Every found recipe of tests/reading/found, one after the other.
void read_found_recipes(benchmark::State& state) {
  const Pantry pantry(embedded_pantry_tables());
  const Words words(pantry);
  std::vector<std::string> texts;
  const std::filesystem::path folder =
      std::filesystem::path(MASLIN_SOURCE_DIR) / "tests/reading/found";
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() != ".tsv") {
      std::ifstream in(entry.path(), std::ios::binary);
      texts.emplace_back(std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>());
    }
  }
  for (auto _ : state) {
    for (const std::string& text : texts) {
      benchmark::DoNotOptimize(read_text(text, pantry, words, {}));
    }
  }
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(texts.size()));
}
BENCHMARK(read_found_recipes);

void build_pantry(benchmark::State& state) {
  for (auto _ : state) {
    benchmark::DoNotOptimize(Pantry(embedded_pantry_tables()));
  }
}
BENCHMARK(build_pantry);

void build_words(benchmark::State& state) {
  const Pantry pantry(embedded_pantry_tables());
  for (auto _ : state) {
    benchmark::DoNotOptimize(Words(pantry));
  }
}
BENCHMARK(build_words);

void build_tables_and_read(benchmark::State& state) {
  for (auto _ : state) {
    const Pantry pantry(embedded_pantry_tables());
    const Words words(pantry);
    benchmark::DoNotOptimize(read_text(k_recipe, pantry, words, {}));
  }
}
BENCHMARK(build_tables_and_read);

/// A page of text that is no recipe: time must grow with its length only.
void read_long_text(benchmark::State& state) {
  const Pantry pantry(embedded_pantry_tables());
  const Words words(pantry);
  std::string text;
  while (text.size() < static_cast<std::size_t>(state.range(0))) {
    text += "There were 3 boxes of old tins in the attic, and nobody knew a thing of them.\n";
  }
  for (auto _ : state) {
    benchmark::DoNotOptimize(read_text(text, pantry, words, {}));
  }
  state.SetBytesProcessed(state.iterations() * state.range(0));
}
BENCHMARK(read_long_text)->Arg(20'000)->Arg(200'000)->Arg(1'900'000)->Unit(benchmark::kMillisecond);

}  // namespace
