#include "print/column.h"

#include <algorithm>

namespace maslin::print {

Place later(const Place& a, const Place& b) {
  if (a.page != b.page) {
    return a.page > b.page ? a : b;
  }
  return a.y > b.y ? a : b;
}

Column::Column(Sheet& sheet, double x, double width, double margin)
    : sheet_(sheet), x_(x), width_(width), margin_(margin), place_{0, margin} {}

void Column::space(double points) {
  if (place_.y > margin_) {
    place_.y += points;
  }
}

void Column::keep(double height) {
  if (place_.y > margin_ && place_.y + height > sheet_.height() - margin_) {
    place_ = {place_.page + 1, margin_};
  }
}

void Column::text(const std::string& words, const Style& style, double indent) {
  const auto lines = sheet_.lines(words, style, width_ - indent);
  for (std::size_t i = 0; i < Sheet::count(*lines); ++i) {
    const double height = Sheet::line_height(*lines, i);
    keep(height);
    sheet_.draw(place_.page, lines, i, {x_ + indent, place_.y});
    place_.y += height;
  }
}

void Column::marked(const std::string& mark, const Style& mark_style, const std::string& words,
                    const Style& style, double indent) {
  const auto lines = sheet_.lines(mark, mark_style, indent * 4.0);
  const auto first = sheet_.lines(words, style, width_ - indent);
  keep(Sheet::line_height(*first, 0));
  sheet_.draw(place_.page, lines, 0, {x_, place_.y});
  text(words, style, indent);
}

void Column::ends(const std::string& words, const Style& style, const std::string& right,
                  const Style& right_style) {
  constexpr double k_gap = 8.0;
  const auto end = sheet_.lines(right, right_style, width_);
  const double end_width = right.empty() ? 0.0 : Sheet::line_width(*end, 0);
  const auto lines = sheet_.lines(words, style, width_ - end_width - k_gap);
  keep(Sheet::line_height(*lines, 0));
  if (!right.empty()) {
    sheet_.draw(place_.page, end, 0, {x_ + width_ - end_width, place_.y});
  }
  for (std::size_t i = 0; i < Sheet::count(*lines); ++i) {
    const double height = Sheet::line_height(*lines, i);
    keep(height);
    sheet_.draw(place_.page, lines, i, {x_, place_.y});
    place_.y += height;
  }
}

Column::Room Column::room(double height) {
  keep(height);
  const Room out{place_.page, {x_, place_.y, width_, height}};
  place_.y += height;
  return out;
}

}  // namespace maslin::print
