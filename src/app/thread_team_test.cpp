// A team does every part once, and a solid baked by it says the same.
#include "app/thread_team.h"

#include <doctest/doctest.h>

#include <atomic>
#include <vector>

#include "bake/section.h"

using namespace maslin;

TEST_CASE("A team does each part once, run after run") {
  ThreadTeam team(3);
  for (std::size_t count : {0UL, 1UL, 2UL, 17UL}) {
    std::vector<std::atomic<int>> done(count);
    team.run(count, [&](std::size_t part) { ++done[part]; });
    for (const std::atomic<int>& one : done) {
      CHECK(one == 1);
    }
  }
}

TEST_CASE("A quarter in three dimensions is the same by one hand and by two") {
  Piece piece;
  piece.shape = PieceShape::cluster;
  piece.mass_g = 92.0;
  piece.length_mm = 80.0;
  piece.width_mm = 80.0;
  SectionOptions options;
  options.across = 8;
  options.along = 32;
  options.up = 8;
  options.minutes = {2.0};
  const Oven oven = oven_of(OvenKind::conventional, 473.15);
  const SectionRun alone = bake_section(piece, oven, {}, options);
  ThreadTeam team(2);
  options.team = &team;
  const SectionRun together = bake_section(piece, oven, {}, options);
  REQUIRE(alone.problem.empty());
  CHECK(alone.steps == together.steps);
  CHECK(alone.frames.back().temperature_k == together.frames.back().temperature_k);
  CHECK(alone.frames.back().water == together.frames.back().water);
  CHECK(together.mass_closure < 1e-11);
  CHECK(together.energy_closure < 1e-11);
}
