// A sheet: pages of text and plain shapes that become a PDF. The one place that knows cairo and
// pango. Places are points (1/72 inch) from the upper left corner of a page.
#pragma once

#include <cstddef>
#include <functional>
#include <memory>
#include <string>
#include <utility>
#include <vector>

// cairo's and pango's own types by the names they have there, known to sheet.cpp alone.
// NOLINTBEGIN(bugprone-reserved-identifier)
struct _cairo;
struct _PangoContext;
// NOLINTEND(bugprone-reserved-identifier)

namespace maslin::print {

struct Colour {
  double red = 0.0;
  double green = 0.0;
  double blue = 0.0;
};

struct Style {
  double size = 10.0;  // points
  bool bold = false;
  bool italic = false;
  Colour colour;
};

struct Point {
  double x = 0.0;
  double y = 0.0;
};

struct Box {
  double x = 0.0;
  double y = 0.0;
  double width = 0.0;
  double height = 0.0;
};

class Sheet {
 public:
  Sheet(double width, double height);
  ~Sheet();
  Sheet(const Sheet&) = delete;
  Sheet& operator=(const Sheet&) = delete;

  double width() const { return width_; }
  double height() const { return height_; }

  /// A paragraph broken into lines of at most `width`.
  struct Lines;
  std::shared_ptr<const Lines> lines(const std::string& text, const Style& style,
                                     double width) const;
  static std::size_t count(const Lines& lines);
  static double line_height(const Lines& lines, std::size_t line);
  static double line_width(const Lines& lines, std::size_t line);

  /// Draws one line of a paragraph with its top at `at`. Pages are made as they are needed.
  void draw(std::size_t page, const std::shared_ptr<const Lines>& lines, std::size_t line,
            Point at);
  void fill(std::size_t page, Box box, Colour colour);
  void polygon(std::size_t page, std::vector<Point> corners, Colour colour);
  void stroke(std::size_t page, std::vector<Point> points, Colour colour, double line_width);
  /// A half ellipse standing on the box's lower edge, as the cut through a piece: colours from its
  /// base to its open surface, which goes all round.
  void dome(std::size_t page, Box box, std::vector<Colour> layers);

  std::size_t pages() const { return pages_.size(); }
  /// The document; empty when it cannot be made.
  std::string pdf(const std::string& title) const;

 private:
  using Ink = std::function<void(_cairo*)>;
  void add(std::size_t page, Ink ink);

  double width_;
  double height_;
  std::vector<std::vector<Ink>> pages_;
  std::shared_ptr<_PangoContext> context_;
};

}  // namespace maslin::print
