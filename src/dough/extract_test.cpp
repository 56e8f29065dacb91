#include "dough/extract.h"

#include <doctest/doctest.h>

#include "dough/dough.h"

using namespace maslin;

namespace {

Ingredient fruit_of(double insoluble, double soluble) {
  Ingredient out;
  out.id = "fruit";
  out.kind = IngredientKind::fruit;
  out.composition[Component::fibre] = insoluble / 0.7;
  out.composition[Component::sucrose] = soluble - 0.3 * insoluble / 0.7;
  out.composition[Component::water] = 1.0 - insoluble - soluble;
  return out;
}

Ingredient plain_water() {
  Ingredient out;
  out.id = "water";
  out.kind = IngredientKind::water;
  out.composition[Component::water] = 1.0;
  return out;
}

ExtractSetting strained(double holdup, std::vector<double> washes) {
  ExtractSetting out;
  out.pressing = {"sieve", holdup, 0.2, 0.0, {}};
  out.washes_g = std::move(washes);
  return out;
}

Extract made(double insoluble, double soluble, const ExtractSetting& setting) {
  std::deque<PartedFood> foods{
      part_food(fruit_of(insoluble, soluble), extract_tables(), Heating::raw)};
  const std::vector<Lanes> grams{100.0};
  ExtractUnknowns ideal;
  ideal.wash_efficiency = 1.0;
  return make_extract(foods, grams, setting, ideal);
}

}  // namespace

TEST_CASE("a fruit of 5.5 % solids strained and washed gives what the mass balance says") {
  // Derived: 100 g with 0.055 insoluble and 0.10 soluble, 8 g kept per g: 50.5 g at 10.6 %,
  // 53.4 % of the solubles; 50 g of water more brings 24.8 %.
  const Extract first = made(0.055, 0.10, strained(8.0, {}));
  CHECK(first.yield_g[0] == doctest::Approx(50.5).epsilon(0.002));
  CHECK(first.soluble_solids_pct[0] == doctest::Approx(10.6).epsilon(0.01));
  CHECK(100.0 * first.recovery[0] == doctest::Approx(53.4).epsilon(0.003));
  const Extract washed = made(0.055, 0.10, strained(8.0, {50.0}));
  CHECK(100.0 * washed.recovery[0] == doctest::Approx(78.2).epsilon(0.003));
  CHECK(washed.yield_g[0] == doctest::Approx(100.5).epsilon(0.002));
  const Extract twice = made(0.055, 0.10, strained(8.0, {25.0, 25.0}));
  CHECK(100.0 * twice.recovery[0] == doctest::Approx(81.0).epsilon(0.006));
}

TEST_CASE("what is measured rules over what is assumed, and tells how well it was pressed") {
  ExtractSetting setting = strained(8.0, {});
  setting.measured_yield_g = 67.0;
  const Extract extract = made(0.055, 0.10, setting);
  CHECK(extract.yield_g[0] == doctest::Approx(67.0));
  CHECK(extract.holdup_g_per_g[0] == doctest::Approx(5.0).epsilon(0.01));
}

TEST_CASE("what comes out and what stays behind add up to what went in") {
  ExtractSetting setting = strained(9.0, {40.0, 20.0});
  const Extract extract = made(0.03, 0.12, setting);
  CHECK((extract.yield_g + extract.pulp_g)[0] == doctest::Approx(160.0));
}

TEST_CASE("boiling down keeps the sugar and takes the water") {
  ExtractSetting setting = strained(8.0, {});
  const Extract thin = made(0.03, 0.12, setting);
  setting.reduced_share = 0.5;
  const Extract thick = made(0.03, 0.12, setting);
  CHECK(thick.yield_g[0] == doctest::Approx(0.5 * thin.yield_g[0]));
  CHECK(thick.soluble_solids_pct[0] == doctest::Approx(2.0 * thin.soluble_solids_pct[0]));
  CHECK(thick.recovery[0] == doctest::Approx(thin.recovery[0]));
}

TEST_CASE("an extract goes into a dough as so many grams with their own sugar and water") {
  std::deque<PartedFood> foods{part_food(fruit_of(0.03, 0.12), extract_tables(), Heating::raw)};
  const std::vector<Lanes> grams{200.0};
  const Extract extract = make_extract(foods, grams, strained(8.0, {50.0}), {});
  const Ingredient water = plain_water();
  const Portions used = extract_portions(foods, extract, water, 120.0);
  CHECK(used.total_grams()[0] == doctest::Approx(120.0));
  const double sugar = used.grams_of(Component::sucrose)[0];
  CHECK(sugar < 0.12 * 120.0);
  CHECK(sugar > 0.05 * 120.0);
}

TEST_CASE("the steps of a part tell how it is strained, boiled down and heated") {
  Part part;
  part.kind = PartKind::extract;
  Step strain;
  strain.kind = StepKind::strain;
  strain.text = "Squeeze it hard through a muslin cloth";
  Step boil;
  boil.kind = StepKind::boil;
  boil.text = "Boil down by half";
  part.steps = {strain, boil};
  const ExtractSetting setting = extract_setting_of(part, extract_tables());
  CHECK(setting.pressing.name == "cloth");
  CHECK(setting.reduced_share == doctest::Approx(0.5));
  CHECK(heating_of(part) == Heating::heated);
  part.steps = {strain};
  CHECK(heating_of(part) == Heating::raw);
}
