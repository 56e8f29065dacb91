// Lightness of a colour against published conversions.
// Marks: "read" where the source was read, "computed" where the figure follows from a formula.
#include "quantity/colour.h"

#include <doctest/doctest.h>

#include <cmath>

#include "numerics/lanes.h"
#include "support/book.h"

using namespace maslin;

namespace {

constexpr double k_most = 255.0;

double lightness(double red, double green, double blue) {
  return cielab_lightness(relative_luminance({red, green, blue}));
}

}  // namespace

TEST_CASE("lightness of a share of white's light") {
  const char* source = "MathWorks documentation of xyz2lab and lab2xyz, read";
  // Their examples: XYZ (0.25, 0.40, 0.10) is L* 69.4695; Lab (50, 10, -5) is Y 0.1842.
  book::against({"colour", "lightness of 0.40 of white's light", "L*", source},
                cielab_lightness(0.40), book::near(69.4695, 0.0001));
  book::against({"colour", "lightness of 0.1842 of white's light", "L*", source},
                cielab_lightness(0.1842), book::near(50.0, 0.01));
  CHECK(cielab_lightness(0.0) == 0.0);
  CHECK(cielab_lightness(1.0) == doctest::Approx(100.0));
  // The straight and the curved piece meet at (6/29)^3, where both give 8.
  CHECK(cielab_lightness(0.008856) == doctest::Approx(8.0).epsilon(1e-4));
  CHECK(cielab_lightness(0.008857) == doctest::Approx(8.0).epsilon(1e-4));
}

TEST_CASE("lightness of a colour on a screen") {
  const char* source = "MathWorks documentation of lab2rgb and rgb2lab, read";
  // Lab (70, 5, 10) is sRGB (0.7359, 0.6566, 0.6010), or 188, 167, 153 in whole steps.
  book::against({"colour", "lightness of sRGB 0.7359, 0.6566, 0.6010", "L*", source},
                lightness(0.7359, 0.6566, 0.6010), book::near(70.0, 0.01));
  book::against({"colour", "lightness of sRGB 188, 167, 153", "L*", source},
                lightness(188 / k_most, 167 / k_most, 153 / k_most), book::near(70.0, 0.2));
  book::against({"colour", "lightness of white", "L*", source}, lightness(1.0, 1.0, 1.0),
                book::near(100.0, 1e-4));
  const char* known = "corners of sRGB in CIELAB under D65, from memory";
  book::against({"colour", "lightness of pure red", "L*", known, book::Mark::memory},
                lightness(1.0, 0.0, 0.0), book::near(53.24, 0.01));
  book::against({"colour", "lightness of pure green", "L*", known, book::Mark::memory},
                lightness(0.0, 1.0, 0.0), book::near(87.73, 0.01));
  book::against({"colour", "lightness of pure blue", "L*", known, book::Mark::memory},
                lightness(0.0, 0.0, 1.0), book::near(32.30, 0.01));
}

TEST_CASE("a colour written in hexadecimal") {
  const auto brown = srgb_from_hex("a0622d");
  REQUIRE(brown);
  CHECK(brown->red == doctest::Approx(160 / k_most));
  CHECK(brown->green == doctest::Approx(98 / k_most));
  CHECK(brown->blue == doctest::Approx(45 / k_most));
  CHECK(srgb_from_hex("F80")->green == doctest::Approx(136 / k_most));
  CHECK_FALSE(srgb_from_hex("a0622"));
  CHECK_FALSE(srgb_from_hex("bakery"));
  CHECK_FALSE(srgb_from_hex(""));
}
