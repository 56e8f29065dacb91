#include "recipe/room_day.h"

#include <doctest/doctest.h>

#include "recipe/recipe_json.h"

using namespace maslin;

namespace {

Kitchen told(const char* words) {
  Kitchen out;
  REQUIRE_MESSAGE(read_room(words, out), words);
  return out;
}

/// The room at an hour of the day, C.
double at(const Kitchen& kitchen, double hour) {
  return *kitchen.room_celsius + room_day(kitchen).at(60.0 * hour);
}

}  // namespace

TEST_CASE("one figure is the room all day") {
  const Kitchen kitchen = told("21");
  CHECK(!room_day(kitchen).changes());
  CHECK(at(kitchen, 3.0) == 21.0);
  CHECK(room_text(kitchen) == "21");
}

TEST_CASE("a night is cold from two to six, and every night") {
  const Kitchen kitchen = told("21, 14 at night");
  for (const double hour : {2.0, 4.0, 6.0, 28.0, -20.0}) {
    CHECK(at(kitchen, hour) == doctest::Approx(14.0));
  }
  for (const double hour : {8.0, 15.0, 22.0}) {
    CHECK(at(kitchen, hour) == doctest::Approx(21.0));
  }
  CHECK(at(kitchen, 0.0) == doctest::Approx(17.5));  // half way from ten to two
  CHECK(at(kitchen, 7.0) == doctest::Approx(17.5));
  CHECK(room_text(kitchen) == "21, 14 at night");
}

TEST_CASE("points by the hour are joined straight, round midnight too; the figure is their mean") {
  const Kitchen kitchen = told("16 at 6:00, 24 at 18");
  CHECK(*kitchen.room_celsius == doctest::Approx(20.0));
  CHECK(at(kitchen, 6.0) == doctest::Approx(16.0));
  CHECK(at(kitchen, 12.0) == doctest::Approx(20.0));
  CHECK(at(kitchen, 0.0) == doctest::Approx(20.0));
  CHECK(at(kitchen, 21.0) == doctest::Approx(22.0));
  CHECK(room_text(kitchen) == "16 at 06:00, 24 at 18:00");
  CHECK(*told("70 F; 59F at night").room_night_celsius == doctest::Approx(15.0));
}

TEST_CASE("what is no room is refused and changes nothing") {
  Kitchen kitchen = told("19, 15 at night");
  const Kitchen before = kitchen;
  for (const char* words : {"", "warm", "14 at night", "21, 14 at night, 16 at 7", "400",
                            "21 at 25", "20 at 7, 22 at 7:00", "21 K", "21, 22"}) {
    CAPTURE(words);
    CHECK(!read_room(words, kitchen));
    CHECK(kitchen == before);
  }
}

TEST_CASE("a kitchen's document carries the room both ways") {
  for (const char* words : {"21", "21, 14 at night", "16 at 06:00, 24 at 18:00"}) {
    const Kitchen kitchen = told(words);
    const KitchenDocument again = kitchen_from_json(kitchen_to_json(kitchen));
    CHECK(again.problems.empty());
    CHECK(again.kitchen == kitchen);
  }
  for (const char* document :
       {R"({"room_night_celsius": 14})", R"({"room_celsius": 20, "room_by_hour": {"25": 20}})",
        R"({"room_celsius": 20, "room_by_hour": [20]})", R"({"room_by_hour": {"7": 100}})",
        R"({"room_celsius": 20, "room_night_celsius": 14, "room_by_hour": {"7": 18}})"}) {
    CAPTURE(document);
    CHECK(!kitchen_from_json(document).problems.empty());
  }
  CHECK(*kitchen_from_json(R"({"room_by_hour": {"6": 16, "18:00": 24}})").kitchen.room_celsius ==
        doctest::Approx(20.0));
}
