#include "server/routes.h"

#include <doctest/doctest.h>

#include <fstream>
#include <nlohmann/json.hpp>
#include <set>

#include "server/page_files.h"

namespace maslin {
namespace {

using Json = nlohmann::json;

HttpRequest get(const std::string& path, const std::string& query = "") {
  HttpRequest request;
  request.method = "GET";
  request.path = path;
  request.query = query;
  return request;
}

HttpRequest post(const std::string& path, const std::string& body) {
  HttpRequest request;
  request.method = "POST";
  request.path = path;
  request.content_type = "application/json";
  request.body = body;
  return request;
}

ApiHandlers repeating() {
  ApiHandlers handlers;
  handlers.read = [](const ReadQuestion& q) {
    return ApiAnswer{true, Json({{"text", q.text}, {"name", q.name}, {"locale", q.locale}}).dump(),
                     ""};
  };
  handlers.forecast = [](const ForecastQuestion& q) {
    if (q.recipe_json == "{}") {
      return ApiAnswer{false, "", "The recipe has no flour: add a line with flour."};
    }
    return ApiAnswer{true, Json({{"recipe", q.recipe_json}, {"draws", q.draws.value_or(0)}}).dump(),
                     ""};
  };
  handlers.pantry = [](const std::string& word) {
    return ApiAnswer{true, Json({{"word", word}}).dump(), ""};
  };
  return handlers;
}

int status(const HttpRequest& request) {
  return routes(repeating())(request).status;
}
Json body(const HttpRequest& request) {
  return Json::parse(routes(repeating())(request).body);
}

}  // namespace

TEST_CASE("What is asked reaches the function behind it") {
  const Json read = body(post("/api/v1/read", R"({"text":"500 g flour","name":"a.txt"})"));
  CHECK(read["text"] == "500 g flour");
  CHECK(read["name"] == "a.txt");
  CHECK(read["locale"] == "");
  const Json forecast = body(post("/api/v1/forecast", R"({"recipe":{"title":"x"},"draws":256})"));
  CHECK(forecast["recipe"] == R"({"title":"x"})");
  CHECK(forecast["draws"] == 256);
  CHECK(status(post("/api/v1/forecast", R"({"recipe":{"title":"x"},"worth_measuring":3})")) == 400);
  CHECK(status(post("/api/v1/forecast", R"({"recipe":{"title":"x"},"what_if":"yes"})")) == 400);
  CHECK(status(post("/api/v1/forecast", R"({"recipe":{"title":"x"},"what_if":true})")) == 200);
  CHECK(status(post("/api/v1/forecast", R"({"recipe":{"title":"x"},"begins_at":"21:00"})")) == 200);
  CHECK(status(post("/api/v1/forecast", R"({"recipe":{"title":"x"},"begins_at":"late"})")) == 400);
  CHECK(body(get("/api/v1/pantry", "x=1&word=cr%C3%A8me+fra%69che"))["word"] == "crème fraiche");
}

TEST_CASE("A request that is not as described is refused with a sentence") {
  const std::string read = "/api/v1/read";
  CHECK(status(post(read, "")) == 400);
  CHECK(status(post(read, "{\"text\":")) == 400);
  CHECK(status(post(read, "[1,2]")) == 400);
  CHECK(status(post(read, "{\"text\":\"\xFF\xFE\"}")) == 400);
  CHECK(status(post(read, R"({"text":7})")) == 400);
  CHECK(status(post(read, R"({"txt":"flour"})")) == 400);
  CHECK(body(post(read, R"({"txt":"flour"})"))["problem"] ==
        "'txt' is not known here: use text, name, locale.");
  CHECK(status(post(read, std::string(100'000, '[') + std::string(100'000, ']'))) == 400);
  CHECK(status(post("/api/v1/forecast", "{}")) == 400);
  CHECK(status(post("/api/v1/forecast", R"({"recipe":{"a":1},"text":"both"})")) == 400);
  CHECK(status(post("/api/v1/forecast", R"({"recipe":[]})")) == 400);
  for (const char* draws : {"0", "-1", "1.5", "16385", "\"9\"", "1e99"}) {
    CHECK(status(post("/api/v1/forecast",
                      std::string(R"({"recipe":{"a":1},"draws":)") + draws + "}")) == 400);
  }
  CHECK(status(get("/api/v1/pantry")) == 400);
  HttpRequest form = post(read, R"({"text":"x"})");
  form.content_type = "text/plain";
  CHECK(status(form) == 415);
}

TEST_CASE("Deep nesting inside a recipe is refused before anything walks it") {
  const std::string deep =
      R"({"recipe":{"a":)" + std::string(50'000, '[') + std::string(50'000, ']') + "}}";
  CHECK(status(post("/api/v1/forecast", deep)) == 400);
  // Brackets inside text are only text.
  const std::string words = R"({"text":")" + std::string(500, '[') + R"(\"")" + "}";
  CHECK(status(post("/api/v1/read", words)) == 200);
}

TEST_CASE("A function that cannot answer says why with 422") {
  CHECK(status(post("/api/v1/forecast", R"({"recipe":{}})")) == 422);
  CHECK(body(post("/api/v1/forecast", R"({"recipe":{}})"))["problem"] ==
        "The recipe has no flour: add a line with flour.");
}

TEST_CASE("Unknown addresses, wrong methods and missing functions have their statuses") {
  CHECK(status(get("/api/v1/nothing")) == 404);
  CHECK(status(get("/api/v1/../read")) == 404);
  CHECK(status(get("/etc/passwd")) == 404);
  CHECK(status(get("/api/v1/read")) == 405);
  CHECK(status(post("/api/v1/about", "{}")) == 405);
  CHECK(status(post("/", "{}")) == 405);
  CHECK(status(get("/api/v1/about")) == 501);
}

TEST_CASE("Wants and holds reach the function that adjusts") {
  ApiHandlers handlers;
  handlers.adjust = [](const AdjustQuestion& q) {
    return ApiAnswer{true, Json({{"wants", q.wants}, {"holds", q.holds}}).dump(), ""};
  };
  const auto ask = [&](const std::string& body) {
    return routes(handlers)(post("/api/v1/adjust", body));
  };
  const HttpResponse said =
      ask(R"({"recipe":{"a":1},"wants":["softer","no egg"],"holds":["flour"]})");
  CHECK(Json::parse(said.body)["wants"] == Json({"softer", "no egg"}));
  CHECK(Json::parse(said.body)["holds"] == Json({"flour"}));
  CHECK(ask(R"({"wants":["softer"]})").status == 400);
  CHECK(ask(R"({"recipe":{"a":1},"wants":"softer"})").status == 400);
  CHECK(ask(R"({"recipe":{"a":1},"wants":[7]})").status == 400);
}

TEST_CASE("A day is asked for by its hour, or from now") {
  ApiHandlers handlers;
  handlers.plan = [](const PlanQuestion& q) {
    return ApiAnswer{true,
                     Json({{"ready_at", q.ready_at}, {"now", q.now}, {"done", q.done}}).dump(), ""};
  };
  const auto ask = [&](const std::string& body) {
    return routes(handlers)(post("/api/v1/plan", body));
  };
  const HttpResponse said = ask(
      R"({"text":"flour","ready_at":"2026-05-01T16:00","now":"2026-05-01T09:00","done":["knead=8:00/8:10"],"chance":0.8})");
  REQUIRE(said.status == 200);
  CHECK(Json::parse(said.body)["ready_at"] == "2026-05-01T16:00");
  CHECK(Json::parse(said.body)["done"][0] == "knead=8:00/8:10");
  CHECK(ask(R"({"text":"flour"})").status == 400);
  CHECK(ask(R"({"text":"flour","now":"2026-05-01T09:00","chance":1.5})").status == 400);
  CHECK(ask(R"({"text":"flour","now":"2026-05-01T09:00","chance":"high"})").status == 400);
}

TEST_CASE("Recipes are kept and found again by their names") {
  ApiHandlers handlers;
  handlers.library.version = [](const std::string& of) { return ApiAnswer{true, of, ""}; };
  handlers.library.keep = [](const KeepQuestion& q) {
    return ApiAnswer{true, Json({{"name", q.name}, {"why", q.why}, {"from", q.from}}).dump(), ""};
  };
  const HttpHandler handler = routes(handlers);
  CHECK(handler(get("/api/v1/library/version", "of=date%20knots%402")).body == "date knots@2");
  CHECK(handler(get("/api/v1/library/version", "of=")).status == 400);
  CHECK(handler(get("/api/v1/library/history", "name=knots")).status == 501);
  const HttpResponse kept = handler(
      post("/api/v1/library", R"({"recipe":{"a":1},"name":"knots","why":"wetter","from":"@1"})"));
  CHECK(Json::parse(kept.body)["why"] == "wetter");
  CHECK(handler(post("/api/v1/library", R"({"name":"knots"})")).status == 400);
  handlers.library.search = [](const std::string& words) { return ApiAnswer{true, words, ""}; };
  handlers.library.tag = [](const TagQuestion& q) {
    return ApiAnswer{true, q.name + (q.remove ? "-" : "+") + q.words.front(), ""};
  };
  const HttpHandler finding = routes(handlers);
  CHECK(finding(get("/api/v1/library/search", "words=card+plum")).body == "card plum");
  CHECK(finding(get("/api/v1/library/search", "words=")).status == 400);
  const auto tagged = [&](const char* body) { return finding(post("/api/v1/library/tags", body)); };
  CHECK(tagged(R"({"name":"knots","words":["sunday"]})").body == "knots+sunday");
  CHECK(tagged(R"({"name":"knots","words":["sunday"],"remove":true})").body == "knots-sunday");
  CHECK(tagged(R"({"name":"knots","words":[]})").status == 400);
  CHECK(tagged(R"({"name":"knots","words":"sunday"})").status == 400);
}

TEST_CASE("The interface is closed to other sites' pages") {
  HttpRequest request = get("/api/v1/pantry", "word=rye");
  request.fetch_site = "cross-site";
  CHECK(status(request) == 403);
  request.fetch_site = "same-origin";
  CHECK(status(request) == 200);
}

TEST_CASE("The page answers at the root, and a copy the browser has is not sent again") {
  const HttpResponse first = routes({})(get("/"));
  CHECK(first.status == 200);
  CHECK(first.content_type == "text/html; charset=utf-8");
  CHECK(!first.body.empty());
  HttpRequest again = get("/");
  again.if_none_match = page_file("/")->tag;
  const HttpResponse second = routes({})(again);
  CHECK(second.status == 304);
  CHECK(second.body.empty());
}

TEST_CASE("Base64 gives back its bytes (RFC 4648 section 10)") {
  CHECK(from_base64("") == "");
  CHECK(from_base64("Zg==") == "f");
  CHECK(from_base64("Zm8=") == "fo");
  CHECK(from_base64("Zm9v") == "foo");
  CHECK(from_base64("Zm9v\nYmFy\n") == "foobar");
}

TEST_CASE("The written description and the routes name the same addresses") {
  std::ifstream file(MASLIN_SOURCE_DIR "/docs/schema/openapi.json");
  const Json document = Json::parse(file);
  std::set<std::string> written;
  for (const auto& [path, methods] : document["paths"].items()) {
    for (const auto& [method, described] : methods.items()) {
      written.insert((method == "post" ? "POST " : "GET ") + path);
    }
  }
  const std::vector<std::string> answered = api_routes();
  CHECK(written == std::set<std::string>(answered.begin(), answered.end()));
}

}  // namespace maslin
