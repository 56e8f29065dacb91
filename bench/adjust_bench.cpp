// A recipe changed to what is wanted of it, and beside it CBC alone on the very programmes
// that the change poses: what the solver would take if all else were free.
#include <benchmark/benchmark.h>
#include <coin/Cbc_C_Interface.h>

#include <chrono>
#include <memory>
#include <string>
#include <vector>

#include "adjust/solver.h"
#include "app/adjusting.h"
#include "app/app.h"

// The linker hands every call of the solver to the first of these, so that what is posed can
// be kept (CMakeLists.txt, --wrap).
maslin::LinearSolution real_solve(const maslin::LinearProgram& program) asm(
    "__real__ZN6maslin5solveERKNS_13LinearProgramE");
maslin::LinearSolution kept_solve(const maslin::LinearProgram& program) asm(
    "__wrap__ZN6maslin5solveERKNS_13LinearProgramE");

namespace {

using namespace maslin;

std::vector<LinearProgram>* g_posed = nullptr;

const Tools& tools() {
  static const Tools k_tools;
  return k_tools;
}

const Recipe& buns() {
  static const Recipe k_recipe =
      *read_recipe(tools(),
                   {"Milk buns\n\n500 g strong white flour\n300 ml milk\n2 eggs\n7 g instant "
                    "yeast\n9 g salt\n80 g sugar\n60 g butter\n\nKnead. Leave to rise until "
                    "doubled. Shape 12 buns. Bake at 190C for 18 minutes.",
                    "", ""})
           .value;
  return k_recipe;
}

double seconds_since(std::chrono::steady_clock::time_point from) {
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - from).count();
}

/// CBC as it comes, by its own C interface.
int cbc_alone(const LinearProgram& program) {
  const std::unique_ptr<Cbc_Model, decltype(&Cbc_deleteModel)> model(Cbc_newModel(),
                                                                     &Cbc_deleteModel);
  Cbc_setParameter(model.get(), "log", "0");
  Cbc_setParameter(model.get(), "slog", "0");
  std::vector<std::vector<std::pair<int, double>>> columns(program.columns.size());
  std::vector<double> row_low, row_high;
  for (std::size_t r = 0; r < program.rows.size(); ++r) {
    for (const auto& [column, value] : program.rows[r].terms) {
      columns[column].emplace_back(static_cast<int>(r), value);
    }
    row_low.push_back(program.rows[r].low);
    row_high.push_back(program.rows[r].high);
  }
  std::vector<int> start = {0}, row;
  std::vector<double> value, low, high, cost;
  for (std::size_t c = 0; c < columns.size(); ++c) {
    for (const auto& [at, coefficient] : columns[c]) {
      row.push_back(at);
      value.push_back(coefficient);
    }
    start.push_back(static_cast<int>(row.size()));
    low.push_back(program.columns[c].low);
    high.push_back(program.columns[c].high);
    cost.push_back(program.columns[c].cost);
  }
  Cbc_loadProblem(model.get(), static_cast<int>(columns.size()),
                  static_cast<int>(program.rows.size()), start.data(), row.data(), value.data(),
                  low.data(), high.data(), cost.data(), row_low.data(), row_high.data());
  for (std::size_t c = 0; c < columns.size(); ++c) {
    if (program.columns[c].whole) {
      Cbc_setInteger(model.get(), static_cast<int>(c));
    }
  }
  Cbc_solve(model.get());
  return Cbc_isProvenOptimal(model.get());
}

void adjust_beside_cbc(benchmark::State& state, const std::vector<std::string>& wants) {
  std::vector<LinearProgram> posed;
  g_posed = &posed;
  const Result<Adjustment> once = adjust_as_wanted(tools(), buns(), {wants, {}, {}});
  g_posed = nullptr;
  if (!once.value) {
    state.SkipWithError(once.problem.c_str());
    return;
  }
  double ours = 0.0, cbc = 0.0;
  std::size_t rounds = 0;
  for (auto _ : state) {
    auto from = std::chrono::steady_clock::now();
    benchmark::DoNotOptimize(adjust_as_wanted(tools(), buns(), {wants, {}, {}}));
    ours += seconds_since(from);
    from = std::chrono::steady_clock::now();
    for (const LinearProgram& program : posed) {
      benchmark::DoNotOptimize(cbc_alone(program));
    }
    cbc += seconds_since(from);
    ++rounds;
  }
  state.counters["programmes"] = static_cast<double>(posed.size());
  state.counters["ours_ms"] = 1e3 * ours / static_cast<double>(rounds);
  state.counters["cbc_ms"] = 1e3 * cbc / static_cast<double>(rounds);
  state.counters["of_cbc"] = ours / cbc;
}
BENCHMARK_CAPTURE(adjust_beside_cbc, softer_and_less_sugar,
                  std::vector<std::string>{"softer", "sugar at most 12 %"})
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(adjust_beside_cbc, sixteen_pieces_of_60_g,
                  std::vector<std::string>{"16 pieces of 60 g"})
    ->Unit(benchmark::kMillisecond);

}  // namespace

maslin::LinearSolution kept_solve(const maslin::LinearProgram& program) {
  if (g_posed != nullptr) {
    g_posed->push_back(program);
  }
  return real_solve(program);
}
