#include "numerics/register_lanes.h"

#include <doctest/doctest.h>

#include <type_traits>

#include "numerics/draws.h"

namespace maslin {
namespace {

// As of Lanes, in lanes_test.cpp.
static_assert(!std::is_trivially_copyable_v<WideLanes>);
static_assert(!std::is_trivially_copyable_v<WideLanes::MaskOf>);

/// Numbers of both signs and many sizes.
Lanes mixed(std::uint32_t first) {
  const Lanes u = draw_lanes(name_key("mixed"), 7, first);
  return (u - 0.5) * exp(30.0 * (u - 0.4));
}

template <typename Real>
void same_as_lanes() {
  for (std::uint32_t first = 0; first < 800; first += k_lane_count) {
    const Lanes a = mixed(first), b = mixed(first + 800);
    for (std::size_t part = 0; part < k_parts<Real>; ++part) {
      const PartOf<Real> of{part};
      const auto check = [&](const Real& ours, const Lanes& theirs) {
        for (std::size_t i = 0; i < Real::k_count; ++i) {
          CHECK(ours[i] == theirs[part * Real::k_count + i]);
        }
      };
      const Real x = of(a), y = of(b);
      check(x + y * x - y / x, a + b * a - b / a);
      check(-min(x, y), -min(a, b));
      check(max(x, 0.25), max(a, 0.25));
      check(clamp(x, -1.0, 1.0), clamp(a, -1.0, 1.0));
      check(select((x < y) | (y <= Real(0.0)), x, y), select((a < b) | (b <= Lanes(0.0)), a, b));
      check(select((!(x > y)) & (y >= Real(0.0)), x, y),
            select((!(a > b)) & (b >= Lanes(0.0)), a, b));
      check(sqrt(abs(x)), sqrt(abs(a)));
      check(exp(x), exp(a));
      check(log(x * x), log(a * a));
      Lanes back;
      of.put(back, x);
      check(x, back);
    }
  }
}

}  // namespace

TEST_CASE("Lanes of one vector give the bits of lanes in halves") {
  same_as_lanes<WideLanes>();
  same_as_lanes<NarrowLanes>();
}

TEST_CASE("Masks of one vector tell any and all") {
  const WideLanes one = 1.0;
  CHECK(all(one <= one));
  CHECK_FALSE(any(one < one));
}

}  // namespace maslin
