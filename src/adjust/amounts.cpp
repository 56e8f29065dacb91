#include "adjust/amounts.h"

#include <cmath>

namespace maslin {
void set_grams(Line& line, double from, double to, double unit_grams) {
  if (from > 0.0) {
    line.grams = line.grams.scaled(to / from);
  } else {
    line.grams = point(to);
  }
  if (unit_grams > 0.0 && line.found.number) {
    const double count = std::round(to / unit_grams);
    line.found.number = Range{count, count};
  } else {
    line.found = {Range{to, to}, "g", "", ""};
  }
  line.weighed = true;
}

void scale_line(Line& line, double factor) {
  line.grams = line.grams.scaled(factor);
  if (line.found.number) {
    line.found.number->low *= factor;
    line.found.number->high *= factor;
  }
}

}  // namespace maslin
