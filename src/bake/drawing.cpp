#include "bake/drawing.h"

#include <string_view>

#include "quantity/markup_text.h"
#include "quantity/number_text.h"

namespace maslin {
namespace {

constexpr std::string_view k_ink = "#2b2420";

std::string colour_text(const Rgb& c) {
  constexpr std::string_view k_digits = "0123456789abcdef";
  std::string out = "#";
  for (const unsigned part : {c.red, c.green, c.blue}) {
    out += k_digits[part / 16];
    out += k_digits[part % 16];
  }
  return out;
}

std::string path_text(const std::vector<Point>& points, bool closed) {
  std::string out;
  for (std::size_t i = 0; i < points.size(); ++i) {
    out += i == 0 ? "M" : "L";
    out += number_text(points[i].x, 1) + " " + number_text(points[i].y, 1);
  }
  return closed ? out + "Z" : out;
}

/// Areas of one colour that follow each other share a path; a hair of stroke closes the
/// seams between neighbours.
std::string areas_text(const std::vector<Area>& areas) {
  std::string out;
  for (std::size_t i = 0; i < areas.size();) {
    const std::string fill = colour_text(areas[i].fill);
    out.append("<path fill=\"").append(fill).append("\" stroke=\"").append(fill);
    out += "\" stroke-width=\"0.4\" d=\"";
    for (; i < areas.size() && colour_text(areas[i].fill) == fill; ++i) {
      out += path_text(areas[i].outline, true);
    }
    out += "\"/>\n";
  }
  return out;
}

std::string words_text(const Caption& words) {
  constexpr std::string_view k_anchors[] = {"start", "middle", "end"};
  std::string out = "<text x=\"" + number_text(words.at.x, 1) + "\" y=\"" +
                    number_text(words.at.y, 1) + "\" font-size=\"" + number_text(words.size, 1) +
                    "\" text-anchor=\"";
  out += k_anchors[static_cast<std::size_t>(words.anchor)];
  out += words.bold ? "\" font-weight=\"600\">" : "\">";
  return out + markup_escaped(words.text) + "</text>\n";
}

}  // namespace

std::string drawing_svg(const Drawing& drawing) {
  const std::string wide = number_text(drawing.width, 0), high = number_text(drawing.height, 0);
  std::string out = "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" width=\"" + wide +
                    "\" height=\"" + high + "\" viewBox=\"0 0 " + wide + " " + high + "\">\n";
  out += "<title>" + markup_escaped(drawing.title) + "</title>\n<desc>" +
         markup_escaped(drawing.description) +
         "</desc>\n<rect width=\"100%\" height=\"100%\" fill=\"#fffdf8\"/>\n";
  out += areas_text(drawing.areas);
  for (const Stroke& stroke : drawing.strokes) {
    out += "<path fill=\"none\" stroke=\"" + colour_text(stroke.colour) + "\" stroke-width=\"" +
           number_text(stroke.width, 1) + "\" d=\"" + path_text(stroke.points, false) + "\"/>\n";
  }
  out += "<g font-family=\"system-ui, sans-serif\" fill=\"";
  out += k_ink;
  out += "\">\n";
  for (const Caption& words : drawing.captions) {
    out += words_text(words);
  }
  return out + "</g>\n</svg>\n";
}

}  // namespace maslin
