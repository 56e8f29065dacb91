// Steps told without a verb or a degree, as in notes and messages. What they say; common practice,
// no source.
#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "support/reader.h"

using namespace maslin;
using reader::lines_of;
using reader::read;

namespace {

const std::string k_list = "buns\n\nflour 500 g\nwater 300 ml\nsalt 9 g\nyeast 7 g\n\n";

const Step* step_of(const Recipe& recipe, StepKind kind) {
  const Step* found = nullptr;
  for (const Step& step : recipe.parts.front().steps) {
    found = step.kind == kind ? &step : found;
  }
  return found;
}

}  // namespace

TEST_CASE("a dial's figures with the fan's beside them, and bare minutes, are a bake") {
  const Recipe recipe = read(k_list + "knead 12. rise 1 hr\nyolk on, 190 (170 fan) for 16-18\n");
  CHECK(lines_of(recipe).size() == 4);
  const Step* const bake = step_of(recipe, StepKind::bake);
  REQUIRE(bake != nullptr);
  REQUIRE(bake->celsius.has_value());
  CHECK(bake->celsius->low == 190.0);
  REQUIRE(bake->minutes.has_value());
  CHECK(bake->minutes->low == 16.0);
  CHECK(bake->minutes->high == 18.0);
  const Step* const knead = step_of(recipe, StepKind::knead);
  REQUIRE(knead != nullptr);
  REQUIRE(knead->minutes.has_value());
  CHECK(knead->minutes->low == 12.0);
  CHECK(step_of(recipe, StepKind::prove) != nullptr);
}

TEST_CASE("pieces and their mass begin a step, and what is waited after them is another") {
  for (const std::string said :
       {"8 pieces of 105 g, 2h at 26\u00b0C\n20 min at 180\n",
        "8 balls of about 105g, roll in seeds\nrest 120 under cloth\n25 min at 180\n"}) {
    CAPTURE(said);
    const Recipe recipe = read(k_list + "Mix, knead 10 min. First rise 1h30.\n" + said);
    CHECK(lines_of(recipe).size() == 4);
    const Step* const divide = step_of(recipe, StepKind::divide);
    REQUIRE(divide != nullptr);
    REQUIRE(divide->pieces.has_value());
    CHECK(divide->pieces->low == 8.0);
    CHECK(divide->piece_grams == 105.0);
    const Step* const bake = step_of(recipe, StepKind::bake);
    REQUIRE(bake != nullptr);
    CHECK(bake->celsius->low == 180.0);
    bool waits = false;
    for (const Step& step : recipe.parts.front().steps) {
      waits = waits || (step.minutes && step.minutes->low == 120.0);
    }
    CHECK(waits);
  }
}

TEST_CASE("the yeast is woken, which is no line of the list") {
  const Recipe recipe = read(k_list + "wake yeast in the warm water 10 min\nknead 10\n");
  CHECK(lines_of(recipe).size() == 4);
}
