// The quarter by deal.II, stepped by its interface to SUNDIALS IDA: variable order, implicit,
// adaptive. Another way through space than maslin's cells: the errors of both are measured from
// the same fine answer. Prints one row of the table.
// Usage: dealii_quarter ACROSS ALONG UP TOLERANCE THREADS [KRYLOV_TOLERANCE [WATER_TOLERANCE
// [elements]]]
#include <deal.II/base/multithread_info.h>
#include <deal.II/sundials/ida.h>

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <string>

#include "dealii_elements.h"

int main(int argc, char** argv) {
  using namespace yardstick;
  if (argc < 6) {
    std::fprintf(stderr,
                 "usage: dealii_quarter ACROSS ALONG UP TOLERANCE THREADS [KRYLOV_TOLERANCE "
                 "[WATER_TOLERANCE]]\n");
    return 2;
  }
  const int across = std::atoi(argv[1]), along = std::atoi(argv[2]), up = std::atoi(argv[3]);
  const double tolerance = std::atof(argv[4]);
  const double krylov = argc > 6 ? std::atof(argv[6]) : 1e-2;
  const double allowed_water = argc > 7 ? std::atof(argv[7]) : 0.01;
  dealii::MultithreadInfo::set_thread_limit(static_cast<unsigned>(std::atoi(argv[5])));
  const QuarterProblem problem(across, along, up);
  const bool by_element = argc > 8 && std::string(argv[8]) == "elements";
  Elements elements(problem, by_element);
  const auto size = static_cast<unsigned>(elements.size());
  Field y(size), speed(size), allowed(size);
  elements.start(y);
  elements.residual(0.0, y, speed, allowed);
  for (unsigned i = 0; i < size; ++i) {
    const bool water = i < 2 * elements.corners().size() && i % 2 == 1;
    speed[i] = water ? -0.01 * allowed[i] : -allowed[i];
  }
  // The rows of heat hold what water carries too: with water's speed known, once more.
  elements.residual(0.0, y, speed, allowed);
  for (unsigned i = 0; i < 2 * elements.corners().size(); i += 2) {
    speed[i] -= allowed[i];
  }
  for (unsigned i = 0; i < size; ++i) {
    const bool water = i < 2 * elements.corners().size() && i % 2 == 1;
    allowed[i] = tolerance * (water ? allowed_water : 1.0);
  }
  using Ida = dealii::SUNDIALS::IDA<Field>;
  Ida::AdditionalData data;
  data.final_time = 60.0 * k_minutes;
  data.output_period = 60.0 * k_minutes;
  data.initial_step_size = 0.1;
  data.minimum_step_size = 0.0;
  data.relative_tolerance = 0.0;
  data.ic_type = Ida::AdditionalData::none;
  data.reset_type = Ida::AdditionalData::none;
  Ida ida(data);
  long factorised = 0;
  ida.reinit_vector = [size](Field& v) { v.reinit(size); };
  ida.residual = [&](double now, const Field& state, const Field& dot, Field& out) {
    elements.residual(now, state, dot, out);
    return 0;
  };
  ida.setup_jacobian = [&](double now, const Field& state, const Field& dot, double alpha) {
    ++factorised;
    elements.set_up(now, state, dot, alpha);
    return 0;
  };
  ida.solve_with_jacobian = [&](const Field& right, Field& to, double) {
    return elements.solve(right, to, krylov);
  };
  ida.get_local_tolerances = [&]() -> Field& { return allowed; };
  ida.output_step = [](double, const Field&, const Field&, unsigned) {};
  const double processor = static_cast<double>(std::clock());
  const auto from = std::chrono::steady_clock::now();
  ida.solve_dae(y, speed);
  const double seconds =
      std::chrono::duration<double>(std::chrono::steady_clock::now() - from).count();
  const double both = (static_cast<double>(std::clock()) - processor) / CLOCKS_PER_SEC;
  std::printf("dealii%s\t%d\t%s\t%g\t%ld\t%ld\t%.6f\t%.6f\t%.4f\t%.4f\n",
              by_element ? "_elements" : "", across * along * up, argv[5], tolerance, factorised,
              elements.iterations(), elements.coldest_k(y) - 273.15,
              100.0 * (problem.water_kg - elements.water_kg(y)) / problem.mass_kg, seconds, both);
  return 0;
}
