// Height against steam tables and against what extension services advise bakers.
#include "handon/altitude.h"

#include <doctest/doctest.h>

#include <cmath>

#include "forecast/forecast.h"
#include "handon/settle.h"
#include "pantry/pantry.h"

using namespace maslin;
using namespace maslin::handon;

TEST_CASE("water boils where the steam tables say, to 4 000 m") {
  // Pressures of the standard atmosphere, 101325 (1 - 0.0065 z / 288.15)^5.255877 (ISO 2533, from
  // memory); saturation temperatures of IAPWS-IF97, backward equation of region 4, as the package
  // iapws 1.5.3 gives them.
  struct Row {
    double altitude_m;
    double celsius;
  };
  constexpr Row k_rows[] = {
      {0, 99.974},     // 101325 Pa
      {500, 98.312},   // 95461 Pa
      {1000, 96.649},  // 89875 Pa
      {1500, 94.983},  // 84556 Pa
      {2000, 93.315},  // 79495 Pa
      {2600, 91.311},  // 73749 Pa
      {3000, 89.972},  // 70109 Pa
      {3500, 88.297},  // 65764 Pa
      {4000, 86.619},  // 61640 Pa
  };
  for (const Row& row : k_rows) {
    CHECK_MESSAGE(std::fabs(boiling_celsius(row.altitude_m) - row.celsius) < 0.1, row.altitude_m);
  }
}

TEST_CASE("gas swells by the ratio of the pressures") {
  // Standard atmosphere: 101 325 Pa at 0 m, 79 495 Pa at 2 000 m (ISO 2533, from memory).
  CHECK(gas_swells_by(0.0, 2000.0) == doctest::Approx(101325.0 / 79495.0).epsilon(0.001));
  CHECK(gas_swells_by(2600.0, 2600.0) == 1.0);
}

TEST_CASE("flour is as damp as the air it stands in") {
  // Wheat at 25 C: 12.5 to 14.7 % of its mass at 65 % humidity, 8.8 to 11.3 % at 40 % (ranges of
  // published isotherms, from memory). Flour is sold at about 14 %: common practice.
  CHECK(flour_water_pct(65.0, 25.0) > 12.5);
  CHECK(flour_water_pct(65.0, 25.0) < 14.7);
  CHECK(flour_water_pct(40.0, 25.0) > 8.8);
  CHECK(flour_water_pct(40.0, 25.0) < 11.3);
}

namespace {

/// A plain dough with a rise to double, in a 21 C kitchen at that height.
double rise_minutes(double altitude_m, double yeast_factor) {
  static const Pantry k_pantry(embedded_pantry_tables());
  Recipe recipe;
  Part dough;
  dough.name = "dough";
  const auto add = [&dough](const char* id, double grams) {
    Line line;
    line.ingredient_id = id;
    line.name = id;
    line.found = {Range{grams, grams}, "g", "", ""};
    line.grams = point(grams);
    line.weighed = true;
    dough.lines.push_back(line);
  };
  add("plain_flour", 500.0);
  add("water", 310.0);
  add("instant_yeast", 6.0 * yeast_factor);
  add("salt", 9.0);
  Step prove;
  prove.kind = StepKind::prove;
  prove.text = "Leave to rise until doubled.";
  prove.until = "doubled";
  dough.steps.push_back(prove);
  recipe.parts.push_back(dough);
  Kitchen kitchen;
  kitchen.room_celsius = 21.0;
  kitchen.altitude_m = altitude_m;
  const Figures figures = figures_of(recipe, kitchen, k_pantry, {1, 64});
  REQUIRE(!figures.prove_minutes.empty());
  return figures.prove_minutes.front();
}

}  // namespace

TEST_CASE("dough doubles sooner at height, and less yeast brings the time back, as advised") {
  // University of Wyoming Extension, baking altitude adjusters (read): the higher, the shorter the
  // time to double; use less yeast. eXtension answer from Colorado, 2016 (read), for 6 000 ft:
  // a quarter less yeast. A bakers' guide (read): rises 25 to 50 % faster above 3 000 ft, a third
  // less yeast. By gas alone 20 % less is needed at 6 000 ft.
  const double low = rise_minutes(0.0, 1.0);
  const double at_1500 = rise_minutes(1500.0, 1.0);
  const double at_1829 = rise_minutes(1829.0, 1.0);
  const double at_2600 = rise_minutes(2600.0, 1.0);
  MESSAGE("to double: 0 m ", low, ", 1500 m ", at_1500, ", 1829 m ", at_1829, ", 2600 m ", at_2600);
  CHECK(at_1500 < low);
  CHECK(at_2600 < at_1829);
  double less = 1.0;
  while (less > 0.4 && rise_minutes(1829.0, less) < low) {
    less -= 0.01;
  }
  MESSAGE("yeast at 1829 m for the time at 0 m: ", less);
  // The advice is a quarter less, in steps of an eighth (a quarter teaspoon in one or two).
  CHECK(less < 0.75 + 0.125);
  CHECK(less > 0.75 - 0.125);
}
