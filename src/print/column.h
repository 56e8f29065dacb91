// A column of running text down the pages of a sheet.
#pragma once

#include <string>

#include "print/sheet.h"

namespace maslin::print {

/// Where the next line goes.
struct Place {
  std::size_t page = 0;
  double y = 0.0;
};
/// The later of two on the way down.
Place later(const Place& a, const Place& b);

class Column {
 public:
  /// From x, `width` wide, between the margins at the top and the bottom of each page.
  Column(Sheet& sheet, double x, double width, double margin);

  Sheet& sheet() { return sheet_; }
  double x() const { return x_; }
  double width() const { return width_; }
  const Place& place() const { return place_; }
  void go_to(const Place& place) { place_ = place; }

  /// Empty room, not at the top of a page.
  void space(double points);
  /// A paragraph, `indent` from the left; a line that does not fit goes to the next page.
  void text(const std::string& words, const Style& style, double indent = 0.0);
  /// The paragraph with a mark in the room of its indent: a number, a bullet.
  void marked(const std::string& mark, const Style& mark_style, const std::string& words,
              const Style& style, double indent);
  /// The words, and at the right edge of their first line other words.
  void ends(const std::string& words, const Style& style, const std::string& right,
            const Style& right_style);
  /// A box of that height for a picture, whole on one page; the column goes on below it.
  struct Room {
    std::size_t page = 0;
    Box box;
  };
  Room room(double height);
  /// Goes to the next page unless that much fits: a heading stays with what it heads.
  void keep(double height);

 private:
  Sheet& sheet_;
  double x_;
  double width_;
  double margin_;
  Place place_;
};

}  // namespace maslin::print
