#include "dough/tin_fill.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "dough/embedded_table.h"
#include "numerics/lanes.h"
#include "quantity/table.h"

namespace maslin {
namespace {

constexpr double k_floor_to_rim = 0.88;
constexpr double k_tube_to_diameter = 0.3;

double mean(const Lanes& x) {
  return sum(x) / static_cast<double>(k_lane_count);
}

double square(double x) {
  return x * x;
}

double rim_mm2(const Tin& tin) {
  if (tin.diameter_mm > 0.0) {
    const double hole = tin.kind == "ring" ? square(k_tube_to_diameter) : 0.0;
    return 0.25 * std::numbers::pi * square(tin.diameter_mm) * (1.0 - hole);
  }
  return tin.length_mm * tin.width_mm;
}

bool tapers(const Tin& tin) {
  return tin.kind == "loaf" || tin.kind == "muffin";
}

std::string_view kind_of_fill(const DoughState& state) {
  if (mean(state.protein_pct_flour) < 2.0) {
    return "gluten_free";
  }
  if (mean(state.protein_pct_flour) < 7.0) {
    return "rye";
  }
  if (mean(state.fibre_pct_flour) > 7.0) {
    return "wholemeal";
  }
  return mean(state.fat_pct_flour) > 15.0 ? "brioche" : "open_white";
}

}  // namespace

std::vector<FillRange> fill_ranges() {
  std::vector<FillRange> out;
  const Table table(dough_data::embedded_table("tin_fill.tsv"));
  for (std::size_t row = 0; row < table.size(); ++row) {
    out.push_back({std::string(table.cell(row, "kind")), table.number(row, "low"),
                   table.number(row, "high")});
  }
  return out;
}

double tin_floor_cm2(const Tin& tin) {
  return rim_mm2(tin) / 100.0 * (tapers(tin) ? square(k_floor_to_rim) : 1.0);
}

double tin_volume_ml(const Tin& tin) {
  const double rim_cm2 = rim_mm2(tin) / 100.0;
  const double floor_cm2 = tin_floor_cm2(tin);
  return tin.depth_mm / 10.0 / 3.0 * (rim_cm2 + floor_cm2 + std::sqrt(rim_cm2 * floor_cm2));
}

std::string_view fill_verdict_name(FillVerdict verdict) {
  switch (verdict) {
    case FillVerdict::unknown:
      return "unknown";
    case FillVerdict::too_little:
      return "too_little";
    case FillVerdict::right:
      return "right";
    case FillVerdict::too_much:
      return "too_much";
  }
  return "unknown";
}

TinFill fill_of(const std::vector<FillRange>& ranges, const Tin& tin, const DoughState& state,
                double dough_g) {
  TinFill out;
  out.tin_ml = tin_volume_ml(tin);
  const std::string_view kind = kind_of_fill(state);
  for (const FillRange& range : ranges) {
    if (range.kind == kind) {
      out.wanted = range;
    }
  }
  if (out.tin_ml <= 0.0 || out.wanted.high_g_per_ml <= 0.0) {
    return out;
  }
  out.dough_g_per_ml = dough_g / out.tin_ml;
  out.wanted_g = 0.5 * (out.wanted.low_g_per_ml + out.wanted.high_g_per_ml) * out.tin_ml;
  // A tenth beyond the range either way is still no fault: tins and tapers differ.
  if (out.dough_g_per_ml < 0.9 * out.wanted.low_g_per_ml) {
    out.verdict = FillVerdict::too_little;
  } else if (out.dough_g_per_ml > 1.1 * out.wanted.high_g_per_ml) {
    out.verdict = FillVerdict::too_much;
  } else {
    out.verdict = FillVerdict::right;
  }
  return out;
}

PieceLayout lay_pieces(const Tin& tin, const DoughState& state, double piece_g) {
  constexpr double k_side_per_ball = 1.28;
  PieceLayout out;
  const double ml = piece_g / std::max(mean(state.density_g_per_ml), 0.1);
  out.ball_mm = 10.0 * std::cbrt(6.0 * ml / std::numbers::pi);
  // No piece is smaller than a crumb; the count stays within an int.
  out.baked_side_mm = std::max(k_side_per_ball * out.ball_mm, 1.0);
  out.gap_to_touch_mm = out.baked_side_mm - out.ball_mm;
  if (tin.diameter_mm > 0.0) {
    out.touching_in_tray = static_cast<int>(
        std::lround(0.85 * 100.0 * tin_floor_cm2(tin) / square(out.baked_side_mm)));
  } else if (tin.length_mm > 0.0 && tin.width_mm > 0.0) {
    const auto along = std::lround(tin.length_mm / out.baked_side_mm);
    const auto across = std::lround(tin.width_mm / out.baked_side_mm);
    out.touching_in_tray = static_cast<int>(along * across);
  }
  return out;
}

}  // namespace maslin
