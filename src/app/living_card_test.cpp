// The living card as a file: whole, self-contained, under its weight, and safe to open whatever
// its recipe says.
#include "app/living_card.h"

#include <doctest/doctest.h>

#include "app/embedded_table.h"
#include "recipe/json.h"
#include "store/sha256.h"
#include "support/larder.h"

using namespace maslin;

namespace {

constexpr std::int64_t k_written_ms = 1777626000000;  // 2026-05-01T09:00Z

const Tools& tools() {
  static const Tools k_tools;
  return k_tools;
}

Recipe loaf(const std::string& title) {
  Recipe recipe;
  recipe.title = title;
  Part dough;
  dough.name = "dough";
  dough.lines = {weighed_line("strong_white_flour", 500), weighed_line("water", 320),
                 weighed_line("instant_yeast", 5), weighed_line("salt", 9)};
  dough.lines[0].text = title;
  recipe.parts = {dough};
  return recipe;
}

Result<LivingCard> card_of(const Recipe& recipe) {
  return living_card(tools(), recipe, {Kitchen(), k_written_ms});
}

/// What stands in the element with this id.
std::string element(const std::string& html, const std::string& id, const std::string& end) {
  const std::size_t at = html.find("id=\"" + id + "\">");
  REQUIRE(at != std::string::npos);
  const std::size_t from = html.find('>', at) + 1;
  return html.substr(from, html.find(end, from) - from);
}

/// The engine is another compiler's work; without it there are no cards.
bool has_engine() {
  return !app_data::embedded_table("card_frame.html").empty();
}

std::size_t count(const std::string& text, std::string_view what) {
  std::size_t out = 0;
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) {
    ++out;
  }
  return out;
}

}  // namespace

TEST_CASE("a card without an engine, or without a recipe, is refused with a sentence") {
  const Result<LivingCard> card = card_of(Recipe());
  CHECK_FALSE(card.value);
  CHECK(card.problem.back() == '.');
  CHECK((card.problem.find("no parts") != std::string::npos || !has_engine()));
}

TEST_CASE("a card says which recipe it is of, which maslin wrote it, and its own digest") {
  if (!has_engine()) {
    return;
  }
  const Result<LivingCard> card = card_of(loaf("Loaf"));
  REQUIRE_MESSAGE(card.value, card.problem);
  const std::string& html = card.value->html;
  const std::string data = element(html, "card", "</script>");
  const auto document = parse_json(data);
  REQUIRE(document);
  CHECK(text_at(*document, "maslin") == version());
  CHECK(text_at(*document, "recipe_id") == card.value->recipe_id);
  CHECK(text_at(*document, "written_at") == "2026-05-01T09:00:00.000Z");
  CHECK(html.find("data-sha256=\"" + card.value->sha256 + "\"") != std::string::npos);
  const std::string hashed = element(html, "style", "</style>") + "\n" + data + "\n" +
                             element(html, "engine", "</script>") + "\n" +
                             element(html, "page-script", "</script>");
  CHECK(sha256_hex(hashed) == card.value->sha256);
  CHECK(html.find("{{") == html.find("{{", html.find("<script id=\"page-script\">")));
}

TEST_CASE("a card asks for nothing from anywhere and weighs less than 1.5 MB") {
  if (!has_engine()) {
    return;
  }
  const std::string html = card_of(loaf("Loaf")).value->html;
  CHECK(html.size() < 1500000);
  CHECK(html.find("default-src 'none'") != std::string::npos);
  for (const char* asks : {"<link", "<img", "<iframe", " src=", "@import", "url(http"}) {
    CAPTURE(asks);
    CHECK(html.substr(0, html.find("<script")).find(asks) == std::string::npos);
  }
}

TEST_CASE("nothing that a recipe says ends an element or begins a script") {
  if (!has_engine()) {
    return;
  }
  const std::size_t scripts = count(card_of(loaf("Loaf")).value->html, "<script");
  for (const char* title :
       {"</script><script>window.hurt=1</script>", "</title><img src=x onerror=window.hurt=1>",
        "</pre></noscript><script>1</script>", "<!--<script>", "{{script}}{{engine}}", "]]>",
        "\"><svg onload=1>", "\xe2\x80\xa8\xe2\x80\xa9", "\xff\xfe</script>"}) {
    CAPTURE(title);
    const Result<LivingCard> card = card_of(loaf(title));
    REQUIRE_MESSAGE(card.value, card.problem);
    const std::string& html = card.value->html;
    CHECK(count(html, "<script") == scripts);
    CHECK(count(html, "<svg onload") == 0);
    CHECK(count(html, "<img src=x") == 0);
    CHECK(parse_json(element(html, "card", "</script>")).has_value());
  }
}
