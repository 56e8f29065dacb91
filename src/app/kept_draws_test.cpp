// The full forecast that goes on from a quick one says what one begun anew says.
#include "app/kept_draws.h"

#include <doctest/doctest.h>

#include "app/app.h"

using namespace maslin;

namespace {

constexpr const char* k_buns =
    "Buns\n\n500 g strong white flour\n325 g water\n10 g salt\n7 g instant yeast\n20 g butter\n\n"
    "Knead for 10 minutes.\nLeave to rise for 1 hour until doubled.\nShape into 12 buns and prove "
    "for 45 minutes.\nBake at 220C for 15 minutes.\n";

std::string forecast_with(const Tools& tools, const Recipe& recipe, std::uint32_t draws,
                          KeptDraws* kept, const std::string& key) {
  ForecastRequest request;
  request.options.draws = draws;
  request.kept = kept;
  request.kept_key = key;
  const Result<ForecastSummary> summary = forecast_recipe(tools, recipe, request);
  return summary.value ? summary_to_json(*summary.value) : summary.problem;
}

}  // namespace

TEST_CASE("Draws kept from a quick forecast leave the full one as it is") {
  const Tools tools;
  const Recipe recipe = read_recipe(tools, {k_buns, "", ""}).value.value();
  KeptDraws kept;
  forecast_with(tools, recipe, 16, &kept, "buns");
  CHECK(forecast_with(tools, recipe, 48, &kept, "buns") ==
        forecast_with(tools, recipe, 48, nullptr, ""));
  // From 256 draws on they stand in another order, of which none is taken twice.
  CHECK(forecast_with(tools, recipe, 264, &kept, "buns") ==
        forecast_with(tools, recipe, 264, nullptr, ""));
  CHECK(forecast_with(tools, recipe, 512, &kept, "buns") ==
        forecast_with(tools, recipe, 512, nullptr, ""));
  // Fewer draws than were kept are the first of them.
  CHECK(forecast_with(tools, recipe, 24, &kept, "buns") ==
        forecast_with(tools, recipe, 24, nullptr, ""));
}

TEST_CASE("Draws are kept once, under their key, and not without end") {
  KeptDraws kept;
  kept.keep("a", std::vector<BatchOutcome>(2));
  CHECK(kept.take("b").empty());
  CHECK(kept.take("a").size() == 2);
  CHECK(kept.take("a").empty());
  for (const char* key : {"a", "b", "c", "d", "e"}) {
    kept.keep(key, std::vector<BatchOutcome>(1));
  }
  CHECK(kept.take("a").empty());
  CHECK(kept.take("e").size() == 1);
  kept.keep("large", std::vector<BatchOutcome>(1000));
  CHECK(kept.take("large").empty());
}
