#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "bake/bake.h"

namespace maslin {
namespace {

BakeRun baked(double cut_minutes, double filling_share = 0.0) {
  BakeOptions options;
  options.cut_minutes = cut_minutes;
  options.sample_minutes = 0.05;  // so that the trace is read at the steps, not between them
  options.at_least_minutes = 18.0;
  Piece piece;
  piece.mass_g = 75.0;
  if (filling_share > 0.0) {
    piece.filling_share = filling_share;
    piece.filling = DoughFigures{};
  }
  return bake_piece(piece, oven_of(OvenKind::conventional, 463.15), DoneRule{}, BakeUnknowns{},
                    options);
}

}  // namespace

TEST_CASE("Cuts are kept from loading on, apart as asked, and none unasked") {
  const BakeRun run = baked(2.0);
  REQUIRE(run.cuts.size() >= 8);
  CHECK(run.cuts.front().minutes == 0.0);
  for (std::size_t i = 1; i < run.cuts.size(); ++i) {
    CHECK(run.cuts[i].minutes >= run.cuts[i - 1].minutes + 2.0);
    CHECK(run.cuts[i].profiles.size() == k_lane_count);
  }
  CHECK(baked(0.0).cuts.empty());
}

TEST_CASE("The coldest place of a cut is the core of the trace at that minute") {
  const BakeRun run = baked(2.0);
  for (const BakeCut& cut : run.cuts) {
    const auto& inside = cut.profiles[0].temperature_k;
    const double coldest = *std::min_element(inside.begin(), inside.end());
    // Half a kelvin: the trace is interpolated between steps, the cut is a step itself.
    CHECK(std::fabs(coldest - moment_at(run, cut.minutes).core_k[0]) < 0.5);
    CHECK(std::is_sorted(cut.profiles[0].depth_mm.begin(), cut.profiles[0].depth_mm.end()));
    CHECK(cut.profiles[0].filling_to == 0);
  }
}

TEST_CASE("A cut says which places are a filling; the coldest of the others is the crumb's core") {
  const BakeRun run = baked(2.0, 0.25);
  REQUIRE_FALSE(run.cuts.empty());
  for (const BakeCut& cut : run.cuts) {
    const BakeProfile& one = cut.profiles[0];
    REQUIRE(one.filling_to > one.filling_from);
    REQUIRE(one.filling_to < one.temperature_k.size());
    double crumb = 1e9, filling = 1e9;
    for (std::size_t i = 0; i < one.temperature_k.size(); ++i) {
      const bool inside = i >= one.filling_from && i < one.filling_to;
      (inside ? filling : crumb) = std::min(inside ? filling : crumb, one.temperature_k[i]);
    }
    CHECK(std::fabs(crumb - moment_at(run, cut.minutes).core_k[0]) < 0.5);
    CHECK(std::fabs(filling - moment_at(run, cut.minutes).filling_k[0]) < 0.5);
  }
}

}  // namespace maslin
