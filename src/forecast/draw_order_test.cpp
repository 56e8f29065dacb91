#include "forecast/draw_order.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <set>

#include "numerics/lanes.h"

using namespace maslin;

namespace {

std::vector<Unknown> one_slow_unknown() {
  Unknown pace{"bake_pace", "", "", "", lognormal(1.0, 0.2), false, ""};
  pace.bake_log = -0.2;
  return {{"line/dough/0", "", "", "", normal(500.0, 20.0), false, ""}, pace};
}

double slowest_beside_fastest(const std::vector<std::uint32_t>& order, std::uint64_t seed) {
  double sum = 0.0;
  for (std::size_t batch = 0; batch < order.size() / k_lane_count; ++batch) {
    double low = 1.0, high = 0.0;
    for (const std::uint32_t i : draws_of(order, batch)) {
      const double u = draw(name_key("bake_pace"), seed, i);
      low = std::min(low, u);
      high = std::max(high, u);
    }
    sum += high - low;
  }
  return sum / static_cast<double>(order.size() / k_lane_count);
}

}  // namespace

TEST_CASE("draws that bake alike share a batch, and none is lost or doubled") {
  const std::vector<std::uint32_t> order = draw_order(one_slow_unknown(), 7, 1000);
  REQUIRE(order.size() == 1000);
  for (std::uint32_t from = 0; from + 256 <= 768; from += 256) {
    const std::set<std::uint32_t> block(order.begin() + from, order.begin() + from + 256);
    CHECK(block.size() == 256);
    CHECK(*block.begin() == from);
    CHECK(*block.rbegin() == from + 255);
  }
  for (std::uint32_t i = 768; i < 1000; ++i) {
    CHECK(order[i] == i);
  }
  const std::vector<std::uint32_t> whole(order.begin(), order.begin() + 768);
  CHECK(slowest_beside_fastest(whole, 7) < 0.05);
  CHECK(slowest_beside_fastest(draw_order({}, 7, 768), 7) > 0.5);
}

TEST_CASE("the first batch holds draws from the middle") {
  const std::vector<std::uint32_t> order = draw_order(one_slow_unknown(), 3, 256);
  for (const std::uint32_t i : draws_of(order, 0)) {
    CHECK(std::abs(draw(name_key("bake_pace"), 3, i) - 0.5) < 0.04);
  }
}

TEST_CASE("a forecast of more draws begins with the batches of one of fewer") {
  const std::vector<Unknown> unknowns = one_slow_unknown();
  for (const auto& [one, other] : std::vector<std::pair<std::uint32_t, std::uint32_t>>{
           {256, 1024}, {1024, 304}, {64, 256}, {64, 128}, {300, 400}, {512, 512}, {8, 16}}) {
    const auto a = draw_order(unknowns, 5, one);
    const auto b = draw_order(unknowns, 5, other);
    const std::size_t same = batches_in_common(one / k_lane_count, other / k_lane_count);
    CAPTURE(one);
    CAPTURE(other);
    for (std::size_t batch = 0; batch < same; ++batch) {
      CHECK(draws_of(a, batch) == draws_of(b, batch));
    }
  }
  CHECK(batches_in_common(32, 128) == 32);
  CHECK(batches_in_common(8, 16) == 8);
  CHECK(batches_in_common(8, 32) == 0);
  CHECK(batches_in_common(128, 38) == 32);
}
