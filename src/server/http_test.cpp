#include "server/http.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <atomic>
#include <chrono>
#include <future>
#include <thread>

#include "server/raw_client.h"

namespace maslin {
namespace {

using namespace std::chrono_literals;

HttpResponse echo(const HttpRequest& request) {
  HttpResponse response;
  response.content_type = "text/plain";
  response.body = request.method + " " + request.path + "?" + request.query + " " + request.body;
  return response;
}

HttpOptions short_limits() {
  HttpOptions options;
  options.request_limit = 300ms;
  options.idle_limit = 2s;
  return options;
}

std::unique_ptr<HttpServer> served(HttpHandler handler, HttpOptions options = {}) {
  HttpStart start = start_http(options, std::move(handler));
  REQUIRE_MESSAGE(start.server, start.problem);
  return std::move(start.server);
}

std::string host_line(const HttpServer& server) {
  return "Host: 127.0.0.1:" + std::to_string(server.port()) + "\r\n";
}

std::string asked(const HttpServer& server, const std::string& start,
                  const std::string& further_lines = "", const std::string& body = "") {
  RawClient client(server.port());
  client.say(start + " HTTP/1.1\r\n" + host_line(server) + further_lines + "\r\n" + body);
  return client.hear();
}

void check_alive(const HttpServer& server) {
  CHECK(status_of(asked(server, "GET /alive")) == 200);
}

std::string length_line(std::size_t length) {
  return "Content-Length: " + std::to_string(length) + "\r\n";
}

}  // namespace

TEST_CASE("A request reaches the handler and its answer the client") {
  const auto server = served(echo);
  CHECK(body_of(asked(*server, "GET /a/b?c=d")) == "GET /a/b?c=d ");
  CHECK(body_of(asked(*server, "POST /x", length_line(5), "flour")) == "POST /x? flour");
}

TEST_CASE("One connection carries many requests, also when they are sent at once") {
  const auto server = served(echo);
  RawClient client(server->port());
  const std::string one = "GET /1 HTTP/1.1\r\n" + host_line(*server) + "\r\n";
  client.say(one);
  CHECK(body_of(client.hear()) == "GET /1? ");
  client.say(one + one);
  const std::string heard = client.hear();
  // Both answers may arrive in one piece or in two.
  const std::string rest = heard.rfind("HTTP/1.1") == 0 ? client.hear() : "";
  CHECK((heard + rest).rfind("GET /1? ") > (heard + rest).find("GET /1? "));
}

TEST_CASE("A HEAD request gets the length and no body") {
  const auto server = served(echo);
  const std::string heard = asked(*server, "HEAD /h", "Connection: close\r\n");
  CHECK(status_of(heard) == 200);
  CHECK(heard.find("Content-Length: 9\r\n") != std::string::npos);
  CHECK(body_of(heard).empty());
}

TEST_CASE("Every answer carries a policy that lets no inline script or style run") {
  const auto server = served(echo);
  for (const std::string& heard :
       {asked(*server, "GET /"), asked(*server, "GET /", "Origin: http://evil.example\r\n")}) {
    CHECK(heard.find("Content-Security-Policy: default-src 'none'; script-src 'self';") !=
          std::string::npos);
    CHECK(heard.find("unsafe-inline") == std::string::npos);
    CHECK(heard.find("X-Content-Type-Options: nosniff") != std::string::npos);
    CHECK(heard.find("Referrer-Policy: no-referrer") != std::string::npos);
  }
}

TEST_CASE("A Host that is not ours is refused before the handler sees it") {
  std::atomic<int> handled = 0;
  const auto server = served([&](const HttpRequest& request) {
    ++handled;
    return echo(request);
  });
  const std::string port = std::to_string(server->port());
  const auto with_host = [&](const std::string& lines) {
    RawClient client(server->port());
    client.say("GET / HTTP/1.1\r\n" + lines + "\r\n");
    return status_of(client.hear());
  };
  CHECK(with_host("Host: rebound.example:" + port + "\r\n") == 421);
  CHECK(with_host("Host: 127.0.0.1\r\n") == 421);
  CHECK(with_host("Host: 127.0.0.1:1\r\n") == 421);
  CHECK(with_host("Host: 127.0.0.1:" + port + ".evil.example\r\n") == 421);
  CHECK(with_host("") == 400);
  CHECK(with_host("Host: 127.0.0.1:" + port + "\r\nHost: evil.example\r\n") == 400);
  CHECK(handled == 0);
  CHECK(with_host("Host: LocalHost:" + port + "\r\n") == 200);
  CHECK(with_host("Host: [::1]:" + port + "\r\n") == 200);
}

TEST_CASE("The Origin of another page is refused, our own is not") {
  const auto server = served(echo);
  const std::string port = std::to_string(server->port());
  CHECK(status_of(asked(*server, "POST /", "Origin: http://evil.example\r\n" + length_line(0))) ==
        403);
  CHECK(status_of(asked(*server, "POST /", "Origin: null\r\n" + length_line(0))) == 403);
  CHECK(status_of(asked(*server, "POST /", "Origin: http://127.0.0.1:1\r\n" + length_line(0))) ==
        403);
  CHECK(status_of(asked(*server, "POST /",
                        "Origin: https://127.0.0.1:" + port + "\r\n" + length_line(0))) == 403);
  CHECK(status_of(asked(*server, "POST /",
                        "Origin: http://127.0.0.1:" + port + "\r\n" + length_line(0))) == 200);
}

TEST_CASE("Bodies and headers over their limits, and bodies without a length, are refused") {
  HttpOptions options;
  options.body_limit_bytes = 1024 * 1024;
  const auto server = served(echo, options);
  const std::string big(2 * 1024 * 1024, 'x');
  CHECK(status_of(asked(*server, "POST /", length_line(big.size()), big)) == 413);
  CHECK(status_of(asked(*server, "POST /", "Content-Length: 99999999999999\r\n")) == 413);
  CHECK(status_of(asked(*server, "GET /", "X-Long: " + std::string(20'000, 'x') + "\r\n")) == 431);
  CHECK(status_of(asked(*server, "GET /" + std::string(20'000, 'a'))) == 431);
  CHECK(status_of(asked(*server, "POST /", "Transfer-Encoding: chunked\r\n",
                        "5\r\nflour\r\n0\r\n\r\n")) == 411);
  check_alive(*server);
}

TEST_CASE("Other methods and what is not HTTP are refused") {
  const auto server = served(echo);
  CHECK(status_of(asked(*server, "DELETE /")) == 405);
  CHECK(status_of(asked(*server, "BREW /")) == 405);
  RawClient client(server->port());
  client.say("\x16\x03\x01 hello\r\n\r\n");
  CHECK(status_of(client.hear()) == 400);
  check_alive(*server);
}

TEST_CASE("A client that dawdles gets 408, and holds up nobody meanwhile") {
  const auto server = served(echo, short_limits());
  std::vector<std::unique_ptr<RawClient>> slow;
  for (int i = 0; i < 20; ++i) {
    slow.push_back(std::make_unique<RawClient>(server->port()));
    slow.back()->say("POST / HTTP/1.1\r\n" + host_line(*server) + length_line(100) +
                     (i % 2 == 0 ? "\r\nten bytes." : ""));
  }
  const auto begun = std::chrono::steady_clock::now();
  check_alive(*server);
  CHECK(std::chrono::steady_clock::now() - begun < 250ms);
  for (const auto& client : slow) {
    CHECK(status_of(client->hear()) == 408);
  }
}

TEST_CASE("A client that drips its header is cut off by the same limit") {
  const auto server = served(echo, short_limits());
  RawClient client(server->port());
  const auto begun = std::chrono::steady_clock::now();
  const std::jthread dripping([&](const std::stop_token& stop) {
    client.say("GET / HTTP/1.1\r\n" + host_line(*server));
    while (!stop.stop_requested()) {
      client.say("X");
      std::this_thread::sleep_for(20ms);
    }
  });
  CHECK(status_of(client.hear()) == 408);
  CHECK(std::chrono::steady_clock::now() - begun < 1500ms);
}

TEST_CASE("A quiet connection is closed, not answered") {
  HttpOptions options;
  options.idle_limit = 100ms;
  const auto server = served(echo, options);
  const RawClient client(server->port());
  CHECK(client.hear().empty());
}

TEST_CASE("Connections over the limit get 503 until others close") {
  HttpOptions options;
  options.connection_limit = 2;
  const auto server = served(echo, options);
  const std::string one = "GET /1 HTTP/1.1\r\n" + host_line(*server) + "\r\n";
  RawClient first(server->port());
  RawClient second(server->port());
  first.say(one);
  second.say(one);
  CHECK(status_of(first.hear()) == 200);
  CHECK(status_of(second.hear()) == 200);
  CHECK(status_of(asked(*server, "GET /")) == 503);
  first.close();
  second.close();
  int status = 503;
  for (int i = 0; i < 100 && status != 200; ++i) {
    std::this_thread::sleep_for(20ms);
    status = status_of(asked(*server, "GET /"));
  }
  CHECK(status == 200);
}

TEST_CASE("Work whose client has left is told so, and queued work is never begun") {
  std::atomic<int> begun = 0;
  std::atomic<int> told = 0;
  HttpOptions options;
  options.handler_threads = 1;
  const auto server = served(
      [&](const HttpRequest& request) {
        if (request.path == "/long") {
          ++begun;
          for (int i = 0; i < 500 && !request.gone.stop_requested(); ++i) {
            std::this_thread::sleep_for(10ms);
          }
          told += request.gone.stop_requested() ? 1 : 0;
        }
        return echo(request);
      },
      options);
  {
    RawClient working(server->port());
    RawClient queued(server->port());
    const std::string one = "GET /long HTTP/1.1\r\n" + host_line(*server) + "\r\n";
    working.say(one);
    while (begun == 0) {
      std::this_thread::sleep_for(1ms);
    }
    queued.say(one);
    std::this_thread::sleep_for(50ms);
    queued.close();
    std::this_thread::sleep_for(50ms);
  }
  check_alive(*server);
  CHECK(begun == 1);
  CHECK(told == 1);
}

TEST_CASE("A handler that throws costs its request a 500 and nothing else") {
  const auto server = served([](const HttpRequest& request) -> HttpResponse {
    if (request.path == "/bad") {
      throw std::runtime_error("no");
    }
    return echo(request);
  });
  CHECK(status_of(asked(*server, "GET /bad")) == 500);
  check_alive(*server);
}

TEST_CASE("Stopping lets a running answer end and refuses new ones") {
  std::promise<void> begun;
  auto server = served([&](const HttpRequest& request) {
    begun.set_value();
    std::this_thread::sleep_for(100ms);
    return echo(request);
  });
  const std::uint16_t port = server->port();
  RawClient client(port);
  RawClient quiet(port);
  client.say("GET /late HTTP/1.1\r\n" + host_line(*server) + "\r\n");
  begun.get_future().wait();
  server.reset();
  CHECK(body_of(client.hear()) == "GET /late? ");
  CHECK(quiet.hear().empty());
  RawClient late(port);
  late.say("GET / HTTP/1.1\r\n\r\n");
  CHECK(late.hear().empty());
}

TEST_CASE("Whatever bytes arrive, the server answers or closes, and lives") {
  HttpOptions options = short_limits();
  options.request_limit = 50ms;
  const auto server = served(echo, options);
  rc::check([&](const std::string& bytes, const std::string& more) {
    RawClient client(server->port());
    client.say(bytes);
    client.say("GET /" + more + " HTTP/1.1\r\n" + host_line(*server) + more + "\r\n\r\n" + bytes);
    const std::string heard = client.hear();
    RC_ASSERT(heard.empty() || status_of(heard) >= 200);
  });
  check_alive(*server);
}

TEST_CASE("A port that is taken gives a sentence, not a crash") {
  const auto server = served(echo);
  HttpOptions options;
  options.port = server->port();
  const HttpStart second = start_http(options, echo);
  CHECK(!second.server);
  CHECK(second.problem.find("try --port 0") != std::string::npos);
}

}  // namespace maslin
