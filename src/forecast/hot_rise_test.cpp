// A rise is never as hot as an oven.
#include <doctest/doctest.h>

#include "forecast/schedule.h"
#include "recipe/hot_rise.h"

using namespace maslin;

TEST_CASE("a rise that states an oven's heat is planned in a warm place, with a doubt") {
  // Yeast is killed within minutes from 55 to 60 C; common practice, no source.
  Recipe recipe;
  recipe.parts.push_back({});
  Step prove;
  prove.kind = StepKind::prove;
  prove.text = "rise half an hour, hot oven";
  prove.minutes = Range{30.0, 30.0};
  for (const double celsius : {38.0, 55.0, 120.0, 220.0}) {
    CAPTURE(celsius);
    prove.celsius = Range{celsius, celsius};
    recipe.parts[0].steps = {prove};
    const Schedule schedule = schedule_of(recipe, Kitchen{}, 800.0, true);
    REQUIRE(!schedule.proves.empty());
    const bool hot = celsius > k_hottest_rise_celsius;
    CHECK(schedule.proves[0].place == (hot ? ProvePlace::warm : ProvePlace::stated));
    CHECK(schedule.proves[0].stated_celsius == (hot ? 0.0 : celsius));
    bool said = false;
    for (const Doubt& doubt : schedule.doubts) {
      said = said || doubt.why.find("yeast dies") != std::string::npos;
    }
    CHECK(said == hot);
  }
}
