// Recipes and experiments that state a dose, a place and a time to rise.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "numerics/draws.h"
#include "rise_kit.h"
#include "support/book.h"

using namespace maslin;
using namespace rise_kit;

namespace {

/// 10th, 50th and 90th percentile of the minutes over draws of everything unknown.
struct Spread {
  double p10;
  double p50;
  double p90;
};

Spread spread_of(const Row& row, const std::vector<Row>& rows, bool stated) {
  std::vector<double> minutes;
  for (std::uint32_t i = 0; i < 256; i += 8) {
    const auto normal = [&](const char* name) {
      return standard_normal_quantile(draw_lanes(name_key(name), 3, i));
    };
    RiseUnknowns u;
    u.yeast_vigour = exp(0.25 * normal("vigour"));
    u.flour_sugar = exp(0.25 * normal("sugar"));
    u.inversion = exp(0.35 * normal("inversion"));
    u.tolerance = exp(0.08 * normal("tolerance"));
    u.waking = exp(0.30 * normal("waking"));
    u.mixed_air = exp(0.25 * normal("air"));
    u.heat_transfer = exp(0.25 * normal("heat"));
    u.gas_kept = exp(0.20 * normal("kept"));
    u.eye = exp(0.15 * normal("eye"));
    u.retention = exp(0.10 * normal("retention"));
    Portions p = portions_of(k_shelf, row);
    for (Portions::Item& item : p.items) {
      const bool flour = item.ingredient->kind == IngredientKind::flour;
      const bool yeast = item.ingredient->kind == IngredientKind::yeast;
      item.grams *= exp((flour ? 0.08 : yeast ? 0.06 : 0.0) * normal(item.ingredient->id.c_str()));
    }
    const Lanes room_off = (stated ? 1.5 : 3.0) * normal("room");
    const Lanes dough_off = 2.0 * normal("dough");
    std::vector<Prove> way = way_to(row, rows);
    for (std::size_t k = 0; k < way.size(); ++k) {
      way[k].ambient[0].temperature_k += k == 0 ? dough_off : room_off;
    }
    const RiseDough dough = rise_dough(p);
    const RiseState start = start_of_rise(dough, row.dough_c + 273.15 + dough_off, u);
    const RiseRun run = run_proves(dough, start, way, u);
    for (std::size_t lane = 0; lane < k_lane_count; ++lane) {
      minutes.push_back(run.proves.back().minutes_to_target[lane]);
    }
  }
  std::sort(minutes.begin(), minutes.end());
  return {minutes[25], minutes[128], minutes[230]};
}

struct Score {
  std::vector<double> errors;
  std::size_t inside = 0;
  double median() {
    std::sort(errors.begin(), errors.end());
    return errors[errors.size() / 2];
  }
  double share_inside() const { return static_cast<double>(inside) / errors.size(); }
};

}  // namespace

TEST_CASE("times to rise of recipes and experiments are forecast within a quarter") {
  const std::vector<Row> rows = table_rows();
  Score seen;
  Score unseen;
  for (const Row& row : rows) {
    if (row.use == "stage") {
      continue;
    }
    const double stated = std::sqrt(row.minutes_low * row.minutes_high);
    const double got = minutes_to(row, rows);
    const Spread s = spread_of(row, rows, row.temperature_stated);
    const bool inside = stated >= s.p10 && stated <= s.p90;
    Score& score = row.use == "fit" ? seen : unseen;
    score.errors.push_back(std::fabs(got / stated - 1.0));
    score.inside += inside ? 1 : 0;
    const std::string what = row.id + (row.use == "fit" ? "" : " (unseen)");
    const std::string_view miss =
        std::fabs(got / stated - 1.0) <= 0.25 ? "" : "docs/models/rise.md: time to rise";
    book::as_noted({"rise times", what, "min", row.source, book::mark_in(row.source), miss}, got,
                   book::near_share(stated, 0.25));
    MESSAGE("row " << row.use << " " << row.id << ": stated " << row.minutes_low << "-"
                   << row.minutes_high << ", forecast " << std::lround(got) << " ["
                   << std::lround(s.p10) << " " << std::lround(s.p50) << " " << std::lround(s.p90)
                   << "]" << std::string(inside ? "" : " outside"));
  }
  REQUIRE(seen.errors.size() + unseen.errors.size() >= 40);
  REQUIRE(unseen.errors.size() * 3 >= seen.errors.size() + unseen.errors.size());
  MESSAGE("median error: fitted " << seen.median() << ", unseen " << unseen.median());
  MESSAGE("80 % ranges hold: fitted " << seen.share_inside() << ", unseen "
                                      << unseen.share_inside());
  CHECK(seen.median() < 0.25);
  CHECK(unseen.median() < 0.25);
  const double inside = static_cast<double>(seen.inside + unseen.inside) /
                        static_cast<double>(seen.errors.size() + unseen.errors.size());
  MESSAGE("of all: " << inside);
  CHECK(inside >= 0.70);
  CHECK(inside <= 0.90);
}
