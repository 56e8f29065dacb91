#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "pantry/pantry.h"
#include "reading/found.h"

using namespace maslin;

namespace {

Reading read(const std::string& page) {
  static const Pantry k_pantry(embedded_pantry_tables());
  static const Words k_words(k_pantry);
  return read_found(page, k_pantry, k_words, {});
}

/// Every page here holds this recipe: 500 g flour, 320 g water, 10 g salt, 7 g yeast.
void check_recipe(const Reading& reading) {
  REQUIRE(!reading.problem);
  REQUIRE(!reading.recipe.parts.empty());
  const std::vector<Line>& lines = reading.recipe.parts[0].lines;
  REQUIRE(lines.size() == 4);
  const std::vector<std::pair<std::string, double>> wanted{
      {"strong_white_flour", 500}, {"water", 320}, {"salt", 10}, {"instant_yeast", 7}};
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    CHECK(lines[i].ingredient_id == wanted[i].first);
    CHECK(lines[i].found.number == Range{wanted[i].second, wanted[i].second});
    CHECK(lines[i].found.unit == "g");
  }
}

std::string tagged(const std::string& before, const std::string& after) {
  std::string out;
  for (const char* line :
       {"500 g strong white flour", "320 g water", "10 g salt", "7 g instant yeast"}) {
    out += before + line + after;
  }
  return out;
}

const std::string k_method =
    "<ol><li>Knead 10 minutes.</li><li>Rise 1 hour.</li><li>Bake at 220 "
    "&deg;C for 30 minutes.</li></ol>";

}  // namespace

TEST_CASE("a page that states its recipe in the open vocabulary is read from that") {
  // Forms of schema.org/Recipe (schema.org, "Recipe"; RDFa 1.1 Lite, HTML Microdata).
  check_recipe(
      read("<html><body vocab=\"https://schema.org/\"><p>I ate 3 cakes.</p><div "
           "typeof=\"Recipe\"><ul>" +
           tagged("<li property=\"recipeIngredient\">", "</li>") + "</ul></div></body></html>"));
  check_recipe(read("<html><body xmlns:s=\"http://schema.org/\"><div typeof=\"s:Recipe\">" +
                    tagged("<p property=\"s:ingredients\">", "</p>") + "</div></body></html>"));
  check_recipe(read("<html><body><div itemscope itemtype=\"https://schema.org/Recipe\">" +
                    tagged("<span itemprop=\"recipeIngredient\">", "</span><br>") +
                    "<div itemprop=\"recipeInstructions\" itemscope "
                    "itemtype=\"https://schema.org/HowToStep\"><span itemprop=\"text\">Bake at "
                    "220 C for 30 minutes.</span></div></div></body></html>"));
  // The first script is of the site, the second a list of one recipe, its texts with tags.
  check_recipe(
      read("<html><head><script type=\"application/ld+json\">{\"@type\":\"WebSite\"}</script>"
           "<script type=\"application/ld+json\">[{\"@type\":\"Recipe\",\"name\":\"Loaf\","
           "\"recipeIngredient\":[\"<b>500 g</b> strong white flour\",\"320&nbsp;g water\","
           "\"10 g salt\",\"7 g instant yeast\"]}]</script></head><body></body></html>"));
}

TEST_CASE("a page without vocabulary is read by its own structure") {
  const std::string head =
      "<html><head><title>Loaf</title></head><body><nav><ul><li>10 best "
      "tins</li><li>5 knives</li></ul></nav><h1>Loaf</h1>";
  const std::string tail = k_method +
                           "<div><h3>Comments</h3><p>Ann: I used 3 cups of rye "
                           "flour</p></div></body></html>";
  SUBCASE("lists, unclosed and with boxes to tick") {
    check_recipe(read(head + "<ul>" + tagged("<li>\xE2\x96\xA2 ", "") + "</ul>" + tail));
  }
  SUBCASE("lines parted by breaks") {
    check_recipe(read(head + "<p>You need:<br>" + tagged("", "<br>") + "</p>" + tail));
  }
  SUBCASE("a table, the name first") {
    check_recipe(read(head +
                      "<table><tr><td>Strong white flour</td><td>500 g</td></tr><tr><td>Water</td>"
                      "<td>320 g</td></tr><tr><td>Salt</td><td>10 g</td></tr><tr><td>Instant "
                      "yeast</td><td>7 g</td></tr></table>" +
                      tail));
  }
  SUBCASE("a list of definitions") {
    check_recipe(read(head +
                      "<dl><dt>Strong white flour</dt><dd>500 g</dd><dt>Water</dt><dd>320 "
                      "g</dd><dt>Salt</dt><dd>10 g</dd><dt>Instant yeast</dt><dd>7 g</dd></dl>" +
                      tail));
  }
  SUBCASE("words in spans without blanks between") {
    check_recipe(read(head +
                      "<ul><li><span>500</span><span>g</span><span>strong white flour</span></li>"
                      "<li><span>320</span><span>g</span><span>water</span></li><li><span>10</span>"
                      "<span>g</span><span>salt</span></li><li><span>7</span><span>g</span>"
                      "<span>instant yeast</span></li></ul>" +
                      tail));
  }
  SUBCASE("a stated recipe that is broken gives way to the page's list") {
    check_recipe(
        read("<html><head><script type=\"application/ld+json\">{\"@type\":\"Recipe\","
             "\"recipeIngredient\":[\"9 kg flour\",</script></head><body><ul>" +
             tagged("<li>", "</li>") + "</ul>" + tail));
  }
}

TEST_CASE("rows that a copied page broke in two are put together") {
  check_recipe(
      read("500 g\nstrong white flour\n320 g\nwater\n10 g\nsalt\n7 g\ninstant "
           "yeast\n\nKnead 10 minutes.\n"));
  check_recipe(
      read("Loaf\n\nStrong white flour\n500 g\nWater\n320 g\nSalt\n10 g\nInstant "
           "yeast\n7 g\n\nKnead 10 minutes.\n"));
}

TEST_CASE("a hostile page is read within bounds, and its scripts are dropped unread") {
  const std::string list = "<ul>" + tagged("<li>", "</li>") + "</ul>";
  std::string deep;
  for (int i = 0; i < 60'000; ++i) {
    deep += "<div><b>";
  }
  check_recipe(read("<html><body>" + list +
                    "<script>document.write('<li>9 kg salt</li>')</script>" +
                    "<style>li:after{content:'3 cups sugar'}</style><!-- 4 kg butter --></body>"));
  CHECK(!read("<html><body>" + deep + list).problem);
  CHECK(!read("<html><body " + std::string(200'000, 'a') + "=1>" + list).problem);
  CHECK(!read("<html><body>" + list + std::string(100'000, '<')).problem);
  CHECK(!read("<html><body>" + list + std::string(50'000, '&') + "#x;&#99999999999;").problem);
  CHECK(read("<html><body>" + std::string(5'000'000, 'x')).problem);
  std::string nested = "<html><head><script type=\"application/ld+json\">";
  nested += std::string(200'000, '[') + "</script></head><body>" + list;
  check_recipe(read(nested));
}
