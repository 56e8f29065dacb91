#include "print/sheet.h"

#include <cairo-pdf.h>
#include <pango/pangocairo.h>

#include <algorithm>

namespace maslin::print {
namespace {

constexpr const char* k_family = "DejaVu Sans";
/// What one paragraph may hold: found text can be anything.
constexpr std::size_t k_longest = 20'000;

cairo_status_t append(void* text, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(text)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

void take(cairo_t* cairo, Colour colour) {
  cairo_set_source_rgb(cairo, colour.red, colour.green, colour.blue);
}

void trace(cairo_t* cairo, const std::vector<Point>& points) {
  for (std::size_t i = 0; i < points.size(); ++i) {
    i == 0 ? cairo_move_to(cairo, points[i].x, points[i].y)
           : cairo_line_to(cairo, points[i].x, points[i].y);
  }
}

std::string plain(const std::string& text) {
  std::string out;
  for (const char c : text.substr(0, k_longest)) {
    out += static_cast<unsigned char>(c) < 0x20 ? ' ' : c;
  }
  gchar* valid = g_utf8_make_valid(out.data(), static_cast<gssize>(out.size()));
  std::string made(valid);
  g_free(valid);
  return made;
}

}  // namespace

struct Sheet::Lines {
  std::shared_ptr<PangoLayout> layout;
  Colour colour;
};

Sheet::Sheet(double width, double height)
    : width_(width),
      height_(height),
      context_(pango_font_map_create_context(pango_cairo_font_map_get_default()), g_object_unref) {
  // Paper has no pixels to fit to: the same breaks on every machine with the font.
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  pango_cairo_context_set_font_options(context_.get(), options);
  cairo_font_options_destroy(options);
  pango_cairo_context_set_resolution(context_.get(), 72.0);
}

Sheet::~Sheet() = default;

std::shared_ptr<const Sheet::Lines> Sheet::lines(const std::string& text, const Style& style,
                                                 double width) const {
  const std::shared_ptr<PangoLayout> layout(pango_layout_new(context_.get()), g_object_unref);
  const std::string made = plain(text);
  pango_layout_set_text(layout.get(), made.data(), static_cast<int>(made.size()));
  PangoFontDescription* font = pango_font_description_new();
  pango_font_description_set_family(font, k_family);
  pango_font_description_set_size(font, static_cast<int>(style.size * PANGO_SCALE));
  pango_font_description_set_weight(font, style.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_style(font, style.italic ? PANGO_STYLE_OBLIQUE : PANGO_STYLE_NORMAL);
  pango_layout_set_font_description(layout.get(), font);
  pango_font_description_free(font);
  pango_layout_set_width(layout.get(), static_cast<int>(std::max(width, 1.0) * PANGO_SCALE));
  pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
  return std::make_shared<const Lines>(Lines{layout, style.colour});
}

std::size_t Sheet::count(const Lines& lines) {
  return static_cast<std::size_t>(std::max(pango_layout_get_line_count(lines.layout.get()), 0));
}

namespace {

PangoRectangle extents(PangoLayout* layout, std::size_t line) {
  PangoRectangle logical{};
  PangoLayoutLine* one = pango_layout_get_line_readonly(layout, static_cast<int>(line));
  if (one != nullptr) {
    pango_layout_line_get_extents(one, nullptr, &logical);
  }
  return logical;
}

}  // namespace

double Sheet::line_height(const Lines& lines, std::size_t line) {
  constexpr double k_leading = 1.12;
  return k_leading * extents(lines.layout.get(), line).height / PANGO_SCALE;
}

double Sheet::line_width(const Lines& lines, std::size_t line) {
  return static_cast<double>(extents(lines.layout.get(), line).width) / PANGO_SCALE;
}

void Sheet::add(std::size_t page, Ink ink) {
  pages_.resize(std::max(pages_.size(), page + 1));
  pages_[page].push_back(std::move(ink));
}

void Sheet::draw(std::size_t page, const std::shared_ptr<const Lines>& lines, std::size_t line,
                 Point at) {
  add(page, [lines, line, at](cairo_t* cairo) {
    PangoLayout* layout = lines->layout.get();
    PangoLayoutLine* one = pango_layout_get_line_readonly(layout, static_cast<int>(line));
    if (one == nullptr) {
      return;
    }
    const PangoRectangle logical = extents(layout, line);
    take(cairo, lines->colour);
    // A line's own origin is its baseline.
    cairo_move_to(cairo, at.x, at.y - static_cast<double>(logical.y) / PANGO_SCALE);
    pango_cairo_show_layout_line(cairo, one);
  });
}

void Sheet::fill(std::size_t page, Box box, Colour colour) {
  add(page, [box, colour](cairo_t* cairo) {
    take(cairo, colour);
    cairo_rectangle(cairo, box.x, box.y, box.width, box.height);
    cairo_fill(cairo);
  });
}

void Sheet::polygon(std::size_t page, std::vector<Point> corners, Colour colour) {
  add(page, [held = std::move(corners), colour](cairo_t* cairo) {
    take(cairo, colour);
    trace(cairo, held);
    cairo_close_path(cairo);
    cairo_fill(cairo);
  });
}

void Sheet::stroke(std::size_t page, std::vector<Point> points, Colour colour, double line_width) {
  add(page, [held = std::move(points), colour, line_width](cairo_t* cairo) {
    take(cairo, colour);
    cairo_set_line_width(cairo, line_width);
    trace(cairo, held);
    cairo_stroke(cairo);
  });
}

namespace {

/// A half ellipse on the middle of the box's lower edge, `share` of its size.
void half_ellipse(cairo_t* cairo, Box box, double share) {
  constexpr double k_pi = 3.14159265358979323846;
  cairo_save(cairo);
  cairo_translate(cairo, box.x + box.width / 2.0, box.y + box.height);
  cairo_scale(cairo, share * box.width / 2.0, share * box.height);
  cairo_new_path(cairo);
  cairo_arc(cairo, 0.0, 0.0, 1.0, k_pi, 2.0 * k_pi);
  cairo_close_path(cairo);
  cairo_restore(cairo);
}

}  // namespace

void Sheet::dome(std::size_t page, Box box, std::vector<Colour> layers) {
  add(page, [box, held = std::move(layers)](cairo_t* cairo) {
    const std::size_t count = held.size();
    const auto share = [count](std::size_t i) {
      return static_cast<double>(i) / static_cast<double>(count);
    };
    // From the crust inwards down to where the base begins, then the base from below.
    const std::size_t base = count / 4;
    for (std::size_t i = count; i > base; --i) {
      half_ellipse(cairo, box, share(i));
      take(cairo, held[i - 1]);
      cairo_fill(cairo);
    }
    cairo_save(cairo);
    half_ellipse(cairo, box, 1.0);
    cairo_clip(cairo);
    for (std::size_t i = base; i-- > 0;) {
      // Only what the base has browned: the crumb is there already.
      const bool crust = held[i].green < held[base].green - 0.02;
      if (crust) {
        take(cairo, held[i]);
        cairo_rectangle(cairo, box.x, box.y + box.height * (1.0 - share(i + 1)), box.width,
                        box.height * share(1) + 0.3);
        cairo_fill(cairo);
      }
    }
    cairo_restore(cairo);
  });
}

std::string Sheet::pdf(const std::string& title) const {
  std::string out;
  cairo_surface_t* surface = cairo_pdf_surface_create_for_stream(append, &out, width_, height_);
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, plain(title).c_str());
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR, "maslin");
  cairo_t* cairo = cairo_create(surface);
  for (const std::vector<Ink>& page : pages_) {
    for (const Ink& ink : page) {
      ink(cairo);
    }
    cairo_show_page(cairo);
  }
  const bool good = cairo_status(cairo) == CAIRO_STATUS_SUCCESS;
  cairo_destroy(cairo);
  cairo_surface_finish(surface);
  const bool finished = cairo_surface_status(surface) == CAIRO_STATUS_SUCCESS;
  cairo_surface_destroy(surface);
  return good && finished ? out : std::string();
}

}  // namespace maslin::print
