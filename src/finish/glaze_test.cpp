#include "finish/glaze.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <cmath>

#include "finish/syrup.h"
#include "numerics/draws.h"

using namespace maslin;

namespace {

GlazeMix sugar(double grams, double starch = 0.03) {
  GlazeMix mix;
  mix.crystals_g = (1.0 - starch) * grams;
  mix.starch_g = starch * grams;
  return mix;
}

GlazeMix liquid(double grams, double sucrose, double simple) {
  GlazeMix mix;
  mix.water_g = (1.0 - sucrose - simple) * grams;
  mix.sucrose_g = sucrose * grams;
  mix.simple_sugars_g = simple * grams;
  return mix;
}

double between(double low, double high) {
  return low + (high - low) * (*rc::gen::inRange(0, 1000001)) * 1e-6;
}

}  // namespace

TEST_CASE("the balance meets the glaze it was made for within a thousandth") {
  CHECK(rc::check([] {
    FinishUnknowns unknowns;
    unknowns.packing_limit = between(0.62, 0.74);
    unknowns.intrinsic_viscosity = between(2.3, 3.2);
    const double celsius = between(2.0, 60.0);
    const GlazeHalves halves{sugar(between(20.0, 500.0), between(0.0, 0.05)),
                             liquid(between(5.0, 200.0), between(0.0, 0.2), between(0.0, 0.2))};
    const double target = std::exp(between(std::log(0.02), std::log(500.0)));
    const GlazeBalance balance = balance_glaze(halves, target, celsius, unknowns);
    RC_PRE(all(balance.met));
    const GlazeState state =
        glaze_state(halves.dry * balance.dry_factor + halves.wet, celsius, unknowns);
    RC_ASSERT(std::fabs(state.viscosity_pa_s[0] / target - 1.0) < 1e-3);
  }));
}

TEST_CASE("a thicker glaze takes more sugar and less liquid over the whole range") {
  CHECK(rc::check([] {
    FinishUnknowns unknowns;
    const GlazeHalves halves{sugar(100.0), liquid(60.0, between(0.0, 0.15), between(0.0, 0.1))};
    const double celsius = between(2.0, 60.0);
    double before = 0.0;
    for (double target = 0.01; target < 900.0; target *= 1.25) {
      const GlazeBalance balance = balance_glaze(halves, target, celsius, unknowns);
      if (all(balance.met)) {
        RC_ASSERT(balance.dry_factor[0] > before);
        before = balance.dry_factor[0];
      }
    }
    RC_ASSERT(before > 0.0);
  }));
}

TEST_CASE("more liquid never thickens, a warmer piece never thickens") {
  const FinishUnknowns unknowns;
  double before = 1e9;
  for (double grams = 8.0; grams < 300.0; grams += 0.37) {
    const GlazeMix mix = sugar(100.0) + liquid(grams, 0.05, 0.04);
    const GlazeState cold = glaze_state(mix, 20.0, unknowns);
    const GlazeState warm = glaze_state(mix, 35.0, unknowns);
    CHECK(cold.viscosity_pa_s[0] <= before * (1.0 + 1e-12));
    CHECK(warm.viscosity_pa_s[0] <= cold.viscosity_pa_s[0] * (1.0 + 1e-12));
    before = cold.viscosity_pa_s[0];
  }
}

TEST_CASE("a note of one glaze test narrows the packing limit and leaves it in reach") {
  // "100 g with 15 g of juice just holds a line": thicker than the median glaze would be,
  // so the grains of this sugar jam earlier.
  const FinishTables tables = embedded_finish_tables();
  const ThicknessTerm* line = tables.term("line");
  REQUIRE(line != nullptr);
  double weight = 0.0;
  double mean = 0.0;
  double square = 0.0;
  double prior_mean = 0.0;
  double prior_square = 0.0;
  for (const FinishUnknownRow& row : finish_unknown_rows()) {
    if (row.name != "packing_limit") {
      continue;
    }
    for (std::uint32_t i = 0; i < 1024; i += k_lane_count) {
      FinishUnknowns unknowns;
      unknowns.packing_limit = row.distribution.quantile(draw_lanes(name_key(row.name), 1, i));
      const GlazeState state = glaze_state(sugar(100.0) + liquid(15.0, 0.05, 0.05), 20.0, unknowns);
      const Lanes likelihood = exp(term_log_likelihood(*line, state.viscosity_pa_s));
      const Lanes& limit = unknowns.packing_limit;
      weight += sum(likelihood);
      mean += sum(likelihood * limit);
      square += sum(likelihood * limit * limit);
      prior_mean += sum(limit) / 1024.0;
      prior_square += sum(limit * limit) / 1024.0;
    }
  }
  mean /= weight;
  const double sd = std::sqrt(square / weight - mean * mean);
  const double prior_sd = std::sqrt(prior_square - prior_mean * prior_mean);
  CHECK(mean < prior_mean - 0.5 * prior_sd);
  CHECK(mean > 0.62);
  CHECK(sd < prior_sd);
}

TEST_CASE("the words of thickness touch and rise") {
  const FinishTables tables = embedded_finish_tables();
  REQUIRE(tables.terms.size() == 6);
  for (std::size_t i = 0; i < tables.terms.size(); ++i) {
    const ThicknessTerm& term = tables.terms[i];
    CHECK(term.from_pa_s < term.target_pa_s);
    CHECK(term.target_pa_s < term.to_pa_s);
    CHECK(thickness_term(tables, term.target_pa_s)[0] == static_cast<double>(i));
    if (i > 0) {
      CHECK(term.from_pa_s == tables.terms[i - 1].to_pa_s);
    }
  }
}

TEST_CASE("in air as damp as its syrup a glaze never sets") {
  FinishUnknowns unknowns;
  unknowns.humidity_pct = 88.0;
  const GlazeState state = glaze_state(sugar(100.0) + liquid(17.0, 0.05, 0.05), 21.0, unknowns);
  CHECK(std::isinf(glaze_flow(state, unknowns).skin_minutes[0]));
  unknowns.humidity_pct = 50.0;
  CHECK(glaze_flow(state, unknowns).skin_minutes[0] < 120.0);
}

TEST_CASE("a coat sets to the touch in about half an hour in a dry room") {
  // 20-30 minutes for a 0.7 mm film at 50-60 %: common practice, no source.
  const FinishUnknowns unknowns;
  const GlazeBalance coat =
      balance_glaze({sugar(100.0), liquid(15.0, 0.05, 0.05)}, 11.0, 21.0, unknowns);
  const GlazeState state =
      glaze_state(sugar(100.0) * coat.dry_factor + liquid(15.0, 0.05, 0.05), 21.0, unknowns);
  const double minutes = glaze_flow(state, unknowns).skin_minutes[0];
  CHECK(minutes > 12.0);
  CHECK(minutes < 40.0);
}

TEST_CASE("syrup solids and boiling point undo one another") {
  const FinishTables tables = embedded_finish_tables();
  for (double fraction = 0.05; fraction < 0.9; fraction += 0.013) {
    const Lanes rise = boiling_rise_k(tables, {1.0 - fraction, fraction, 0.0});
    CHECK(fraction_boiling_at(tables, rise)[0] == doctest::Approx(fraction).epsilon(1e-9));
  }
}

TEST_CASE("every unknown of a finish has its row, and its default is the row's median") {
  const std::vector<FinishUnknownRow> rows = finish_unknown_rows();
  CHECK(rows.size() == sizeof(FinishUnknowns) / sizeof(Lanes));
  const FinishUnknowns defaults;
  for (const FinishUnknownRow& row : rows) {
    INFO(row.name);
    CHECK((defaults.*row.place)[0] == doctest::Approx(row.distribution.p50()).epsilon(1e-9));
    CHECK(!row.source.empty());
  }
}
