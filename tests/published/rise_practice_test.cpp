// The rise against what the trade knows: common practice, no source.
#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "quantity/number_text.h"
#include "rise_kit.h"

using namespace maslin;
using namespace rise_kit;

TEST_CASE("a poolish is ripe in the morning") {
  // 0.08-0.1 % instant, as much water as flour, 21 C, 12-16 h, 25 %: common practice, no
  // source; ripe taken as x2.5.
  Row row = formula({{"flour_g", 100}, {"water_g", 100}, {"yeast_g", 0.09}}, "instant", 21.0);
  row.ratio = 2.5;
  const double hours = minutes_to(row) / 60.0;
  MESSAGE("poolish ripe after " << hours << " h");
  book::against(rise("poolish ripe, 0.09 % instant at 21 C", "h", k_practice, book::Mark::trade),
                hours, book::between(12.0 * 0.75, 16.0 * 1.25));
}

TEST_CASE("the lean end: one per cent instant doubles in 60 to 90 minutes") {
  // 2 % salt, 26-27 C: common practice, no source.
  const std::vector<Row> rows = table_rows();
  const double minutes = minutes_to(row_named(rows, "lean_practice"));
  MESSAGE("lean dough doubles in " << minutes << " min");
  book::against(rise("lean dough with 1 % instant doubles", "min", k_practice, book::Mark::trade),
                minutes, book::between(60.0, 90.0));
}

TEST_CASE("the sweet end: well within an hour, the pieces in half that, and more runs away") {
  // 26 % sugar, 60 % fruit extract and egg, a little butter, 1.6 % instant, 0.5 % salt, 30
  // to 35 C: doubles well within an hour, the shaped pieces again in 20-30 min; at 5-6 %
  // it would run away. Common practice, no source.
  const std::vector<Row> rows = table_rows();
  const Row& bulk = row_named(rows, "sweet_practice_bulk");
  const Row& proof = row_named(rows, "sweet_practice_proof");
  for (const double room : {30.0, 32.5, 35.0}) {
    std::vector<Row> warm = {bulk, proof};
    warm[0].room_c = warm[1].room_c = room;
    const double bulk_min = minutes_to(warm[0], warm);
    const double proof_min = minutes_to(warm[1], warm);
    MESSAGE("at " << room << " C: " << bulk_min << " min, pieces " << proof_min << " min");
    const std::string at = " at " + number_text(room, 1) + " C";
    book::against(rise("sweet dough doubles" + at, "min", k_practice, book::Mark::trade), bulk_min,
                  book::at_most(50.0));
    const book::Expected again = room > 30.0 ? book::between(20.0, 30.0) : book::at_least(20.0);
    book::against(rise("its pieces double again" + at, "min", k_practice, book::Mark::trade),
                  proof_min, again);
  }
  Row wild = bulk;
  wild.grams["yeast_g"] = 27.5;
  const double wild_min = minutes_to(wild, rows);
  MESSAGE("at 5.5 % instant: " << wild_min << " min");
  book::against(
      rise("time with 5.5 % instant over that with 1.6 %", "", k_practice, book::Mark::trade),
      wild_min / minutes_to(bulk, rows), book::at_most(0.7));
}
