// Steaming times of published recipes: tests/published/steaming_times.tsv.
#include <doctest/doctest.h>

#include <fstream>
#include <iterator>
#include <string>

#include "bake/bake.h"
#include "published/bake_dough.h"
#include "quantity/table.h"
#include "support/book.h"

using namespace maslin;

TEST_CASE("Steamed buns are cooked through in the minutes that recipes give them") {
  std::ifstream file(std::string(MASLIN_SOURCE_DIR) + "/tests/published/steaming_times.tsv");
  const std::string text((std::istreambuf_iterator<char>(file)), {});
  const Table table(text);
  REQUIRE(table.size() >= 4);
  for (std::size_t i = 0; i < table.size(); ++i) {
    Piece piece;
    piece.mass_g = table.number(i, "mass_g");
    piece.porosity = table.number(i, "porosity");
    piece.start_k = 301.15;
    piece.dough = dough_of(table.number(i, "water_pct"), table.number(i, "sugar_pct_flour"),
                           table.number(i, "fat_pct_flour"));
    DoneRule rule;
    rule.by = DoneBy::starch;
    const BakeRun run = bake_piece(piece, oven_of(OvenKind::steamer, 373.15), rule, {});
    CAPTURE(table.cell(i, "id"));
    REQUIRE(run.status == BakeStatus::done);
    const double minutes = run.minutes_to_done[0];
    // No recipe serves them raw, and none steams more than about twice as long as it must: the
    // minutes are to be safe for every pot.
    book::against(
        {"steaming", std::string(table.cell(i, "id")), "min", table.cell(i, "source"),
         book::Mark::read, table.cell(i, "miss")},
        minutes,
        book::between(table.number(i, "minutes_low") * 0.5, table.number(i, "minutes_high")));
    // Nothing in it gets hotter than the steam, and it takes up water.
    CHECK(run.at_done.surface_k[0] < 373.6);
    CHECK(run.at_done.weight_loss_pct[0] < 0.0);
    CHECK(run.at_done.core_k[0] > 363.15);
  }
}
