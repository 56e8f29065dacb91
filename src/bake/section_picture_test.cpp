#include "bake/section_picture.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "bake/one_lane.h"

using namespace maslin;

namespace {

SectionRun baked(PieceShape shape) {
  Piece piece;
  piece.shape = shape;
  piece.mass_g = 80.0;
  SectionOptions options;
  options.minutes = {0.0, 8.0, 16.0};
  return bake_section(piece, oven_of(OvenKind::conventional, 463.15), {}, options);
}

}  // namespace

TEST_CASE("A cut's picture lies on its paper and names every look") {
  for (const PieceShape shape : {PieceShape::bun, PieceShape::cluster}) {
    const Drawing drawing = section_picture(baked(shape), {"Buns", "One of them."});
    CHECK(drawing.width > 400.0);
    for (const Area& area : drawing.areas) {
      for (const Point& point : area.outline) {
        REQUIRE(std::isfinite(point.x));
        REQUIRE(point.x >= 0.0);
        REQUIRE(point.x <= drawing.width);
        REQUIRE(point.y >= 0.0);
        REQUIRE(point.y <= drawing.height);
      }
    }
    for (const char* text : {"0 min", "8 min", "16 min", "temperature", "water", "colour"}) {
      CAPTURE(text);
      CHECK(std::any_of(drawing.captions.begin(), drawing.captions.end(),
                        [&](const Caption& one) { return one.text == text; }));
    }
  }
}

TEST_CASE("The inside of the picture covers the cut") {
  // A block's panel is a rectangle: its areas add up to that of its outline, in each row.
  const SectionRun run = baked(PieceShape::cluster);
  const Drawing drawing = section_picture(run, {"Buns", "One."});
  const auto area_of = [](const std::vector<Point>& p) {
    double twice = 0.0;
    for (std::size_t i = 0; i < p.size(); ++i) {
      const Point& a = p[i];
      const Point& b = p[(i + 1) % p.size()];
      twice += a.x * b.y - b.x * a.y;
    }
    return std::fabs(0.5 * twice);
  };
  double cells = 0.0, outlines = 0.0;
  for (const Area& area : drawing.areas) {
    cells += area_of(area.outline);
  }
  const double scales = 3.0 * 10.0 * 72.0;
  for (const Stroke& stroke : drawing.strokes) {
    outlines += stroke.points.size() > 2 ? area_of(stroke.points) : 0.0;
  }
  CHECK(cells - scales == doctest::Approx(outlines).epsilon(1e-3));
}

TEST_CASE("Words in a picture stay words") {
  const std::string svg = drawing_svg(
      section_picture(baked(PieceShape::bun), {"<script>x</script> & \"co\"\x01", "A."}));
  CHECK(svg.find("<script") == std::string::npos);
  CHECK(svg.find("&lt;script&gt;x&lt;/script&gt; &amp; &quot;co&quot;<") != std::string::npos);
  CHECK(svg.rfind("</svg>\n") == svg.size() - 7);
}

TEST_CASE("A run that came to nothing draws nothing") {
  CHECK(section_picture({}, {"Buns", "None."}).areas.empty());
}

TEST_CASE("One lane of eight, taken for itself, bakes as it did among them") {
  Piece piece;
  BakeUnknowns unknowns;
  for (std::size_t i = 0; i < k_lane_count; ++i) {
    piece.mass_g.set(i, 50.0 + 5.0 * static_cast<double>(i));
    unknowns.oven_offset_k.set(i, 3.0 * static_cast<double>(i));
  }
  const Oven oven = oven_of(OvenKind::conventional, 463.15);
  const BakeRun all = bake_piece(piece, oven, {}, unknowns);
  const BakeRun one = bake_piece(one_lane(piece, 5), one_lane(oven, 5), {}, one_lane(unknowns, 5));
  // Their steps differ, their answer hardly.
  CHECK(one.minutes_to_done[0] == doctest::Approx(all.minutes_to_done[5]).epsilon(0.005));
  CHECK(one.minutes_to_done[7] == one.minutes_to_done[0]);
}
