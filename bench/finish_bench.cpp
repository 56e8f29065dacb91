// All finishes of a recipe over 1 024 draws: a glaze, a filling, a soak, a syrup and a
// dough, with cooling and keeping.
#include <benchmark/benchmark.h>

#include "finish/finish.h"
#include "numerics/draws.h"
#include "pantry/pantry.h"

namespace {

using namespace maslin;

Portions bowl(const Pantry& pantry, std::initializer_list<std::pair<const char*, double>> lines) {
  Portions out;
  for (const auto& [id, grams] : lines) {
    if (const Ingredient* found = pantry.find(id)) {
      out.items.push_back({found, grams});
    }
  }
  return out;
}

std::vector<FinishPart> scene(const Pantry& pantry) {
  std::vector<FinishPart> parts(5);
  parts[0].name = "dough";
  parts[0].kind = PartKind::dough;
  parts[0].portions = bowl(pantry, {{"strong_white_flour", 500.0},
                                    {"whole_milk", 280.0},
                                    {"caster_sugar", 60.0},
                                    {"butter", 60.0},
                                    {"egg", 50.0},
                                    {"salt", 8.0}});
  parts[1].name = "filling";
  parts[1].kind = PartKind::filling;
  parts[1].portions = bowl(pantry, {{"date_paste", 300.0}, {"butter", 30.0}, {"water", 40.0}});
  parts[2].name = "glaze";
  parts[2].kind = PartKind::glaze;
  parts[2].portions = bowl(pantry, {{"icing_sugar", 200.0}, {"orange_juice", 32.0}});
  parts[3].name = "soaker";
  parts[3].kind = PartKind::soaker;
  parts[3].portions = bowl(pantry, {{"raisins", 120.0}, {"orange_juice", 60.0}});
  parts[4].name = "syrup";
  parts[4].kind = PartKind::wash;
  parts[4].boiled = true;
  parts[4].portions = bowl(pantry, {{"caster_sugar", 100.0}, {"water", 80.0}});
  return parts;
}

void finishes_of_a_recipe(benchmark::State& state) {
  const Pantry pantry(embedded_pantry_tables());
  const FinishTables tables = embedded_finish_tables();
  const std::vector<FinishUnknownRow> rows = finish_unknown_rows();
  const std::vector<FinishPart> parts = scene(pantry);
  std::vector<FinishUnknowns> blocks(1024 / k_lane_count);
  for (std::size_t b = 0; b < blocks.size(); ++b) {
    for (const FinishUnknownRow& row : rows) {
      blocks[b].*row.place = row.distribution.quantile(
          draw_lanes(name_key(row.name), 1, static_cast<std::uint32_t>(b * k_lane_count)));
    }
  }
  for (auto _ : state) {
    double total = 0.0;
    for (const FinishUnknowns& unknowns : blocks) {
      const FinishForecast forecast = finish_parts(tables, parts, BakedPiece{}, unknowns);
      total += forecast.entries.front().figures.front().value[0];
    }
    benchmark::DoNotOptimize(total);
  }
}
BENCHMARK(finishes_of_a_recipe)->Unit(benchmark::kMillisecond);

}  // namespace
