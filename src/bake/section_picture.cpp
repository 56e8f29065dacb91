#include "bake/section_picture.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "numerics/real.h"
#include "quantity/number_text.h"

namespace maslin {
namespace {

constexpr double k_margin = 16.0;
constexpr double k_row_label = 96.0;
constexpr double k_panel_wide = 138.0;
constexpr double k_panel_high = 104.0;
constexpr double k_gap = 14.0;
constexpr double k_head = 92.0;
constexpr int k_shades = 40;  // steps of a scale: so that neighbours often share one
constexpr Rgb k_line{120, 108, 98};

struct Stop {
  double value;
  Rgb colour;
};

Rgb mixed(const Rgb& a, const Rgb& b, double share) {
  const auto part = [share](std::uint8_t from, std::uint8_t to) {
    return static_cast<std::uint8_t>(std::lround(from + share * (to - from)));
  };
  return {part(a.red, b.red), part(a.green, b.green), part(a.blue, b.blue)};
}

/// One row of the picture: what is drawn, between which values, in which colours.
struct Row {
  std::string name, unit;
  double low, high;
  std::vector<Stop> stops;  // by value, rising
  std::vector<double> ticks;
  int decimals;

  Rgb shade(double value) const {
    const double step = (high - low) / k_shades;
    const double held = std::clamp(value, low, high);
    const double v = low + (std::floor((held - low) / step * 0.999999) + 0.5) * step;
    for (std::size_t i = 1; i < stops.size(); ++i) {
      if (v <= stops[i].value) {
        const double span = stops[i].value - stops[i - 1].value;
        const double share = std::clamp((v - stops[i - 1].value) / span, 0.0, 1.0);
        return mixed(stops[i - 1].colour, stops[i].colour, share);
      }
    }
    return stops.back().colour;
  }
};

/// Own scales: each runs one way in lightness, so that it reads without colours too.
std::array<Row, 3> rows_of(const SectionRun& run) {
  double hottest = 373.15, wettest = 0.1;
  for (const SectionFrame& frame : run.frames) {
    hottest = std::max(hottest,
                       *std::max_element(frame.temperature_k.begin(), frame.temperature_k.end()));
    wettest = std::max(wettest, *std::max_element(frame.water.begin(), frame.water.end()));
  }
  const double top = std::max(hottest - 273.15, 120.0);
  return {Row{"temperature",
              "°C",
              20.0,
              top,
              {{20.0, {34, 40, 82}},
               {60.0, {112, 56, 112}},
               {80.0, {168, 70, 94}},
               {100.0, {220, 108, 66}},
               {0.5 * (100.0 + top), {242, 164, 84}},
               {top, {252, 226, 154}}},
              {20.0, 60.0, 100.0, top},
              0},
          Row{"water",
              "g per g dry",
              0.0,
              wettest,
              {{0.0, {240, 228, 204}}, {0.5 * wettest, {140, 174, 190}}, {wettest, {26, 80, 118}}},
              {0.0, 0.5 * wettest, wettest},
              2},
          Row{"colour",
              "L*",
              35.0,
              85.0,
              {{35.0, {98, 68, 46}},
               {50.0, {150, 104, 56}},
               {60.0, {180, 133, 76}},
               {70.0, {205, 162, 106}},
               {78.0, {223, 187, 140}},
               {85.0, {238, 212, 176}}},
              {35.0, 60.0, 85.0},
              0}};
}

double value_at(const SectionFrame& frame, std::size_t row, std::size_t cell) {
  return row == 0 ? frame.temperature_k[cell] - 273.15
                  : (row == 1 ? frame.water[cell] : frame.lightness[cell]);
}

/// One panel's place on the paper and its scale.
struct Panel {
  double middle, foot;  // px
  double wide_scale, high_scale;
};

/// Height of the piece at an edge between columns of cells, mm.
double edge_height_mm(const SectionRun& run, std::size_t edge) {
  const std::vector<double>& h = run.height_mm;
  if (edge == 0) {
    return h.front();
  }
  // The last edge goes on as the last two columns do.
  return edge < h.size() ? 0.5 * (h[edge - 1] + h[edge])
                         : std::max(1.5 * h.back() - 0.5 * h[h.size() - 2], 0.3 * h.back());
}

Point at(const SectionRun& run, const Panel& panel, double side, std::size_t edge, double share) {
  return {panel.middle + side * panel.wide_scale * run.x_mm[edge],
          panel.foot - panel.high_scale * share * edge_height_mm(run, edge)};
}

/// Cells of one shade next to each other in a layer, as one area.
void draw_cells(const SectionRun& run, const SectionFrame& frame, std::size_t what, const Row& row,
                const Panel& panel, Drawing& out) {
  const auto across = static_cast<std::size_t>(run.across);
  std::vector<Area> areas;
  for (std::size_t k = 0; k < static_cast<std::size_t>(run.up); ++k) {
    for (std::size_t first = 0; first < across;) {
      const Rgb fill = row.shade(value_at(frame, what, k * across + first));
      std::size_t end = first + 1;
      const auto same = [&fill](const Rgb& other) {
        return other.red == fill.red && other.green == fill.green && other.blue == fill.blue;
      };
      while (end < across && same(row.shade(value_at(frame, what, k * across + end)))) {
        ++end;
      }
      for (const double side : {-1.0, 1.0}) {
        Area area{{}, fill};
        for (std::size_t edge = first; edge <= end; ++edge) {
          area.outline.push_back(at(run, panel, side, edge, run.share_up[k]));
        }
        for (std::size_t edge = end + 1; edge-- > first;) {
          area.outline.push_back(at(run, panel, side, edge, run.share_up[k + 1]));
        }
        areas.push_back(std::move(area));
      }
      first = end;
    }
  }
  // One shade after another, so that each needs one path.
  const auto order = [](const Area& a, const Area& b) {
    const auto key = [](const Rgb& c) { return (c.red * 256 + c.green) * 256 + c.blue; };
    return key(a.fill) < key(b.fill);
  };
  std::stable_sort(areas.begin(), areas.end(), order);
  out.areas.insert(out.areas.end(), areas.begin(), areas.end());
}

void draw_scale(const Row& row, double x, double top, Drawing& out) {
  constexpr double k_wide = 10.0, k_high = 72.0;
  for (int i = 0; i < k_shades; ++i) {
    const double y0 = top + k_high * (1.0 - (i + 1.0) / k_shades);
    const double y1 = top + k_high * (1.0 - i / static_cast<double>(k_shades));
    out.areas.push_back({{{x, y0}, {x + k_wide, y0}, {x + k_wide, y1}, {x, y1}},
                         row.shade(row.low + (row.high - row.low) * (i + 0.5) / k_shades)});
  }
  for (const double tick : row.ticks) {
    const double y = top + k_high * (1.0 - (tick - row.low) / (row.high - row.low));
    out.captions.push_back({{x + k_wide + 4.0, y + 3.5}, number_text(tick, row.decimals), 10.0});
  }
}

void draw_outline(const SectionRun& run, const Panel& panel, Drawing& out) {
  const auto across = static_cast<std::size_t>(run.across);
  Stroke line{{}, k_line, 0.8};
  line.points.push_back(at(run, panel, -1.0, across, 0.0));
  for (std::size_t edge = across + 1; edge-- > 0;) {
    line.points.push_back(at(run, panel, -1.0, edge, 1.0));
  }
  for (std::size_t edge = 0; edge <= across; ++edge) {
    line.points.push_back(at(run, panel, 1.0, edge, 1.0));
  }
  line.points.push_back(at(run, panel, 1.0, across, 0.0));
  line.points.push_back(line.points.front());
  out.strokes.push_back(std::move(line));
}

/// How much wider and higher than at loading the piece stands in a frame.
std::pair<double, double> growth(const SectionRun& run, const SectionFrame& frame) {
  const double all = pow_same(frame.volume_ratio, 1.0 / 3.0);
  return run.round ? std::pair{all, all} : std::pair{1.0, frame.volume_ratio};
}

double px_per_mm(const SectionRun& run) {
  const auto [wide, high] = growth(run, run.frames.back());
  const double half = run.x_mm.back() * wide;
  const double height = *std::max_element(run.height_mm.begin(), run.height_mm.end()) * high;
  return std::min(0.5 * k_panel_wide / half, k_panel_high / height);
}

/// A bar of a round number of millimetres.
void draw_ruler(double scale, double x, double y, Drawing& out) {
  const double mm = 40.0 * scale <= k_panel_wide ? 20.0 : 10.0;
  out.strokes.push_back({{{x, y}, {x + mm * scale, y}}, k_line, 1.5});
  out.captions.push_back({{x + mm * scale + 6.0, y + 3.5}, number_text(mm, 0) + " mm", 10.0});
}

}  // namespace

Drawing section_picture(const SectionRun& run, const SectionWords& words) {
  Drawing out;
  if (run.frames.empty() || run.across < 2 || run.up < 1) {
    return out;
  }
  const std::array<Row, 3> rows = rows_of(run);
  const double scale = px_per_mm(run);
  const double row_high = k_panel_high + 2.0 * k_gap;
  const auto columns = static_cast<double>(run.frames.size());
  out.width = 2.0 * k_margin + k_row_label + columns * (k_panel_wide + k_gap);
  out.height = k_head + static_cast<double>(rows.size()) * row_high + 40.0;
  out.title = words.title + ": the inside through the bake";
  out.description = words.sentence;
  out.captions.push_back({{k_margin, 30.0}, words.title, 18.0, Anchor::start, true});
  out.captions.push_back({{k_margin, 50.0}, words.sentence, 12.0});
  for (std::size_t column = 0; column < run.frames.size(); ++column) {
    const SectionFrame& frame = run.frames[column];
    const double middle = k_margin + k_row_label +
                          static_cast<double>(column) * (k_panel_wide + k_gap) + 0.5 * k_panel_wide;
    out.captions.push_back(
        {{middle, 74.0}, number_text(frame.minutes, 0) + " min", 13.0, Anchor::middle, true});
    const std::string state = "core " + number_text(frame.core_k - 273.15, 0) + " °C, lost " +
                              number_text(std::max(frame.weight_loss_pct, 0.0), 0) + " %";
    out.captions.push_back({{middle, 89.0}, state, 10.5, Anchor::middle});
    out.description += " At " + number_text(frame.minutes, 0) + " min: " + state + ".";
    const auto [wide, high] = growth(run, frame);
    for (std::size_t row = 0; row < rows.size(); ++row) {
      const double foot = k_head + static_cast<double>(row + 1) * row_high - k_gap;
      const Panel panel{middle, foot, scale * wide, scale * high};
      draw_cells(run, frame, row, rows[row], panel, out);
      draw_outline(run, panel, out);
    }
  }
  for (std::size_t row = 0; row < rows.size(); ++row) {
    const double top = k_head + static_cast<double>(row) * row_high + k_gap;
    out.captions.push_back({{k_margin, top + 4.0}, rows[row].name, 12.0, Anchor::start, true});
    out.captions.push_back({{k_margin, top + 19.0}, rows[row].unit, 10.0});
    draw_scale(rows[row], k_margin, top + 30.0, out);
  }
  draw_ruler(scale, k_margin + k_row_label, out.height - 18.0, out);
  return out;
}

}  // namespace maslin
