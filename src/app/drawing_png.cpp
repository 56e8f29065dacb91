#include "app/drawing_png.h"

#ifdef MASLIN_CAIRO
#include <cairo.h>
#endif

namespace maslin {

#ifdef MASLIN_CAIRO
namespace {

constexpr double k_pixels = 2.0;  // of the picture for one of the drawing's

/// What cairo hands out, given back when it goes.
struct Canvas {
  cairo_surface_t* surface;
  cairo_t* pen;
  Canvas(int wide, int high)
      : surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, wide, high)),
        pen(cairo_create(surface)) {}
  ~Canvas() {
    cairo_destroy(pen);
    cairo_surface_destroy(surface);
  }
  Canvas(const Canvas&) = delete;
  Canvas& operator=(const Canvas&) = delete;
};

void colour(cairo_t* pen, const Rgb& c) {
  cairo_set_source_rgb(pen, c.red / 255.0, c.green / 255.0, c.blue / 255.0);
}

void trace(cairo_t* pen, const std::vector<Point>& points) {
  cairo_new_path(pen);
  for (const Point& point : points) {
    cairo_line_to(pen, point.x, point.y);
  }
}

void write_words(cairo_t* pen, const Caption& words) {
  cairo_select_font_face(pen, "sans-serif", CAIRO_FONT_SLANT_NORMAL,
                         words.bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
  cairo_set_font_size(pen, words.size);
  cairo_text_extents_t size;
  cairo_text_extents(pen, words.text.c_str(), &size);
  const double share =
      words.anchor == Anchor::start ? 0.0 : (words.anchor == Anchor::middle ? 0.5 : 1.0);
  cairo_move_to(pen, words.at.x - share * size.x_advance, words.at.y);
  cairo_show_text(pen, words.text.c_str());
}

cairo_status_t take(void* to, const unsigned char* bytes, unsigned count) {
  static_cast<std::string*>(to)->append(bytes, bytes + count);
  return CAIRO_STATUS_SUCCESS;
}

}  // namespace

Result<std::string> drawing_png(const Drawing& drawing) {
  const Canvas canvas(static_cast<int>(k_pixels * drawing.width),
                      static_cast<int>(k_pixels * drawing.height));
  cairo_scale(canvas.pen, k_pixels, k_pixels);
  colour(canvas.pen, {255, 253, 248});
  cairo_paint(canvas.pen);
  cairo_set_line_width(canvas.pen, 0.4);
  for (const Area& area : drawing.areas) {
    colour(canvas.pen, area.fill);
    trace(canvas.pen, area.outline);
    cairo_close_path(canvas.pen);
    cairo_fill_preserve(canvas.pen);
    cairo_stroke(canvas.pen);  // closes the seams between neighbours
  }
  for (const Stroke& stroke : drawing.strokes) {
    colour(canvas.pen, stroke.colour);
    cairo_set_line_width(canvas.pen, stroke.width);
    trace(canvas.pen, stroke.points);
    cairo_stroke(canvas.pen);
  }
  colour(canvas.pen, {43, 36, 32});
  for (const Caption& words : drawing.captions) {
    write_words(canvas.pen, words);
  }
  std::string bytes;
  if (cairo_surface_write_to_png_stream(canvas.surface, take, &bytes) != CAIRO_STATUS_SUCCESS) {
    return {std::nullopt, "The picture could not be made into a PNG: name it .svg instead."};
  }
  return {std::move(bytes), ""};
}
#else
Result<std::string> drawing_png(const Drawing&) {
  return {std::nullopt,
          "This program was built without cairo, which makes PNG: name the picture .svg instead."};
}
#endif

}  // namespace maslin
