#include "forecast/bake_picture.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "bake/one_lane.h"
#include "bake/section_picture.h"
#include "quantity/number_text.h"

namespace maslin {
namespace {

constexpr int k_looks = 6;

}  // namespace

std::size_t middling_draw(const Lanes& minutes) {
  std::array<std::size_t, k_lane_count> order{};
  for (std::size_t i = 0; i < k_lane_count; ++i) {
    order[i] = i;
  }
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return minutes[a] < minutes[b]; });
  return order[k_lane_count / 2];
}

BakePicture picture_of_bake(const ForecastSetup& setup, const BatchOutcome& first) {
  BakePicture out;
  if (!first.bake) {
    out.problem = first.problems.empty()
                      ? "The recipe bakes nothing in an oven, so there is no bake to draw."
                      : first.problems.front();
    return out;
  }
  const DrawnBake& bake = *first.bake;
  const std::size_t lane = middling_draw(bake.minutes_to_done);
  const double done = bake.minutes_to_done[lane];
  SectionOptions options;
  options.across = 16;
  options.up = 24;
  for (int i = 0; i < k_looks; ++i) {
    options.minutes.push_back(done * i / (k_looks - 1));
  }
  const SectionRun run = bake_section(one_lane(bake.piece, lane), one_lane(bake.oven, lane),
                                      one_lane(bake.unknowns, lane), options);
  if (!run.problem.empty()) {
    out.problem = run.problem;
    return out;
  }
  const PlannedBake& plan = setup.schedule.bake;
  std::string name(piece_shape_name(plan.shape));
  std::replace(name.begin(), name.end(), '_', ' ');
  const std::string sentence =
      "Cut through the middle of one " + name + " of " +
      number_text(bake.piece.mass_g[lane] * bake.unknowns.mass_factor[lane], 0) + " g at " +
      number_text(plan.heats.front().celsius, 0) + " °C, one likely draw: done after " +
      number_text(done, 0) + " min.";
  out.drawing = section_picture(run, {setup.recipe->title, sentence});
  return out;
}

}  // namespace maslin
