// Baking times of published recipes: tests/published/bake_times.tsv.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>
#include <map>
#include <string>
#include <vector>

#include "bake/bake.h"
#include "numerics/draws.h"
#include "published/bake_dough.h"
#include "quantity/table.h"

using namespace maslin;

namespace {

constexpr double k_celsius = 273.15;
/// Those that stood here when the doneness of loaves was settled; what comes after is reported
/// apart, so that the bounds on these stay what they were.
constexpr std::size_t k_first_rows = 85;

struct Row {
  std::string id;
  bool unseen = false;
  bool newest = false;  // the third lot, entered blind as a whole
  bool loaf = false;
  double low = 0.0, high = 0.0;  // minutes stated
  double stated = 0.0;           // their middle
  Piece piece;
  Oven oven;
  DoneRule rule;
  double convection_factor = 1.0;
};

std::vector<Row> rows() {
  std::ifstream file(std::string(MASLIN_SOURCE_DIR) + "/tests/published/bake_times.tsv");
  const std::string text((std::istreambuf_iterator<char>(file)), {});
  const Table table(text);
  std::vector<Row> out;
  for (std::size_t i = 0; i < table.size(); ++i) {
    Row row;
    row.id = table.cell(i, "id");
    row.newest = table.cell(i, "group") == "unseen3";
    row.unseen = row.newest || table.cell(i, "group") == "unseen";
    row.low = table.number(i, "minutes_low");
    row.high = table.number(i, "minutes_high");
    row.stated = 0.5 * (row.low + row.high);
    row.convection_factor = table.number(i, "convection_factor");
    Piece& p = row.piece;
    p.shape = *piece_shape_from(table.cell(i, "shape"));
    p.mass_g = table.number(i, "mass_g");
    (p.shape == PieceShape::bun ? p.diameter_mm : p.length_mm) = table.number(i, "length_mm");
    p.width_mm = table.number(i, "width_mm");
    p.neighbours = table.number(i, "neighbours");
    p.porosity = table.number(i, "porosity");
    p.wash_factor = table.number(i, "wash");
    p.start_k = 28.0 + k_celsius;
    p.dough = dough_of(table.number(i, "water_pct"), table.number(i, "sugar_pct_flour"),
                       table.number(i, "fat_pct_flour"));
    row.oven = oven_of(*oven_kind_from(table.cell(i, "oven")),
                       table.number(i, "celsius") + k_celsius, table.cell(i, "bakeware"));
    if (table.number(i, "then_minute") > 0.0) {
      OvenPhase later;
      later.from_minute = table.number(i, "then_minute");
      later.set_point_k = table.number(i, "then_celsius") + k_celsius;
      row.oven.phases.push_back(later);
    }
    row.rule.core_k = table.number(i, "core_celsius") + k_celsius;
    // A sandwich loaf's top has 55 when "light" (Therdthai 2005, read).
    row.rule.by = table.cell(i, "sign") == "loaf" ? DoneBy::loaf : DoneBy::core_and_colour;
    row.rule.lightness = table.number(i, "lightness");
    row.loaf = p.mass_g[0] > 250.0;
    out.push_back(row);
  }
  return out;
}

double mean(const std::vector<double>& x) {
  double sum = 0.0;
  for (const double one : x) {
    sum += one;
  }
  return x.empty() ? 0.0 : sum / static_cast<double>(x.size());
}

double median(std::vector<double> x) {
  std::sort(x.begin(), x.end());
  return x.empty() ? 0.0 : x[x.size() / 2];
}

}  // namespace

TEST_CASE("Published recipes bake in the time they state") {
  std::map<std::string, std::vector<double>> errors;
  int inside = 0, ranges = 0, inside_ranges = 0, newest_inside = 0, newest_early = 0;
  for (const Row& row : rows()) {
    BakeUnknowns unknowns;
    unknowns.convection_factor = row.convection_factor;
    const BakeRun run = bake_piece(row.piece, row.oven, row.rule, unknowns);
    CAPTURE(row.id);
    CHECK(run.status == BakeStatus::done);
    const double error = std::fabs(run.minutes_to_done[0] / row.stated - 1.0);
    errors["with the newest"].push_back(error);
    if (row.newest) {
      newest_inside += run.minutes_to_done[0] >= row.low && run.minutes_to_done[0] <= row.high;
      newest_early += run.minutes_to_done[0] < row.stated;
      errors["newest"].push_back(error);
      errors[row.loaf ? "newest loaves" : "newest rolls"].push_back(error);
      continue;
    }
    inside += run.minutes_to_done[0] >= row.low - 1e-9 && run.minutes_to_done[0] <= row.high;
    ranges += row.high > row.low;
    inside_ranges += row.high > row.low && run.minutes_to_done[0] >= row.low &&
                     run.minutes_to_done[0] <= row.high;
    errors["every row"].push_back(error);
    errors[row.unseen ? "every unseen" : "every fit"].push_back(error);
    if (errors["every row"].size() > k_first_rows) {
      errors[row.unseen ? "later unseen" : "later fit"].push_back(error);
      continue;
    }
    errors["all"].push_back(error);
    errors[row.unseen ? "unseen" : "fit"].push_back(error);
    errors[row.loaf ? "loaves" : "rolls"].push_back(error);
  }
  REQUIRE(errors["all"].size() >= 60);
  REQUIRE(errors["unseen"].size() >= 20);
  REQUIRE(3 * errors["unseen"].size() >= errors["all"].size());
  MESSAGE("median error: seen " << 100 * median(errors["fit"]) << " %, unseen "
                                << 100 * median(errors["unseen"]) << " %, all "
                                << 100 * median(errors["all"]) << " %; rolls "
                                << 100 * median(errors["rolls"]) << " %, loaves "
                                << 100 * median(errors["loaves"]) << " %; mean of all "
                                << 100 * mean(errors["all"]) << " %; inside the stated minutes "
                                << inside << ", of " << ranges << " that state a range "
                                << inside_ranges);
  MESSAGE("rows added later: seen "
          << 100 * median(errors["later fit"]) << " % of " << errors["later fit"].size()
          << ", unseen " << 100 * median(errors["later unseen"]) << " % of "
          << errors["later unseen"].size() << "; every row: seen "
          << 100 * median(errors["every fit"]) << " % of " << errors["every fit"].size()
          << ", unseen " << 100 * median(errors["every unseen"]) << " % of "
          << errors["every unseen"].size() << ", all " << 100 * median(errors["every row"])
          << " %");
  REQUIRE(errors["every row"].size() >= 105);
  REQUIRE(errors["newest"].size() >= 37);
  MESSAGE("entered blind: " << 100 * median(errors["newest"]) << " % of " << errors["newest"].size()
                            << ", mean " << 100 * mean(errors["newest"]) << " %; loaves "
                            << 100 * median(errors["newest loaves"]) << " %, rolls "
                            << 100 * median(errors["newest rolls"]) << " %; inside the minutes "
                            << newest_inside << ", early " << newest_early << "; all rows "
                            << 100 * median(errors["with the newest"]) << " % of "
                            << errors["with the newest"].size());
  CHECK(median(errors["newest"]) < 0.15);  // what is wanted, and was had when they were entered
  WARN(median(errors["every unseen"]) < 0.15);
  CHECK(median(errors["every row"]) < 0.18);
  // Wanted: 15 % in the median. Reached: see docs/models/bake.md; what was reached may
  // not get worse.
  WARN(median(errors["unseen"]) < 0.15);
  CHECK(median(errors["fit"]) < 0.14);
  CHECK(mean(errors["all"]) < 0.195);
  CHECK(median(errors["all"]) < 0.15);
  CHECK(median(errors["unseen"]) < 0.19);
  CHECK(median(errors["loaves"]) < 0.14);
  CHECK(median(errors["rolls"]) < 0.15);
}

TEST_CASE("The eighty per cent range of a recipe's time holds what the recipe states") {
  // The spreads of BakeUnknowns' comments, the rise, and how brown and how long people
  // leave it: lognormal, 0.22, from the rows that were seen.
  int held = 0, held_unseen = 0, all = 0, unseen = 0, held_newest = 0, newest = 0;
  for (const Row& row : rows()) {
    std::vector<double> times;
    for (std::uint32_t batch = 0; batch < 16; ++batch) {
      const auto normal = [batch](const char* name) {
        return standard_normal_quantile(draw_lanes(name_key(name), 7, 8 * batch));
      };
      BakeUnknowns u;
      u.oven_offset_k = 10.0 * normal("offset");
      u.convection_factor = row.convection_factor * exp(0.25 * normal("convection"));
      u.radiation_factor = exp(0.10 * normal("radiation"));
      u.conductivity_factor = exp(0.12 * normal("conductivity"));
      u.evaporation_factor = exp(0.20 * normal("evaporation"));
      u.browning_factor = exp(0.30 * normal("browning"));
      u.mass_factor = 1.0 + 0.05 * normal("mass");
      u.spring_factor = exp(0.30 * normal("spring"));
      Piece piece = row.piece;
      piece.porosity = clamp(piece.porosity + 0.04 * normal("rise"), 0.2, 0.85);
      const BakeRun run = bake_piece(piece, row.oven, row.rule, u);
      const Lanes stated = run.minutes_to_done * exp(0.22 * normal("habit"));
      for (std::size_t lane = 0; lane < k_lane_count; ++lane) {
        times.push_back(stated[lane]);
      }
    }
    std::sort(times.begin(), times.end());
    const bool inside = row.stated >= times[times.size() / 10] &&
                        row.stated <= times[times.size() - 1 - times.size() / 10];
    if (row.newest) {
      held_newest += inside;
      ++newest;
      continue;
    }
    held += inside;
    ++all;
    held_unseen += inside && row.unseen;
    unseen += row.unseen;
  }
  MESSAGE("held: " << held << " of " << all << ", unseen " << held_unseen << " of " << unseen
                   << ", entered blind " << held_newest << " of " << newest);
  CHECK(held_newest >= 0.7 * newest);
  const double share = static_cast<double>(held) / all;
  CHECK(share >= 0.70);
  CHECK(share <= 0.90);
}
