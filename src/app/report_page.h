// A page of the terminal: headings, rows with their labels in one column, and how figures are said.
#pragma once

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "app/report.h"
#include "forecast/ensemble.h"
#include "quantity/column_text.h"
#include "quantity/number_text.h"

namespace maslin {

/// What is printed, line by line, with or without colour.
class Page {
 public:
  explicit Page(Colour colour) : colour_(colour) {}

  void heading(const std::string& text) { out_ += "\n" + paint("1", text) + "\n"; }
  void line(const std::string& text) { out_ += text + "\n"; }
  void doubt(const std::string& text, const std::string& why) {
    out_ += "  " + paint("33", "? ") + (text.empty() ? "" : text + ": ") + why + "\n";
  }
  void quiet(const std::string& text) { out_ += paint("2", text) + "\n"; }
  /// "  label   words", labels to one column.
  void row(const std::string& label, const std::string& words) {
    out_ += "  " + padded(label, 22, 1) + words + "\n";
  }
  std::string take() { return std::move(out_); }

 private:
  std::string paint(const char* code, const std::string& text) const {
    return colour_ == Colour::yes ? "\x1b[" + std::string(code) + "m" + text + "\x1b[0m" : text;
  }
  Colour colour_;
  std::string out_;
};

inline std::string spaced(std::string name) {
  std::replace(name.begin(), name.end(), '_', ' ');
  return name;
}

/// Digits that the size of a number deserves.
inline std::string digits(double value) {
  const double size = std::fabs(value);
  return number_text(value, size >= 20 ? 0 : size >= 2 ? 1 : 2);
}

inline std::string band_text(const Band& band, const std::string& unit) {
  const std::string space = unit.empty() || unit == "%" ? "" : " ";
  const std::string low = digits(band.p10);
  const std::string middle = digits(band.p50);
  const std::string high = digits(band.p90);
  if (low == high) {
    return middle + space + unit;
  }
  return middle + space + unit + "  (" + low + " to " + high + ")";
}

inline std::string short_band(const Band& band) {
  const std::string low = digits(band.p10);
  const std::string high = digits(band.p90);
  return low == high ? low : low + " to " + high;
}

inline std::string percent(double share) {
  return std::to_string(std::lround(100.0 * share)) + " %";
}

inline std::string duration_text(double minutes) {
  constexpr double k_some_days = 72.0 * 60.0;
  if (!std::isfinite(minutes)) {
    return "never";
  }
  if (minutes >= k_some_days) {
    return number_text(minutes / 1440.0, 0) + " days";
  }
  const long whole = std::lround(minutes);
  if (whole < 100) {
    return std::to_string(whole) + " min";
  }
  const long hours = whole / 60;
  const long rest = (whole % 60 + 2) / 5 * 5;
  return rest == 60  ? std::to_string(hours + 1) + " h"
         : rest == 0 ? std::to_string(hours) + " h"
                     : std::to_string(hours) + " h " + std::to_string(rest);
}

inline std::string duration_band(const Band& band) {
  if (band.width() == 0.0) {
    return duration_text(band.p50);
  }
  return duration_text(band.p50) + "  (" + duration_text(band.p10) + " to " +
         duration_text(band.p90) + ")";
}
}  // namespace maslin
