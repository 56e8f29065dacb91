#include "app/rise_report.h"

#include <algorithm>
#include <cmath>

#include "quantity/column_text.h"
#include "quantity/number_text.h"

namespace maslin {
namespace {

constexpr std::size_t k_columns = 56;
constexpr std::size_t k_rows = 7;

/// The part of a trace that is drawn, column by column.
struct Window {
  double minutes = 0.0;  // to the right edge
  Band at(const BandTrace& trace, std::size_t column) const {
    const double minute =
        minutes * static_cast<double>(column) / static_cast<double>(k_columns - 1);
    const double at = minute / trace.step_minutes;
    const std::size_t last = trace.bands.size() - 1;
    const auto index = std::min(static_cast<std::size_t>(at), last);
    const Band& from = trace.bands[index];
    const Band& to = trace.bands[std::min(index + 1, last)];
    const double share = std::clamp(at - static_cast<double>(index), 0.0, 1.0);
    const auto between = [share](double a, double b) { return a + share * (b - a); };
    return {between(from.p10, to.p10), between(from.p50, to.p50), between(from.p90, to.p90)};
  }
};

/// Long enough for the slower draws, as far as the trace goes.
Window window_of(const ProveSummary& prove) {
  const double all =
      prove.volume_ratio.step_minutes * static_cast<double>(prove.volume_ratio.bands.size() - 1);
  const double wanted = std::isfinite(prove.minutes.p90) ? 1.15 * prove.minutes.p90 : all;
  return {std::clamp(wanted, std::min(30.0, all), all)};
}

std::string plot_row(const ProveSummary& prove, const Window& window, double low, double high) {
  std::string out;
  for (std::size_t column = 0; column < k_columns; ++column) {
    const Band band = window.at(prove.volume_ratio, column);
    const bool middle = band.p50 >= low && band.p50 < high;
    const bool inside = band.p90 >= low && band.p10 < high;
    const bool target = prove.target_ratio >= low && prove.target_ratio < high;
    out += middle ? "█" : inside ? "░" : target ? "┄" : " ";
  }
  return out;
}

/// Times under the columns, in hours once minutes no longer tell anything.
std::string time_axis(const Window& window) {
  const bool hours = window.minutes >= 240.0;
  const double last = hours ? window.minutes / 60.0 : window.minutes;
  const int places = hours && last < 20.0 ? 1 : 0;
  std::string out(k_columns + 8, ' ');
  constexpr std::size_t k_marks = 4;
  for (std::size_t i = 0; i <= k_marks; ++i) {
    const double share = static_cast<double>(i) / static_cast<double>(k_marks);
    std::string mark = number_text(last * share, places);
    mark += i < k_marks ? "" : hours ? " h" : " min";
    const auto at = static_cast<std::size_t>(share * static_cast<double>(k_columns - 1));
    out.replace(i == 0 ? 0 : at - mark.size() / 2, mark.size(), mark);
  }
  return out.substr(0, out.find_last_not_of(' ') + 1);
}

std::string celsius_axis(const ProveSummary& prove, const Window& window) {
  std::string out(k_columns, ' ');
  for (std::size_t column = 0; column + 2 <= k_columns; column += (k_columns - 2) / 6) {
    const std::string value =
        number_text(std::round(window.at(prove.dough_celsius, column).p50), 0);
    out.replace(column, value.size(), value);
  }
  return out;
}

std::string minutes_text(double minutes) {
  if (!std::isfinite(minutes)) {
    return "never";
  }
  return minutes < 120.0 ? number_text(std::round(minutes), 0) + " min"
                         : number_text(minutes / 60.0, 1) + " h";
}

std::string grams_text(double grams) {
  return number_text(grams, grams < 10.0 ? 1 : 0) + " g";
}

std::string what_if_line(const RiseWhatIf& one) {
  std::string out = padded(one.what, 40) + " " + padded(grams_text(one.yeast_grams), 8) +
                    padded(minutes_text(one.minutes.p50), 9) + " (" +
                    minutes_text(one.minutes.p10) + " to " + minutes_text(one.minutes.p90) + ")";
  if (one.same_time_yeast_grams) {
    out += "; as long as now with " + grams_text(*one.same_time_yeast_grams);
  } else if (one.room_celsius) {
    out += "; no dose keeps the time";
  }
  return out;
}

}  // namespace

std::vector<std::string> rise_plot(const ProveSummary& prove) {
  if (prove.volume_ratio.bands.size() < 2 || prove.volume_ratio.step_minutes <= 0.0) {
    return {};
  }
  const Window window = window_of(prove);
  const double top = std::max(1.0 + 1.3 * (prove.target_ratio - 1.0), 1.2);
  const double step = (top - 1.0) / static_cast<double>(k_rows - 1);
  std::vector<std::string> out;
  for (std::size_t row = k_rows; row-- > 0;) {
    const double middle = 1.0 + step * static_cast<double>(row);
    const double low = middle - 0.5 * step;
    // The top row holds all that has grown beyond it.
    const double high = row + 1 == k_rows ? 1e9 : middle + 0.5 * step;
    const bool target = prove.target_ratio >= low && prove.target_ratio < high;
    const std::string label = target                          ? number_text(prove.target_ratio, 1)
                              : row == 0 || row + 1 == k_rows ? number_text(middle, 1)
                                                              : "";
    out.push_back(right_aligned(label, 6) + " │" + plot_row(prove, window, low, high));
  }
  out.push_back("  times " + time_axis(window));
  if (!prove.dough_celsius.bands.empty()) {
    out.push_back("  dough " + celsius_axis(prove, window) + " °C");
  }
  return out;
}

std::vector<std::string> what_if_lines(const RiseWhatIfs& what_ifs) {
  if (!what_ifs.problem.empty()) {
    return {what_ifs.problem};
  }
  std::vector<std::string> out = {padded("", 40) + " " + padded("yeast", 8) + "all proves",
                                  what_if_line(what_ifs.as_it_is)};
  for (const RiseWhatIf& one : what_ifs.others) {
    out.push_back(what_if_line(one));
  }
  return out;
}

}  // namespace maslin
