#include "print/card_pictures.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "quantity/number_text.h"

namespace maslin::print {
namespace {

constexpr Colour k_ink{0.13, 0.11, 0.09};
constexpr Colour k_quiet{0.42, 0.38, 0.34};
constexpr Colour k_band{0.93, 0.80, 0.58};
constexpr Colour k_middle{0.62, 0.34, 0.08};
constexpr Colour k_grid{0.86, 0.84, 0.81};
const Style k_small{7.5, false, false, k_quiet};

void label(Sheet& sheet, std::size_t page, const std::string& words, Point at, double width) {
  const auto lines = sheet.lines(words, k_small, width);
  double y = at.y;
  for (std::size_t i = 0; i < Sheet::count(*lines); ++i) {
    sheet.draw(page, lines, i, {at.x, y});
    y += Sheet::line_height(*lines, i);
  }
}

Colour between(Colour a, Colour b, double share) {
  return {a.red + (b.red - a.red) * share, a.green + (b.green - a.green) * share,
          a.blue + (b.blue - a.blue) * share};
}

/// Layers of the dome from the base up: the colour at each depth of the profile.
std::vector<Colour> layers_of(const BakeProfile& profile) {
  constexpr std::size_t k_layers = 48;
  std::vector<Colour> out;
  const std::vector<double>& depth = profile.depth_mm;
  if (depth.size() < 2 || profile.lightness.size() != depth.size()) {
    return out;
  }
  std::size_t at = 0;
  for (std::size_t i = 0; i < k_layers; ++i) {
    const double share = (static_cast<double>(i) + 0.5) / k_layers;
    const double wanted = depth.front() + (depth.back() - depth.front()) * share;
    while (at + 2 < depth.size() && depth[at + 1] < wanted) {
      ++at;
    }
    const double span = std::max(depth[at + 1] - depth[at], 1e-9);
    const double along = std::clamp((wanted - depth[at]) / span, 0.0, 1.0);
    out.push_back(crust_colour(profile.lightness[at] +
                               (profile.lightness[at + 1] - profile.lightness[at]) * along));
  }
  return out;
}

/// The coldest place of the inside, °C.
double core_celsius(const BakeProfile& profile) {
  constexpr double k_zero_celsius_k = 273.15;
  const auto coldest = std::min_element(profile.temperature_k.begin(), profile.temperature_k.end());
  return coldest == profile.temperature_k.end() ? 0.0 : *coldest - k_zero_celsius_k;
}

/// The cut nearest that minute.
std::size_t cut_at(const BakeSummary& bake, double minute) {
  std::size_t best = 0;
  for (std::size_t i = 0; i < bake.cut_minutes.size(); ++i) {
    if (std::fabs(bake.cut_minutes[i] - minute) < std::fabs(bake.cut_minutes[best] - minute)) {
      best = i;
    }
  }
  return best;
}

}  // namespace

Colour crust_colour(double lightness) {
  struct Stop {
    double lightness;
    Colour colour;
  };
  // From raw dough to charcoal, as crusts look on a plate: common practice, no source.
  constexpr std::array<Stop, 5> k_stops{{{20.0, {0.22, 0.13, 0.08}},
                                         {40.0, {0.50, 0.27, 0.10}},
                                         {55.0, {0.74, 0.46, 0.18}},
                                         {70.0, {0.91, 0.73, 0.44}},
                                         {85.0, {0.98, 0.94, 0.83}}}};
  for (std::size_t i = 0; i + 1 < k_stops.size(); ++i) {
    if (lightness < k_stops[i + 1].lightness) {
      const double share =
          (lightness - k_stops[i].lightness) / (k_stops[i + 1].lightness - k_stops[i].lightness);
      return between(k_stops[i].colour, k_stops[i + 1].colour, std::clamp(share, 0.0, 1.0));
    }
  }
  return k_stops.back().colour;
}

void draw_day(Column& column, const std::vector<handon::CardTime>& times) {
  constexpr double k_height = 44.0;
  constexpr double k_bar = 9.0;
  constexpr double k_least = 0.12;  // of the width: room for words
  double total = 0.0;
  for (const handon::CardTime& time : times) {
    total += std::max(time.minutes.p50, 1.0);
  }
  std::vector<double> shares;
  double sum = 0.0;
  for (const handon::CardTime& time : times) {
    shares.push_back(std::max(std::max(time.minutes.p50, 1.0) / total, k_least));
    sum += shares.back();
  }
  const Column::Room room = column.room(k_height);
  double x = room.box.x;
  for (std::size_t i = 0; i < times.size(); ++i) {
    const double width = room.box.width * shares[i] / sum;
    const bool last = i + 1 == times.size();
    column.sheet().fill(room.page, {x, room.box.y, width - 2.0, k_bar}, last ? k_middle : k_band);
    label(column.sheet(), room.page, times[i].name, {x, room.box.y + k_bar + 3.0}, width - 4.0);
    const auto name = column.sheet().lines(times[i].name, k_small, width - 4.0);
    double below = room.box.y + k_bar + 3.0;
    for (std::size_t line = 0; line < Sheet::count(*name); ++line) {
      below += Sheet::line_height(*name, line);
    }
    const Style strong{7.5, true, false, k_ink};
    column.sheet().draw(room.page, column.sheet().lines(times[i].words, strong, width - 4.0), 0,
                        {x, below});
    x += width;
  }
}

void draw_rise(Sheet& sheet, std::size_t page, Box box, const ProveSummary& prove) {
  const std::vector<Band>& bands = prove.volume_ratio.bands;
  if (bands.size() < 2 || !(prove.volume_ratio.step_minutes > 0.0)) {
    return;
  }
  constexpr double k_foot = 22.0;  // for the words below
  constexpr double k_left = 18.0;
  const Box field{box.x + k_left, box.y, box.width - k_left, box.height - k_foot};
  // As far as it is of use: half as long again as the target takes at the slowest.
  const double wanted = std::isfinite(prove.minutes.p90) ? 1.25 * prove.minutes.p90 : 1e9;
  const auto count = std::clamp(
      static_cast<std::size_t>(std::ceil(std::min(wanted / prove.volume_ratio.step_minutes, 1e6))),
      std::size_t{2}, bands.size());
  double top = prove.target_ratio;
  for (std::size_t i = 0; i < count; ++i) {
    top = std::max(top, bands[i].p90);
  }
  const auto x = [&](std::size_t i) {
    return field.x + field.width * static_cast<double>(i) / static_cast<double>(count - 1);
  };
  const auto y = [&](double ratio) {
    return field.y + field.height * (1.0 - (ratio - 1.0) / std::max(top - 1.0, 0.1));
  };
  std::vector<Point> band;
  std::vector<Point> middle;
  for (std::size_t i = 0; i < count; ++i) {
    band.push_back({x(i), y(bands[i].p90)});
    middle.push_back({x(i), y(bands[i].p50)});
  }
  for (std::size_t i = count; i-- > 0;) {
    band.push_back({x(i), y(bands[i].p10)});
  }
  sheet.polygon(page, std::move(band), k_band);
  for (double ratio = 1.0; ratio <= top + 1e-9; ratio += 1.0) {
    sheet.stroke(page, {{field.x, y(ratio)}, {field.x + field.width, y(ratio)}}, k_grid, 0.5);
    label(sheet, page, "×" + number_text(ratio, 0), {box.x, y(ratio) - 5.0}, k_left);
  }
  sheet.stroke(page, std::move(middle), k_middle, 1.4);
  const double minutes = prove.volume_ratio.step_minutes * static_cast<double>(count - 1);
  label(sheet, page, "0", {field.x, field.y + field.height + 2.0}, 30.0);
  const std::string end = number_text(minutes, 0) + " min";
  const auto lines = sheet.lines(end, k_small, 60.0);
  sheet.draw(page, lines, 0,
             {field.x + field.width - Sheet::line_width(*lines, 0), field.y + field.height + 2.0});
}

void draw_cuts(Sheet& sheet, std::size_t page, Box box, const BakeSummary& bake,
               const handon::CardWords& words) {
  if (bake.cuts.empty() || bake.cuts.size() != bake.cut_minutes.size()) {
    return;
  }
  constexpr double k_foot = 22.0;
  constexpr std::size_t k_cuts = 3;
  const double done = std::isfinite(bake.minutes.p50) ? bake.minutes.p50 : bake.cut_minutes.back();
  const double each = box.width / k_cuts;
  double tallest = 1.0;
  for (const BakeProfile& one : bake.cuts) {
    tallest = std::max(tallest, one.depth_mm.empty() ? 1.0 : one.depth_mm.back());
  }
  for (std::size_t i = 0; i < k_cuts; ++i) {
    const std::size_t at = cut_at(bake, done * static_cast<double>(i) / (k_cuts - 1));
    const BakeProfile& profile = bake.cuts[at];
    const double height_mm = profile.depth_mm.empty() ? 1.0 : profile.depth_mm.back();
    const double field = box.height - k_foot;
    // About as wide as a bun for its height.
    constexpr double k_width = 2.0;
    const double width = std::min(each - 12.0, field * k_width);
    const double height = width / k_width * height_mm / tallest;
    const Box dome{box.x + each * static_cast<double>(i) + (each - 12.0 - width) / 2.0,
                   box.y + field - height, width, height};
    sheet.dome(page, dome, layers_of(profile));
    label(sheet, page,
          number_text(bake.cut_minutes[at], 0) + " " + words.say("unit_min") + ", " +
              words.degrees(core_celsius(profile)),
          {dome.x, box.y + field + 2.0}, each);
  }
}

}  // namespace maslin::print
