// The dough model against published formulas, farinograph figures and worked examples.
#include <doctest/doctest.h>

#include <cmath>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "dough/dough.h"
#include "dough/flour.h"
#include "dough/temperature.h"
#include "pantry/pantry.h"
#include "quantity/number_text.h"
#include "quantity/table.h"
#include "support/book.h"

using namespace maslin;

namespace {

std::string text_of(const std::string& name) {
  const std::ifstream file(std::string(MASLIN_SOURCE_DIR) + "/tests/published/" + name);
  std::ostringstream out;
  out << file.rdbuf();
  return out.str();
}

const Pantry& pantry() {
  static const Pantry one(embedded_pantry_tables());
  return one;
}

const DoughModel& model() {
  static const DoughModel one = dough_model();
  return one;
}

/// "plain_flour:100 water:62" as portions; a row that names no ingredient fails.
Portions portions_of(std::string_view text) {
  Portions out;
  for (const std::string_view item : split(text, ' ')) {
    const std::size_t colon = item.find(':');
    const Ingredient* ingredient = pantry().find(item.substr(0, colon));
    REQUIRE_MESSAGE(ingredient != nullptr, std::string(item));
    const auto grams = number_from(item.substr(colon + 1));
    REQUIRE_MESSAGE(grams.has_value(), std::string(item));
    out.items.push_back({ingredient, *grams});
  }
  return out;
}

struct FeelScore {
  int right = 0;
  int of = 0;
};

}  // namespace

TEST_CASE("the feel of published formulas is right nine times in ten") {
  const std::string text = text_of("dough_feel.tsv");
  const Table table(text);
  REQUIRE(table.size() >= 60);
  FeelScore seen;
  FeelScore unseen;
  for (std::size_t row = 0; row < table.size(); ++row) {
    DoughUnknowns unknowns;
    unknowns.dough_celsius = table.number(row, "celsius", 24.0);
    const DoughState state =
        assess_dough(model(), portions_of(table.cell(row, "portions")), unknowns);
    const std::string_view feel = feel_name(feel_at(state.feel_score[0]));
    bool right = false;
    for (const std::string_view word : split(table.cell(row, "expected"), '|')) {
      right = right || word == feel;
    }
    FeelScore& score = table.cell(row, "split") == "seen" ? seen : unseen;
    score.right += right ? 1 : 0;
    ++score.of;
    const std::string_view note = table.cell(row, "split") == "seen" ? "" : " (unseen)";
    book::as_noted({"dough feel", std::string(table.cell(row, "name")) + std::string(note), "",
                    table.cell(row, "source"), book::mark_in(table.cell(row, "source")),
                    right ? "" : "docs/models/dough.md: feel of published formulas"},
                   feel, table.cell(row, "expected"), right);
    if (!right) {
      MESSAGE(std::string(table.cell(row, "split"))
              << " " << std::string(table.cell(row, "name")) << ": " << std::string(feel) << " at "
              << state.feel_score[0] << ", expected " << std::string(table.cell(row, "expected")));
    }
  }
  MESSAGE("seen " << seen.right << " of " << seen.of << ", unseen " << unseen.right << " of "
                  << unseen.of);
  CHECK(seen.right + unseen.right >= 0.9 * (seen.of + unseen.of));
  // The unseen alone, mostly cups of unknown filling, reach 26 of 31: recorded as a miss
  // in docs/models/dough.md. Never fewer.
  CHECK(unseen.right >= 26);
}

TEST_CASE("flour and liquid five to three make a soft, pliable dough that plain flour carries") {
  // Common practice, no source: plain flour, 60 % of fruit liquid and egg, a quarter of
  // sugar, a little butter, a warm kitchen.
  DoughUnknowns warm;
  warm.dough_celsius = 28.0;
  const DoughState rich = assess_dough(
      model(),
      portions_of("plain_flour:500 orange_juice:225 egg:75 caster_sugar:130 butter:25 salt:3 "
                  "instant_yeast:8"),
      warm);
  const std::string_view rich_feel = feel_name(feel_at(rich.feel_score[0]));
  CHECK(book::as_noted({"dough feel", "flour and liquid 5 : 3, sugar a quarter", "",
                        "common practice, no source", book::Mark::trade},
                       rich_feel, "soft", rich_feel == "soft"));
  CHECK(rich.weakening.strength()[0] > 0.5);
  const DoughState lean = assess_dough(
      model(), portions_of("plain_flour:500 water:300 salt:8 instant_yeast:5"), DoughUnknowns());
  // Without the sugar it stands at the soft end of medium.
  CHECK(lean.feel_score[0] > -2.0);
  CHECK(lean.feel_score[0] < 6.0);
}

TEST_CASE("egg and thin fruit liquid weigh a gram a millilitre near enough") {
  // Common practice, no source.
  for (const char* id : {"egg", "orange_juice", "apple_juice", "pineapple_juice"}) {
    const Ingredient* ingredient = pantry().find(id);
    REQUIRE(ingredient != nullptr);
    const auto packing = pantry().packing(*ingredient, "level");
    REQUIRE(packing.has_value());
    book::against({"pantry", std::string("a millilitre of ") + id, "g",
                   "common practice, no source", book::Mark::trade},
                  packing->g_per_ml, book::near_share(1.0, 0.06));
  }
}

TEST_CASE("consistency falls by 31 units for one point of water near 500, within 15 %") {
  // ISO 5530-1 corrects the absorption by 0.032 points a unit (from memory): 31 a point.
  const auto at = [](double water) {
    return assess_dough(model(), portions_of("plain_flour:100 water:" + number_text(water, 2)), {})
        .consistency_fu[0];
  };
  CHECK(at(60.0) == doctest::Approx(500.0).epsilon(0.01));  // the flour's own sugar and fat
  const double slope = (at(59.5) - at(60.5)) / 1.0;
  book::against({"dough", "fall of consistency for a point of water near 500 FU", "FU",
                 "ISO 5530-1: 0.032 points a unit", book::Mark::memory},
                slope, book::near_share(31.25, 0.15));
}

TEST_CASE("absorption follows protein within three points of published white flours") {
  // Sedlacek and Svec 2023, Czech J Food Sci Technol 15(2) (abstract): flours of protein
  // 10.55 to 14.75 % and ash 0.59 to 0.63 took 55.7 to 63.2 % of water.
  struct Row {
    double protein;
    double ash;
    double absorption;
  };
  for (const Row& row : {Row{10.55, 0.59, 55.7}, Row{14.75, 0.63, 63.2}}) {
    FlourAnalysis analysis;
    analysis.protein_pct = row.protein;
    analysis.ash_pct_dry = row.ash;
    book::against({"dough", "absorption of flour of " + number_text(row.protein, 2) + " % protein",
                   "% flour", "Sedlacek and Svec 2023, Czech J Food Sci Technol 15(2), abstract"},
                  absorption_from_analysis(analysis)[0], book::near(row.absorption, 3.0));
  }
}

TEST_CASE("the rule gives the water of the two worked examples") {
  // A baking institute's notes: 75 F wanted, flour 65, room 65, friction 8: 87 F; and
  // 80 F wanted, flour 65, room 75, friction 35: 65 F.
  const auto example = [](const char* what, const RuleOfThree& rule, double fahrenheit) {
    book::against({"dough", what, "F", "a baking institute's notes"}, water_by_rule(rule),
                  book::near(fahrenheit, 0.01));
  };
  example("water for 75 F: flour 65, room 65, friction 8", {75.0, 65.0, 65.0, 8.0}, 87.0);
  example("water for 80 F: flour 65, room 75, friction 35", {80.0, 75.0, 65.0, 35.0}, 65.0);
}

namespace {

/// Water at the temperature of the rule, mixed in the balance with the friction the rule
/// assumes put in as work: n degrees of friction on the sum of three are n / 3 on the dough.
double mixed_fahrenheit(double flour_f, double room_f, double water_f, double friction_f,
                        double water_pct) {
  const auto to_c = [](double f) { return (f - 32.0) / 1.8; };
  const std::vector<WarmPortion> bowl{{pantry().find("strong_white_flour"), 1000.0, to_c(flour_f)},
                                      {pantry().find("water"), 10.0 * water_pct, to_c(water_f)}};
  MixingHeat heat;
  heat.room_celsius = to_c(room_f);
  heat.hydration_kj_per_kg_flour = 0.0;  // the rule's friction was fitted with it inside
  heat.bowl_kj_per_k = 0.0;
  const double kj_per_kg_k = 2.74;  // lean dough
  heat.minutes = 10.0;
  heat.watts_per_kg = friction_f / 3.0 / 1.8 * kj_per_kg_k * 1000.0 / 600.0;
  return dough_temperature_celsius(bowl, heat)[0] * 1.8 + 32.0;
}

}  // namespace

TEST_CASE("the heat balance shows where the rule of three is right and where it errs") {
  // The rule counts flour, room and water alike, a third each. By heat, in a lean dough of
  // 65 % water, water counts 0.60, flour 0.40 and the room nothing. Where the water is the
  // warm one (example A) the rule's dough comes out warmer than wanted, by
  // (0.60 - 1/3) 87 + (0.40 - 1/3) 65 - 65/3 = about 6 F; in example B, water 10 F colder
  // than the room, 4 F colder: the room's third is what is missing.
  const double a = mixed_fahrenheit(65.0, 65.0, 87.0, 8.0, 65.0);
  CHECK(a == doctest::Approx(75.0 + 6.0).epsilon(0.02));
  const double b = mixed_fahrenheit(65.0, 75.0, 65.0, 35.0, 65.0);
  CHECK(b == doctest::Approx(80.0 - 3.5).epsilon(0.02));
}

TEST_CASE("heat capacities of water, milk and lean dough are as measured") {
  // Isoperibol calorimetry (abstract): water 4.176, milk 3.942 kJ/kg K; five doughs 2.15 to
  // 3.19.
  constexpr const char* k_calorimetry = "isoperibol calorimetry, abstract";
  book::against({"dough", "heat capacity of water", "kJ/(kg K)", k_calorimetry},
                specific_heat_kj_per_kg_k(*pantry().find("water")), book::near_share(4.176, 0.01));
  // The abstract does not say how fat its milk was: between whole and skimmed.
  CHECK(specific_heat_kj_per_kg_k(*pantry().find("whole_milk")) < 3.942);
  CHECK(specific_heat_kj_per_kg_k(*pantry().find("skimmed_milk")) > 3.942);
  const double flour = specific_heat_kj_per_kg_k(*pantry().find("strong_white_flour"));
  const double dough = (100.0 * flour + 65.0 * 4.176) / 165.0;
  book::against({"dough", "heat capacity of a lean dough", "kJ/(kg K)", k_calorimetry}, dough,
                book::between(2.15, 3.19));
}

TEST_CASE("the water activity of a lean dough is 0.97 to 0.98") {
  // From memory, for a dough with 2 % of salt.
  const DoughState lean = assess_dough(model(), portions_of("plain_flour:100 water:62 salt:2"), {});
  book::against({"dough", "water activity of a lean dough with 2 % of salt", "", "dough literature",
                 book::Mark::memory},
                lean.water_activity[0], book::near_share(0.975, 0.0154));
}
