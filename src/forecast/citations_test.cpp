#include "forecast/citations.h"

#include <doctest/doctest.h>

#include <filesystem>

using namespace maslin;

TEST_CASE("every figure of a forecast names a document that exists and checks that were run") {
  const std::vector<Citation> all = citations();
  REQUIRE(all.size() >= 10);
  for (const Citation& one : all) {
    CAPTURE(one.figure);
    CHECK(std::filesystem::exists(std::string(MASLIN_SOURCE_DIR) + "/" + one.document));
    CHECK_FALSE(one.checks.empty());
    for (const ChecksHeld& held : one.checks) {
      CHECK(held.figures > 0);
      CHECK(held.met <= held.figures);
      CHECK(held.met > 0);
    }
  }
}
