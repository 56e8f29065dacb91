#include "server/device_routes.h"

#include <doctest/doctest.h>

#include <chrono>
#include <nlohmann/json.hpp>
#include <thread>

#include "server/network.h"
#include "server/raw_client.h"
#include "server/routes.h"

namespace maslin {
namespace {

using namespace std::chrono_literals;
using Json = nlohmann::json;

/// A server whose every request counts as from elsewhere, as over a network.
struct Kitchen {
  ApiHandlers handlers;
  std::unique_ptr<HttpServer> server;

  explicit Kitchen(bool far) {
    handlers.about = [] { return ApiAnswer{true, "{}", ""}; };
    handlers.devices.feed = std::make_shared<EventFeed>();
    handlers.devices.pairing = std::make_shared<Pairing>(
        PairingWorld{[] { return std::int64_t{1000}; }, random_bytes, {}}, std::vector<Device>{});
    *handlers.devices.address = "http://192.168.1.20:8420/";
    HttpOptions options;
    options.event_pause = 200ms;
    options.admit = [pairing = handlers.devices.pairing, far](const HttpHead& seen) {
      HttpHead head = seen;
      head.from_this_machine = !far;
      return admitted(*pairing, head);
    };
    HttpHandler inner = telling(routes(handlers), handlers.devices.feed, {"/api/v1/trials"});
    HttpStart start = start_http(options, [inner, far](const HttpRequest& request) {
      HttpRequest from = request;
      from.from_this_machine = !far;
      return inner(from);
    });
    REQUIRE_MESSAGE(start.server, start.problem);
    server = std::move(start.server);
  }

  std::string head(const std::string& start, const std::string& lines = "") const {
    return start + " HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(server->port()) + "\r\n" +
           lines + "\r\n";
  }
  std::string ask(const std::string& start, const std::string& lines = "") const {
    RawClient client(server->port());
    client.say(head(start, lines));
    return client.hear();
  }
  std::string post(const std::string& path, const std::string& body,
                   const std::string& lines = "") const {
    RawClient client(server->port());
    client.say(head("POST " + path, "Content-Type: application/json\r\nContent-Length: " +
                                        std::to_string(body.size()) + "\r\n" + lines) +
               body);
    return client.hear();
  }
  std::string join() const {
    const std::string code = handlers.devices.pairing->renew_code().text;
    const std::string said = post("/api/v1/pair", Json({{"code", code}, {"name", "phone"}}).dump());
    REQUIRE(status_of(said) == 200);
    const std::size_t at = said.find("maslin_device=");
    REQUIRE(at != std::string::npos);
    return "Cookie: theme=dark; " + said.substr(at, said.find(';', at) - at) + "\r\n";
  }
};

}  // namespace

TEST_CASE("An unpaired device gets the page and nothing of the interface") {
  const Kitchen kitchen(true);
  CHECK(status_of(kitchen.ask("GET /")) == 200);
  CHECK(status_of(kitchen.ask("GET /api/v1/about")) == 401);
  CHECK(status_of(kitchen.ask("GET /api/v1/about", "Cookie: maslin_device=guess\r\n")) == 401);
  CHECK(status_of(kitchen.ask("GET /api/v1/events")) == 401);
  CHECK(status_of(kitchen.ask("GET /api/v1/pictures/" + std::string(64, '0'))) == 401);
  CHECK(status_of(kitchen.post("/api/v1/trials/1/pictures", "x")) == 401);
  CHECK(status_of(kitchen.ask("GET /api/v1/pair/../about")) == 401);
  CHECK(status_of(kitchen.post("/api/v1/devices/code", "{}")) == 401);
}

TEST_CASE("A paired device is let in until it is removed, and looks after no devices") {
  const Kitchen kitchen(true);
  const std::string cookie = kitchen.join();
  CHECK(status_of(kitchen.ask("GET /api/v1/about", cookie)) == 200);
  CHECK(status_of(kitchen.ask("GET /api/v1/devices", cookie)) == 403);
  CHECK(status_of(kitchen.post("/api/v1/devices/code", "{}", cookie)) == 403);
  const std::string id = kitchen.handlers.devices.pairing->devices().front().id;
  CHECK(status_of(kitchen.post("/api/v1/devices/" + id + "/remove", "{}", cookie)) == 403);
  CHECK(kitchen.handlers.devices.pairing->remove(id));
  CHECK(status_of(kitchen.ask("GET /api/v1/about", cookie)) == 401);
}

TEST_CASE("Guessing a code is refused, and soon ended") {
  const Kitchen kitchen(true);
  for (int i = 0; i < 4; ++i) {
    CHECK(status_of(kitchen.post("/api/v1/pair", R"({"code":"2222-2222"})")) == 403);
  }
  CHECK(status_of(kitchen.post("/api/v1/pair", R"({"code":"2222-2222"})")) == 429);
  const auto code = kitchen.handlers.devices.pairing->code();
  CHECK(!code);
}

TEST_CASE("This machine lists devices, makes codes and removes devices") {
  const Kitchen kitchen(false);
  kitchen.join();
  const Json listed = Json::parse(body_of(kitchen.ask("GET /api/v1/devices")));
  CHECK(listed["lan"] == true);
  REQUIRE(listed["devices"].size() == 1);
  CHECK(listed["devices"][0]["name"] == "phone");
  CHECK(!listed["devices"][0].contains("secret"));
  CHECK(!listed.contains("code"));
  const Json fresh = Json::parse(body_of(kitchen.post("/api/v1/devices/code", "{}")));
  CHECK(fresh["code"].get<std::string>().size() == 9);
  const std::string id = listed["devices"][0]["id"];
  const Json after = Json::parse(body_of(kitchen.post("/api/v1/devices/" + id + "/remove", "{}")));
  CHECK(after["devices"].empty());
  CHECK(status_of(kitchen.post("/api/v1/devices/" + id + "/remove", "{}")) == 404);
}

TEST_CASE("Events reach who listens, with a sign of life between, and end with the device") {
  const Kitchen kitchen(true);
  const std::string cookie = kitchen.join();
  const EventFeed& feed = *kitchen.handlers.devices.feed;
  RawClient listener(kitchen.server->port());
  listener.say(kitchen.head("GET /api/v1/events", cookie));
  std::string heard;
  const auto until = [&](const std::string& words) {
    for (int i = 0; i < 100 && heard.find(words) == std::string::npos; ++i) {
      heard += listener.hear_some();
    }
    CHECK_MESSAGE(heard.find(words) != std::string::npos, heard);
  };
  until("text/event-stream");
  until("Content-Security-Policy");
  kitchen.handlers.devices.feed->tell("changed", R"({"what":"/api/v1/trials/1/notes"})");
  until("event: changed\ndata: {\"what\":\"/api/v1/trials/1/notes\"}\n\n");
  until(": still here");
  CHECK(feed.listeners() == 1);
  kitchen.handlers.devices.feed->stop_device(
      kitchen.handlers.devices.pairing->devices().front().id);
  while (!listener.hear_some().empty()) {
  }
  CHECK(feed.listeners() == 0);
}

TEST_CASE("A listener that leaves is forgotten, and the server goes on") {
  const Kitchen kitchen(false);
  const EventFeed& feed = *kitchen.handlers.devices.feed;
  {
    RawClient listener(kitchen.server->port());
    listener.say(kitchen.head("GET /api/v1/events"));
    CHECK(listener.hear_some().find("200 OK") != std::string::npos);
  }
  for (int i = 0; i < 200 && feed.listeners() > 0; ++i) {
    std::this_thread::sleep_for(10ms);
  }
  CHECK(feed.listeners() == 0);
  CHECK(status_of(kitchen.ask("GET /api/v1/about")) == 200);
}

}  // namespace maslin
