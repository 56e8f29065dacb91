#include "handon/label_rounding.h"

#include <algorithm>
#include <cmath>

#include "quantity/number_text.h"
#include "quantity/table.h"

namespace maslin::handon {
namespace {

/// Below this share of a step a figure is a half that arithmetic left a hair short.
constexpr double k_hair = 1e-9;

/// To the nearest step, halves up; with the decimals of the step.
std::string to_step(double value, double step) {
  constexpr int k_most_decimals = 9;
  int decimals = 0;
  for (double s = step; s < 1.0 - k_hair && decimals < k_most_decimals; s *= 10.0) {
    ++decimals;
  }
  return number_text(std::floor(value / step + 0.5 + k_hair) * step, decimals);
}

std::string three_digits(double value) {
  constexpr int k_digits = 3;
  if (!(value > 0.0)) {
    return "0";
  }
  int decimals = k_digits - 1;
  for (double v = value; v >= 10.0; v /= 10.0) {
    --decimals;
  }
  for (double v = value; v < 1.0 && decimals < 6; v *= 10.0) {
    ++decimals;
  }
  return decimals >= 0 ? number_text(value, decimals)
                       : to_step(value, std::pow(10.0, -static_cast<double>(decimals)));
}

/// The row that rules the value; null when none does.
const RoundingRow* row_for(const std::vector<RoundingRow>& rows, double value) {
  for (const RoundingRow& row : rows) {
    if (!row.upper || value < *row.upper || (row.upper_included && value <= *row.upper)) {
      return &row;
    }
  }
  return nullptr;
}

/// What the tolerance allows about a declared figure.
double allowed_about(const std::string& tolerance, double figure) {
  constexpr double k_percent = 100.0;
  for (const std::string_view band : split(tolerance, ' ')) {
    const std::size_t colon = band.find(':');
    const auto upper = number_from(band.substr(0, colon));
    std::string_view amount = band.substr(colon + 1);
    if (upper && figure >= *upper) {
      continue;
    }
    if (amount.ends_with('%')) {
      amount.remove_suffix(1);
      return figure * number_from(amount).value_or(0.0) / k_percent;
    }
    return number_from(amount).value_or(0.0);
  }
  return 0.0;
}

}  // namespace

std::string declared_by(const std::vector<RoundingRow>& rows, double value) {
  const RoundingRow* row = row_for(rows, value);
  return row == nullptr    ? three_digits(value)
         : row->as.empty() ? to_step(value, row->step)
                           : row->as;
}

std::string at_least_by(const std::vector<RoundingRow>& rows, double value) {
  const RoundingRow* row = row_for(rows, value);
  if (row == nullptr || !row->as.empty() || value < row->step) {
    return "";
  }
  return to_step(std::floor(value / row->step + k_hair) * row->step, row->step);
}

double figure_of(const std::string& declared) {
  const std::size_t digit = declared.find_first_of("0123456789");
  return digit == std::string::npos ? 0.0 : number_from(declared.substr(digit)).value_or(0.0);
}

bool within_tolerance(const std::string& tolerance, const std::string& declared, double value) {
  if (tolerance.empty()) {
    return true;
  }
  const double figure = figure_of(declared);
  const bool bounds = !declared.empty() && (declared.front() == '<' || declared.front() == 'l');
  const double allowed = allowed_about(tolerance, figure);
  return value <= figure + allowed && (bounds || value >= figure - allowed);
}

}  // namespace maslin::handon
