// Published weights of measured volumes: tests/published/kitchen_weights.tsv, sources in its head.
//
// A range from p10 to p90 that is honest holds about 80 % of what others have printed: it must hold
// between 75 and 90 % of the rows that the pantry's own figures were not made from.
#include <doctest/doctest.h>

#include <fstream>
#include <map>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "pantry/pantry.h"
#include "quantity/table.h"
#include "support/book.h"

using namespace maslin;

namespace {

const Pantry& pantry() {
  static const Pantry all(embedded_pantry_tables());
  return all;
}

struct Pair {
  std::string id;
  std::string packing;
  std::string unit;
  std::string locale;
  double amount = 0.0;
  double grams = 0.0;
  std::string source;
  std::string derived;
};

std::vector<Pair> pairs() {
  std::ifstream file(MASLIN_SOURCE_DIR "/tests/published/kitchen_weights.tsv");
  std::stringstream text;
  text << file.rdbuf();
  const std::string all = text.str();
  const Table rows(all);
  std::vector<Pair> out;
  for (std::size_t row = 0; row < rows.size(); ++row) {
    const auto cell = [&](const char* column) { return std::string(rows.cell(row, column)); };
    out.push_back({cell("id"), cell("packing"), cell("unit"), cell("locale"),
                   rows.number(row, "amount"), rows.number(row, "grams"), cell("source"),
                   cell("derived")});
  }
  return out;
}

/// Rows held and rows in all.
struct Share {
  int held = 0;
  int of = 0;
  double pct() const { return of > 0 ? 100.0 * held / of : 0.0; }
};

Distribution weighed(const Pair& pair) {
  const Ingredient* food = pantry().find(pair.id);
  REQUIRE_MESSAGE(food != nullptr, pair.id);
  const auto grams =
      pantry().weigh(*food, point(pair.amount), pair.unit, pair.packing, "", pair.locale);
  REQUIRE_MESSAGE(grams.has_value(), pair.id, " ", pair.unit);
  return *grams;
}

template <typename Wanted>
Share share_of(Wanted wanted) {
  Share out;
  for (const Pair& pair : pairs()) {
    if (wanted(pair)) {
      const Distribution grams = weighed(pair);
      out.held += pair.grams >= grams.p10() && pair.grams <= grams.p90() ? 1 : 0;
      ++out.of;
    }
  }
  return out;
}

/// The kitchen tables, told from the nutrient tables by their word for the method: none.
bool kitchen_table(const Pair& pair) {
  static const std::set<std::string> k_first{"HERR41",    "TM10-412",  "USDA-SCHOOL", "CI2013",
                                             "COOK2014A", "COOK2014B", "MEASURES"};
  return pair.source.rfind("SR28", 0) != 0 && k_first.count(pair.source) == 0;
}

}  // namespace

TEST_CASE("the ranges of volume to weight hold 75 to 90 % of the published weights") {
  const Share independent = share_of([](const Pair& pair) { return pair.derived == "no"; });
  const Share all = share_of([](const Pair&) { return true; });
  const Share kitchens_kept_back =
      share_of([](const Pair& pair) { return pair.derived == "no" && kitchen_table(pair); });
  const Share kitchens_seen = share_of([](const Pair& pair) { return pair.derived == "spread"; });
  const Share nutrient_tables =
      share_of([](const Pair& pair) { return pair.derived == "no" && !kitchen_table(pair); });
  MESSAGE("not used for the pantry: ", independent.held, " of ", independent.of, ", ",
          independent.pct(), " %");
  MESSAGE("  of these kitchen tables: ", kitchens_kept_back.held, " of ", kitchens_kept_back.of,
          ", ", kitchens_kept_back.pct(), " %; others: ", nutrient_tables.held, " of ",
          nutrient_tables.of, ", ", nutrient_tables.pct(), " %");
  MESSAGE("used to set the spreads: ", kitchens_seen.held, " of ", kitchens_seen.of, ", ",
          kitchens_seen.pct(), " %");
  MESSAGE("all, with those the densities come from: ", all.held, " of ", all.of, ", ", all.pct(),
          " %");
  CHECK(independent.of >= 120);
  const auto held = [](const char* what, const Share& share) {
    book::against({"kitchen weights", what, "%", "tests/published/kitchen_weights.tsv"},
                  share.pct(), book::between(75.0, 90.0));
  };
  held("published weights inside the 80 % ranges", independent);
  held("of these, tables of kitchens kept back", kitchens_kept_back);
}

TEST_CASE("the cups of flour that a page does not say how to fill lie about the unstated cup") {
  // A table's middle may not lie off by more than half the spread claimed between people.
  double sum = 0.0;
  int count = 0;
  for (const Pair& pair : pairs()) {
    if (pair.id == "plain_flour" && pair.unit == "cup" && pair.packing.empty()) {
      sum += pair.grams / weighed(pair).p50();
      ++count;
    }
  }
  MESSAGE(count, " cups of flour, mean ", sum / count, " of the unstated one");
  CHECK(count >= 20);
  CHECK(sum / count == doctest::Approx(1.0).epsilon(0.055));
}

TEST_CASE("every source of a published weight is named") {
  std::ifstream file(MASLIN_SOURCE_DIR "/tests/published/kitchen_weights.tsv");
  std::stringstream text;
  text << file.rdbuf();
  const std::string all = text.str();
  std::ifstream sources_file(MASLIN_SOURCE_DIR "/data/sources.tsv");
  std::stringstream sources;
  sources << sources_file.rdbuf();
  const std::string known = sources.str();
  for (const Pair& pair : pairs()) {
    const std::string key = pair.source.substr(0, pair.source.find(':'));
    const bool named = known.find("\n" + key + "\t") != std::string::npos ||
                       all.find("\n# " + key + ": ") != std::string::npos;
    CHECK_MESSAGE(named, key);
  }
}
