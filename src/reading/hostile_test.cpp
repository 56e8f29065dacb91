// Texts and pages made to keep the reader busy: each is read, or refused with one sentence, in
// bounded time and memory.
#include <doctest/doctest.h>
#include <sys/resource.h>

#include <ctime>
#include <string>

#include "pantry/pantry.h"
#include "reading/found.h"
#include "recipe/recipe_json.h"
#include "support/all_cases.h"

using namespace maslin;

namespace {

// On the slowest machine and under the sanitizers; quiet, the longest takes a second.
constexpr double k_most_seconds = 60.0;
constexpr long k_most_kb = 700'000;

const Pantry& pantry() {
  static const Pantry k_pantry(embedded_pantry_tables());
  return k_pantry;
}

Reading bounded(const std::string& found) {
  static const Words k_words(pantry());
  const std::clock_t start = std::clock();
  Reading out = read_found(found, pantry(), k_words, {});
  CHECK(static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC < k_most_seconds);
#if !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
  rusage used{};
  getrusage(RUSAGE_SELF, &used);
  CHECK(used.ru_maxrss < k_most_kb);
#endif
  if (out.problem) {
    const std::string said = sentence(*out.problem);
    CHECK(said.size() < 300);
    CHECK(said.find('\n') == std::string::npos);
  } else {
    // What was read can be kept and opened again.
    CHECK(recipe_from_json(recipe_to_json(out.recipe)).problems.empty());
  }
  return out;
}

std::string times(std::size_t count, const std::string& text) {
  std::string out;
  out.reserve(count * text.size());
  for (std::size_t i = 0; i < count; ++i) {
    out += text;
  }
  return out;
}

const std::string k_list =
    "<ul><li>500 g strong white flour</li><li>320 g water</li><li>10 g salt</li><li>7 g instant "
    "yeast</li></ul>";

/// The list of the page is read whatever stands around it.
void check_list(const std::string& head, const std::string& tail) {
  const Reading reading =
      bounded("<html><head>" + head + "</head><body>" + k_list + tail + "</body></html>");
  REQUIRE(!reading.problem);
  REQUIRE(!reading.recipe.parts.empty());
  REQUIRE(reading.recipe.parts[0].lines.size() == 4);
  CHECK(reading.recipe.parts[0].lines[0].grams.p50() == doctest::Approx(500.0));
}

std::string json_ld(const std::string& json) {
  return "<script type=\"application/ld+json\">" + json + "</script>";
}

}  // namespace

TEST_CASE("what is too long is refused before it is looked at") {
  const Reading page = bounded("<html><body>" + k_list + times(2'500'000, "<p>filler words</p>"));
  REQUIRE(page.problem);
  CHECK(sentence(*page.problem).find("longer than 4 MB") != std::string::npos);
  CHECK(bounded(std::string(50'000'000, 'x')).problem);
  CHECK(bounded(json_ld(times(1'000'000, "{\"@type\":\"Recipe\"},"))).problem);
}

TEST_CASE("JSON-LD with a million nodes gives way to the page's own list") {
  check_list(json_ld("[" + times(1'000'000, "1,") + "1]"), "");
  check_list(json_ld("{\"@graph\":[" + times(1'000'000, "{},") + "{}]}"), "");
  check_list(json_ld(times(300'000, "{\"a\":")), "");
  check_list(json_ld(times(500'000, "[")), "");
}

TEST_CASE("entities within entities are not unfolded") {
  std::string bomb = "<?xml version=\"1.0\"?><!DOCTYPE lolz [<!ENTITY lol \"lol\">";
  for (int i = 1; i < 10; ++i) {
    const std::string inner = i == 1 ? "&lol;" : "&lol" + std::to_string(i - 1) + ";";
    bomb += "<!ENTITY lol" + std::to_string(i) + " \"" + times(10, inner) + "\">";
  }
  const Reading reading = bounded(bomb + "]><html><body>" + k_list + "<p>&lol9;</p></body></html>");
  REQUIRE(!reading.problem);
  CHECK(reading.recipe.parts[0].lines.size() == 4);
  check_list("", "<p>" + times(300'000, "&amp;") + "</p>");
}

TEST_CASE("deep nesting is cut off") {
  check_list("", times(200'000, "<div>") + "x");
  check_list("", times(100'000, "<b><i><a>") + "x");
  check_list("", times(60'000, "<table><tr><td>") + "x");
}

TEST_CASE("broken UTF-8 is mended and what can be read is read") {
  const Reading text = bounded(
      "500 g strong white flour\n320 g w\xFF\xFE"
      "ater\n10 g \xC3salt\n7 g "
      "instant yeast\xF0\x9F\nKnead 10 minutes\n" +
      std::string(1'000'000, '\xFF'));
  REQUIRE(!text.problem);
  CHECK(text.recipe.parts[0].lines.size() >= 3);
  check_list("", times(100'000, "\xFF\xC0\x80\xED\xA0\x80"));
}

TEST_CASE("texts of one thing many thousand times over") {
  const std::size_t bytes = all_cases() ? 400'000 : 100'000;
  for (const char* piece :
       {"1 ", "(", "500 g flour, ", "500 g flour 2 eggs ", "500 g (2 cups) flour (", "\xC2\xBD",
        "500 g\n\nflour\n\n", "500 g flour\n", "01 - 2 cups flour\n", "\xC3\xA1 2 cups flour\n",
        "| ", "- ", "1:", "12 cup ", "2, 5 ", "a"}) {
    CAPTURE(piece);
    const std::string one = piece;
    static_cast<void>(bounded(times(bytes / one.size(), one)));
  }
}

TEST_CASE("what no kitchen does is left out with a doubt, and the rest stands") {
  const Reading reading = bounded(
      "Bread\n500 g flour\n300 g water\n7 g yeast\nMix. Shape into 99999999999 balls. Put in a "
      "99999999 x 400000 cm tin. Prove 9999999999999 hours. Bake at 200 C for 30 minutes.\n");
  REQUIRE(!reading.problem);
  CHECK(!reading.recipe.tin);
  CHECK(!reading.recipe.pieces);
  REQUIRE(reading.recipe.parts.size() == 1);
  int baked = 0;
  for (const Step& step : reading.recipe.parts[0].steps) {
    CHECK(!step.pieces);
    CHECK((step.kind == StepKind::bake) == step.minutes.has_value());
    baked += step.kind == StepKind::bake && step.minutes->low == 30.0 ? 1 : 0;
  }
  CHECK(baked == 1);
  int left_out = 0;
  for (const Doubt& doubt : reading.recipe.doubts) {
    left_out += doubt.why.find("left out") != std::string::npos ? 1 : 0;
  }
  CHECK(left_out == 3);
}

TEST_CASE("more steps and lines than a recipe has are kept as words") {
  const Reading reading = bounded(times(700, "500 g flour\n") + "Method\n" +
                                  times(700, "Bake at 200 C for 30 minutes.\n"));
  REQUIRE(!reading.problem);
  CHECK(reading.recipe.parts[0].steps.size() == 400);
  CHECK(reading.recipe.remarks.size() >= 300);
}
