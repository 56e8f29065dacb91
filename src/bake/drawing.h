// A drawing as a list of shapes and words, and its text as SVG.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace maslin {

struct Rgb {
  std::uint8_t red = 0, green = 0, blue = 0;
};

struct Point {
  double x = 0.0, y = 0.0;  // px, y downward
};

/// A closed area of one colour.
struct Area {
  std::vector<Point> outline;
  Rgb fill;
};

/// An open or closed line.
struct Stroke {
  std::vector<Point> points;
  Rgb colour;
  double width = 1.0;
};

enum class Anchor : std::uint8_t { start, middle, end };

struct Caption {
  Point at;  // on the base line
  std::string text;
  double size = 12.0;  // px
  Anchor anchor = Anchor::start;
  bool bold = false;
};

/// Painted in the order areas, strokes, captions.
struct Drawing {
  double width = 0.0, height = 0.0;  // px
  std::string title;                 // what it shows, for those who hear it read
  std::string description;
  std::vector<Area> areas;
  std::vector<Stroke> strokes;
  std::vector<Caption> captions;
};

/// The drawing as a whole SVG document in UTF-8; text is escaped, control characters left
/// out, so that a title from a found recipe stays text.
std::string drawing_svg(const Drawing& drawing);

}  // namespace maslin
