#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <cmath>
#include <cstdlib>
#include <string>
#include <type_traits>

#include "quantity/distribution.h"
#include "quantity/number_text.h"
#include "quantity/table.h"
#include "quantity/units.h"

using namespace maslin;

// Dimensions are checked by compiling.
template <typename A, typename B>
concept Addable = requires(A a, B b) { a + b; };
static_assert(Addable<Mass, Mass>);
static_assert(!Addable<Mass, Volume>);
static_assert(!Addable<Temperature, Temperature>, "two points do not add");
static_assert(Addable<Temperature, TemperatureDifference>);
static_assert(!std::is_convertible_v<BakersPercent, MassFraction>);
static_assert(std::is_same_v<decltype(Mass{} / Volume{}), Density>);
static_assert(in_grams(grams(250.0)) == 250.0);

TEST_CASE("temperatures convert by their definitions") {
  CHECK(in_celsius(fahrenheit(212.0)) == doctest::Approx(100.0));
  CHECK(in_celsius(fahrenheit(375.0)) == doctest::Approx(190.5556).epsilon(1e-6));
  CHECK((celsius(25.0) - fahrenheit(32.0)).si == doctest::Approx(25.0));
}

// The units' definitions: the SI brochure (9th edition), from memory.
TEST_CASE("quantities hold SI inside and combine by their dimensions") {
  const Mass flour = grams(500.0);
  CHECK(flour.si == 0.5);
  CHECK(in_grams(flour + 2.0 * grams(10.0) - grams(20.0) / 2.0) == doctest::Approx(510.0));
  Mass bowl = flour;
  bowl += grams(325.0);
  bowl -= grams(25.0);
  CHECK(in_grams(bowl * 2.0) == doctest::Approx(1600.0));
  const Volume cup = millilitres(250.0);
  CHECK(in_millilitres(cup) == doctest::Approx(250.0));
  const Density water{997.0};
  CHECK(in_grams(water * cup) == doctest::Approx(249.25));
  CHECK((flour / cup).si == doctest::Approx(2000.0));
  const Duration knead = minutes(10.0);
  CHECK(knead.si == 600.0);
  CHECK(in_minutes(hours(1.5)) == 90.0);
  CHECK(in_minutes(knead) == 10.0);
  CHECK(millimetres(80.0).si == doctest::Approx(0.08));
  // A watt is a joule a second; a kelvin more is a degree Celsius more.
  const Power oven{2000.0};
  const Energy heat = oven * knead;
  CHECK(heat.si == doctest::Approx(1.2e6));
  CHECK(in_celsius(celsius(20.0) + kelvins(5.0)) == doctest::Approx(25.0));
  CHECK(celsius(20.0) < celsius(20.5));
}

TEST_CASE("numbers are read as the C library reads them") {
  for (const char* text : {"0", "12", "0.5", ".75", "1e-3", "-3", "2.25", "1234567.875", "1e6",
                           "0.1", "3.14159265358979", "6.02e23"}) {
    CHECK(number_from(text).value() == doctest::Approx(std::strtod(text, nullptr)).epsilon(1e-15));
  }
  for (const char* text :
       {"", ".", "-", "1e", "1.2.3", "nan", "inf", "0x10", "1 ", "12g", "1e999"}) {
    CHECK(!number_from(text).has_value());
  }
}

TEST_CASE("printing and reading a number goes round") {
  rc::check([] {
    const double value = *rc::gen::inRange(-1000000, 1000000) / 1000.0;
    RC_ASSERT(std::fabs(number_from(number_text(value, 3)).value() - value) < 1e-9);
  });
  CHECK(number_text(2.5, 3) == "2.5");
  CHECK(number_text(-0.0001, 2) == "0");
  CHECK(number_text(std::nan(""), 2) == "?");
  CHECK(fraction_text(1.5) == "1 1/2");
  CHECK(fraction_text(2.0 / 3.0) == "2/3");
  CHECK(fraction_text(0.4) == "0.4");
}

TEST_CASE("quantiles of each shape match their closed forms") {
  CHECK(point(3.0).p90() == 3.0);
  CHECK(uniform(1.0, 2.0).p10() == doctest::Approx(1.1));
  // Standard normal 90 % point 1.281552: any table of the normal distribution.
  CHECK(normal(10.0, 2.0).p90() == doctest::Approx(10.0 + 2.0 * 1.281552).epsilon(1e-6));
  CHECK(lognormal(100.0, 0.2).p50() == doctest::Approx(100.0));
  CHECK(lognormal(100.0, 0.2).standard_deviation() / lognormal(100.0, 0.2).mean() ==
        doctest::Approx(0.2).epsilon(1e-12));
  CHECK(triangular(0.0, 1.0, 3.0).quantile(1.0 / 3.0) == doctest::Approx(1.0));
}

TEST_CASE("quantile and mean agree by integration for every shape") {
  for (const Distribution& d : {normal(5.0, 1.0), lognormal(3.0, 0.4), uniform(2.0, 7.0),
                                triangular(1.0, 2.0, 6.0), point(4.0)}) {
    double total = 0.0;
    constexpr int k_cells = 20000;
    for (int i = 0; i < k_cells; ++i) {
      total += d.quantile((i + 0.5) / k_cells);
    }
    CHECK(total / k_cells == doctest::Approx(d.mean()).epsilon(2e-3));
  }
}

TEST_CASE("a product of spreads adds their squares") {
  const Distribution p = product(lognormal(2.0, 0.1), lognormal(3.0, 0.1));
  CHECK(p.p50() == doctest::Approx(6.0));
  CHECK(p.b * p.b == doctest::Approx(2 * std::log1p(0.01)));
  CHECK(product(point(2.0), uniform(1.0, 2.0)) == uniform(2.0, 4.0));
}

TEST_CASE("every shape has a name of its own, and none without width is a spread") {
  CHECK(shape_name(Shape::point) == "point");
  CHECK(shape_name(normal(1.0, 0.1).shape) == "normal");
  CHECK(shape_name(lognormal(1.0, 0.1).shape) == "lognormal");
  CHECK(shape_name(uniform(1.0, 2.0).shape) == "uniform");
  CHECK(shape_name(triangular(1.0, 2.0, 3.0).shape) == "triangular");
  CHECK(lognormal(1.0, 0.0).shape == Shape::point);
  CHECK(uniform(2.0, 2.0).shape == Shape::point);
}

TEST_CASE("a table keeps short rows and skips comments") {
  const Table table("# note\na\tb\tc\n1\t2\n\n3\t\t5\r\n");
  CHECK(table.size() == 2);
  CHECK(table.cell(0, "c").empty());
  CHECK(table.cell(1, "c") == "5");
  CHECK(table.number(1, "b", 7.0) == 7.0);
  CHECK(table.cell(0, "none").empty());
}
