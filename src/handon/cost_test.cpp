#include "handon/cost.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <string>

#include "recipe/price_list.h"
#include "support/larder.h"

using namespace maslin;
using namespace maslin::handon;

namespace {

Line line(const char* id, double grams) {
  Line out = weighed_line(id, grams);
  out.name = id;
  return out;
}

Recipe loaf() {
  Recipe out;
  out.pieces = Range{2, 2};
  out.parts.push_back({PartKind::dough,
                       "dough",
                       {line("strong_white_flour", 980), line("water", 600), line("butter", 49)},
                       {},
                       point(1.0)});
  return out;
}

CostSheet cost(const std::string& prices, std::optional<Band> bake = std::nullopt) {
  const PriceReading reading = read_prices(prices);
  REQUIRE(reading.problems.empty());
  CostRequest request;
  request.draws.draws = 64;
  request.prices = reading.list;
  request.bake_minutes = bake;
  return cost_of(loaf(), whole_pantry(), request);
}

const CostLine& of(const CostSheet& sheet, const std::string& id) {
  const auto at = std::find_if(sheet.lines.begin(), sheet.lines.end(),
                               [&](const CostLine& line) { return line.id == id; });
  REQUIRE(at != sheet.lines.end());
  return *at;
}

const std::string k_prices =
    "item\tamount\tunit\tprice\nstrong white flour\t1.5\tkg\t1,80\nbutter\t250\tg\t2.50\n"
    "currency\tEUR\nwaste\t2\t%\n";

bool asks(const CostSheet& sheet, const std::string& words) {
  return std::any_of(sheet.asks.begin(), sheet.asks.end(),
                     [&](const std::string& ask) { return ask.find(words) != std::string::npos; });
}

}  // namespace

TEST_CASE("a batch costs what of the packs is used, with the waste; packs are bought whole") {
  const CostSheet sheet = cost(k_prices);
  // 980 g of dough flour are 1000 g with 2 % wasted: 1000 of 1500 g at 1.80.
  CHECK(of(sheet, "strong_white_flour").cost->p50 == doctest::Approx(1.20));
  CHECK(of(sheet, "strong_white_flour").packs == 1);
  CHECK(of(sheet, "butter").cost->p50 == doctest::Approx(0.50));
  CHECK(sheet.batch->p50 == doctest::Approx(1.70));
  CHECK(sheet.piece->p50 == doctest::Approx(0.85));
  CHECK(*sheet.bought == doctest::Approx(4.30));
  CHECK(sheet.currency == "EUR");
  CHECK(sheet.lines.size() == 2);  // water is not bought
}

TEST_CASE("the same prices as a document give the same sums") {
  const CostSheet sheet = cost(
      R"({"currency":"EUR","waste_pct":2,"packs":[
          {"item":"strong white flour","amount":1.5,"unit":"kg","price":1.8},
          {"item":"butter","amount":250,"unit":"g","price":2.5}]})");
  CHECK(sheet.batch->p50 == doctest::Approx(1.70));
}

TEST_CASE("enough is bought for nine batches in ten") {
  const CostSheet sheet = cost("item\tamount\tunit\tprice\nstrong white flour\t999\tg\t1\n");
  CHECK(of(sheet, "strong_white_flour").packs == 2);
}

TEST_CASE("a kitchen's own prices do where none are given, and give way where they are") {
  CostRequest request;
  request.kitchen.prices = read_prices(k_prices).list;
  const CostSheet own = cost_of(loaf(), whole_pantry(), request);
  REQUIRE(own.batch.has_value());
  CHECK(own.batch->p50 == doctest::Approx(cost(k_prices).batch->p50));
  request.prices = read_prices("strong white flour 1 kg 9.99").list;
  CHECK(cost_of(loaf(), whole_pantry(), request).batch->p50 > own.batch->p50);
}

TEST_CASE("without prices the list says the packs and asks") {
  const CostSheet sheet = cost("");
  CHECK_FALSE(sheet.batch.has_value());
  CHECK(of(sheet, "butter").usual_pack);
  CHECK(of(sheet, "butter").packs == 1);
  CHECK(asks(sheet, "costs of strong white flour, unsalted butter"));
  CHECK(cost_text(sheet).find("(as mostly sold)") != std::string::npos);
}

TEST_CASE("the oven's energy is its power for the preheating and a share of the bake") {
  const CostSheet sheet =
      cost(k_prices + "energy\t1\tkWh\t0.40\noven\t2.4\tkW\n", Band{30, 30, 30});
  REQUIRE(sheet.energy.has_value());
  // At least 2.4 kW for 10 of 15 min x 170/160 and a quarter of 30; at most 15 x 170/160 and 0.4.
  CHECK(sheet.energy->kwh.p10 > 2.4 * (10.6 + 7.5) / 60.0);
  CHECK(sheet.energy->kwh.p90 < 2.4 * (16.0 + 12.0) / 60.0);
  CHECK(sheet.energy->cost->p50 == doctest::Approx(0.4 * sheet.energy->kwh.p50));
  CHECK(sheet.batch->p50 > 1.70);
  CHECK(asks(cost(k_prices, Band{30, 30, 30}), "kWh"));
}

TEST_CASE("a standard oven's standard cycle is met") {
  // EN 60350-1 (from memory): 0.8 to 1.0 kWh for about 55 minutes with its preheating to 180 °C.
  const CostSheet sheet = cost(k_prices, Band{43, 43, 43});
  CHECK(sheet.energy->kwh.p10 > 0.6);
  CHECK(sheet.energy->kwh.p50 > 0.8);
  CHECK(sheet.energy->kwh.p50 < 1.1);
}

TEST_CASE("a table that cannot be right says where and what") {
  const PriceReading reading =
      read_prices("item\tamount\tunit\tprice\nflour\t\tkg\t1\nbutter\t250\tg\t\nwaste\t200\t%\n");
  REQUIRE(reading.problems.size() == 3);
  CHECK(sentence(reading.problems[0]) ==
        "line 2: \"flour\" has no amount; say how much a pack holds: 1.5.");
  CHECK(read_prices("{").problems.size() == 1);
  const CostSheet odd = cost("item\tamount\tunit\tprice\nunobtainium\t1\tkg\t9\n");
  CHECK(odd.notes.front().find("unobtainium") != std::string::npos);
}

TEST_CASE("a pack that holds next to nothing is not counted in, and asked about") {
  const CostSheet sheet = cost("item\tamount\tunit\tprice\nbutter\t0.0000000001\tg\t1\n");
  CHECK(of(sheet, "butter").packs == 1);  // as mostly sold
  CHECK(std::any_of(sheet.notes.begin(), sheet.notes.end(), [](const std::string& note) {
    return note.find("less than a milligram") != std::string::npos;
  }));
}
