// Laws every dough keeps, over doughs drawn at random from what recipes contain.
#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <vector>

#include "dough/dough.h"
#include "dough/flour.h"
#include "numerics/draws.h"
#include "pantry/pantry.h"

using namespace maslin;

namespace {

struct Range {
  const char* id;
  double low;
  double high;
};
constexpr Range k_ranges[] = {
    {"water", 20.0, 90.0},       {"egg", 0.0, 30.0},       {"whole_milk", 0.0, 30.0},
    {"butter", 0.0, 40.0},       {"honey", 0.0, 15.0},     {"salt", 0.0, 3.0},
    {"caster_sugar", 0.0, 30.0}, {"olive_oil", 0.0, 10.0}, {"instant_yeast", 0.1, 3.0},
    {"banana", 0.0, 20.0},       {"lemon_juice", 0.0, 5.0}};

const Pantry& pantry() {
  static const Pantry one(embedded_pantry_tables());
  return one;
}
const DoughModel& model() {
  static const DoughModel one = dough_model();
  return one;
}

/// The `index`-th random dough with `factor` times its masses.
Portions random_dough(std::uint32_t index, double factor) {
  const char* flours[] = {"plain_flour", "strong_white_flour", "wholemeal_flour",
                          "rye_flour_medium"};
  Portions out;
  const double which = draw(name_key("flour"), 7, index);
  out.items.push_back({pantry().find(flours[static_cast<int>(4.0 * which)]), 500.0 * factor});
  for (const Range& range : k_ranges) {
    const double u = draw(name_key(range.id), 7, index);
    out.items.push_back(
        {pantry().find(range.id), 5.0 * factor * (range.low + (range.high - range.low) * u)});
  }
  return out;
}

DoughState assess(const Portions& portions, const DoughUnknowns& unknowns = {}) {
  return assess_dough(model(), portions, unknowns);
}

constexpr std::uint32_t k_doughs = 300;

}  // namespace

TEST_CASE("doubling every mass doubles masses and volumes and changes nothing else") {
  for (std::uint32_t i = 0; i < k_doughs; ++i) {
    const DoughState one = assess(random_dough(i, 1.0));
    const DoughState two = assess(random_dough(i, 2.0));
    CHECK(two.total_g[0] == doctest::Approx(2.0 * one.total_g[0]));
    CHECK(two.volume_ml[0] == doctest::Approx(2.0 * one.volume_ml[0]));
    CHECK(two.feel_score[0] == doctest::Approx(one.feel_score[0]));
    CHECK(two.consistency_fu[0] == doctest::Approx(one.consistency_fu[0]));
    CHECK(two.ph[0] == doctest::Approx(one.ph[0]));
    CHECK(two.water_activity[0] == doctest::Approx(one.water_activity[0]));
    CHECK(two.sugar_pct_flour[0] == doctest::Approx(one.sugar_pct_flour[0]));
    CHECK(two.weakening.strength()[0] == doctest::Approx(one.weakening.strength()[0]));
  }
}

TEST_CASE("more of any liquid makes a dough softer, more flour stiffer") {
  for (std::uint32_t i = 0; i < k_doughs; ++i) {
    const Portions dough = random_dough(i, 1.0);
    const double before = assess(dough).feel_score[0];
    for (const std::size_t item : {1U, 2U, 3U}) {
      Portions wetter = dough;
      wetter.items[item].grams += 20.0;
      CHECK(assess(wetter).feel_score[0] > before);
    }
    Portions stiffer = dough;
    stiffer.items[0].grams += 20.0;
    CHECK(assess(stiffer).feel_score[0] < before);
  }
}

TEST_CASE("flour of more protein makes a stiffer dough") {
  for (double protein = 8.0; protein < 15.0; protein += 1.0) {
    const Ingredient weak = flour_with_protein(*pantry().find("plain_flour"), protein);
    const Ingredient strong = flour_with_protein(*pantry().find("plain_flour"), protein + 1.0);
    CHECK(strong.composition.closure() == doctest::Approx(weak.composition.closure()));
    const Ingredient* water = pantry().find("water");
    const double soft = assess({{{&weak, 100.0}, {water, 62.0}}}).feel_score[0];
    const double stiff = assess({{{&strong, 100.0}, {water, 62.0}}}).feel_score[0];
    CHECK(stiff < soft);
  }
}

TEST_CASE("the order of the portions and splitting one of them change nothing") {
  for (std::uint32_t i = 0; i < k_doughs; ++i) {
    const Portions dough = random_dough(i, 1.0);
    Portions other;
    for (std::size_t j = dough.items.size(); j-- > 0;) {
      other.items.push_back({dough.items[j].ingredient, 0.25 * dough.items[j].grams});
      other.items.push_back({dough.items[j].ingredient, 0.75 * dough.items[j].grams});
    }
    CHECK(assess(other).feel_score[0] == doctest::Approx(assess(dough).feel_score[0]));
    CHECK(assess(other).ph[0] == doctest::Approx(assess(dough).ph[0]));
    CHECK(assess(other).bakers_pct.size() == assess(dough).bakers_pct.size());
  }
}

TEST_CASE("ounces or grams, a dough is the same") {
  // Every mass in another unit is every mass times one factor.
  for (std::uint32_t i = 0; i < k_doughs; ++i) {
    CHECK(assess(random_dough(i, 28.349523125)).effective_hydration_pct[0] ==
          doctest::Approx(assess(random_dough(i, 1.0)).effective_hydration_pct[0]));
  }
}

TEST_CASE("eight lanes give what eight single doughs give, bit for bit") {
  for (std::uint32_t i = 0; i < 40; ++i) {
    Portions dough = random_dough(i, 1.0);
    for (std::size_t lane = 0; lane < k_lane_count; ++lane) {
      dough.items[1].grams.set(lane, 250.0 + 10.0 * static_cast<double>(lane));
    }
    const DoughState all_lanes = assess(dough);
    for (std::size_t lane = 0; lane < k_lane_count; ++lane) {
      Portions single = dough;
      for (Portions::Item& item : single.items) {
        item.grams = item.grams[lane];
      }
      CHECK(assess(single).feel_score[0] == all_lanes.feel_score[lane]);
      CHECK(assess(single).water_activity[0] == all_lanes.water_activity[lane]);
    }
  }
}

TEST_CASE("no figure of any dough is negative, beyond its bounds or not a number") {
  for (std::uint32_t i = 0; i < k_doughs; ++i) {
    const DoughState state = assess(random_dough(i, 1.0));
    for (const Lanes& figure : {state.total_g, state.flour_g, state.water_g, state.consistency_fu,
                                state.volume_ml, state.sugar_per_water, state.fat_pct_flour}) {
      CHECK(std::isfinite(figure[0]));
      CHECK(figure[0] >= 0.0);
    }
    CHECK(state.water_activity[0] > 0.7);
    CHECK(state.water_activity[0] < 1.0);
    CHECK(state.ph[0] > 2.0);
    CHECK(state.ph[0] < 9.0);
    CHECK(state.weakening.strength()[0] >= 0.0);
    CHECK(state.weakening.strength()[0] <= 1.0);
  }
}

TEST_CASE("the yeast, salt or sugar left out is found missing in the percentages") {
  const Ingredient* flour = pantry().find("plain_flour");
  const DoughState state = assess({{{flour, 100.0}, {pantry().find("water"), 60.0}}});
  CHECK(state.yeast_pct_flour[0] == 0.0);
  CHECK(state.egg_pct_flour[0] == 0.0);
  CHECK(state.salt_pct_flour[0] < 0.05);
}
