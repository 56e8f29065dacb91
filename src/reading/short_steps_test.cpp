// Steps told without a verb or a degree, as in notes and messages. What they say; common practice,
// no source.
#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "quantity/number_text.h"
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

namespace {

/// The steps after kneading, as "bake 220 10; bake 190 20".
std::string told(const std::string& method) {
  const Recipe recipe = read(k_list + "Mix, knead 10 min.\n" + method + "\n");
  std::string out;
  for (const Step& step : recipe.parts.front().steps) {
    if (step.kind == StepKind::mix || step.kind == StepKind::knead) {
      continue;
    }
    out += (out.empty() ? "" : "; ") + std::string(step_kind_name(step.kind));
    out += step.celsius ? " " + number_text(step.celsius->low, 0) + " C" : "";
    out += step.minutes ? " " + number_text(step.minutes->low, 0) : "";
    out += step.minutes && step.minutes->high > step.minutes->low
               ? "-" + number_text(step.minutes->high, 0)
               : "";
  }
  return out;
}

}  // namespace

TEST_CASE("heats one after the other, marks beside degrees, minutes without their word") {
  CHECK(told("220C for 10 then 190C for another 20") == "bake 220 C 10; bake 190 C 20");
  CHECK(told("Bake at Gas Mark 7 or 220C for 20 minutes") == "bake 220 C 20");
  CHECK(told("Bake at 220/gas 7 for 10 then turn down to 190/5 for another 20-25.") ==
        "bake 220 C 10; bake 190 C 20-25");
  CHECK(told("Preheat the oven to 200C. Bake for 10 minutes, then 180C for 20 minutes") ==
        "bake 200 C 10; bake 180 C 20");
  CHECK(told("Shape. Oven 200. 15-20 mins till golden.") == "shape; bake 200 C 15-20");
}

TEST_CASE("an hour to an hour and a half, shares of an hour, times at the head of a page") {
  CHECK(told("greased bowl, hour to hour and a half") == "prove 60-90");
  CHECK(told("rise til doubled, hour and a half in the hot press") == "prove 90");
  CHECK(told("rise hour to hour and a half") == "prove 60-90");
  CHECK(told("Shape. You get about sixteen, half an hour to rest.") == "shape; rest 30");
  CHECK(told("Rise 45 min/1h.") == "prove 45-60");
  CHECK(told("Proved 50 min by the oven.") == "prove 50");
  CHECK(told("Bake at 200C for 20 minutes. Wrapped, it keeps 2 weeks.").find("20160") ==
        told("Bake at 200C for 20 minutes. Wrapped, it keeps 2 weeks.").rfind("finish 20160") + 7);
}
